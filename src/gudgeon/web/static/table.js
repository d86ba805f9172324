// The table of a part, in comfort: Enter sends a row by itself and goes on to the next one.
// Nothing is called recorded before the book has it; what gets no answer waits on the device, is sent again under the same
// id, and counts once.
"use strict";

(() => {
  const form = document.querySelector("form[data-fill]");
  if (!form) return;
  let waiting = Promise.resolve();

  const openCells = () => [...form.querySelectorAll("input[data-cell]")]
    .filter((cell) => !cell.readOnly && cell.offsetParent !== null);

  const say = (row, words, { shape = "", refused = false, entry = "" } = {}) => {
    const told = row.querySelector("[data-told]");
    const said = document.createElement("span");
    said.className = refused ? "fill-refused" : "fill-said";
    const mark = shape && document.getElementById(`shape-${shape}`);
    if (mark) said.append(mark.content.cloneNode(true), " ");
    said.append(words);
    told.replaceChildren(said);
    if (!entry) return;
    const strike = document.createElement("a");
    strike.className = "strike";
    strike.href = `/strike/${encodeURIComponent(entry)}?back=${encodeURIComponent(form.elements.back.value)}`;
    strike.textContent = "Strike it";
    told.append(" ", strike);
  };

  // Only what was refused as a likely slip may be kept all the same.
  const offer = (row, keepable) => {
    const place = row.querySelector("[data-sure]");
    if (!keepable) { place.replaceChildren(); return; }
    if (place.firstElementChild) return;
    const tick = document.getElementById("row-sure").content.cloneNode(true);
    tick.querySelector("input").name = `sure.${row.dataset.row}`;
    place.replaceChildren(tick);
  };

  // How many places have which verdict, as the book says it after this row.
  const count = (counts) => {
    const top = document.querySelector("[data-counts]");
    if (!top || !counts || !counts.length) return;
    top.replaceChildren(...counts.flatMap(({ words, shape }) => {
      const state = document.createElement("span");
      state.className = `state state-${shape}`;
      const mark = document.getElementById(`shape-${shape}`);
      if (mark) state.append(mark.content.cloneNode(true));
      const said = document.createElement("span");
      said.textContent = words;
      state.append(said);
      return [state, " "];
    }));
  };

  const body = (row) => {
    const number = row.dataset.row;
    const item = row.dataset.item;
    const sent = new URLSearchParams();
    for (const one of new FormData(form)) {
      const [name, of] = one[0].split(".");
      if (of === undefined || of === number || of === item) sent.append(name === one[0] ? name : one[0], one[1]);
    }
    return sent;
  };

  const recorded = (row, answer) => {
    form.elements.basis.value = answer.basis;
    // The drawing of its places is made anew, with this reading in it.
    const drawing = row.closest(".fill-group").querySelector("[data-drawing]");
    if (drawing) drawing.src = `${drawing.dataset.drawing}?${answer.basis.slice(0, 12)}`;
    count(answer.counts);
    row.querySelector("[data-sure]").replaceChildren();
    const why = answer.why && answer.why !== answer.verdict ? `: ${answer.why}` : "";
    say(row, `In the book. ${answer.verdict.toUpperCase()}${why}`, { shape: answer.shape, entry: answer.entry });
  };
  const locked = (row, on) => row.querySelectorAll("input[data-cell]").forEach((cell) => { cell.readOnly = on; });

  // A row waits on the device until the book has answered; what it says of the row then stands in the row.
  const queue = window.gudgeon && gudgeon.queue;
  const sent = new Map();
  const wait = async (row, cells) => {
    const number = row.dataset.row;
    const title = document.querySelector("h1").textContent.trim();
    const values = cells.map((cell) => cell.value.trim()).join(" / ");
    const { entry } = await queue.put({
      address: "/good/row",
      body: body(row).toString(),
      words: `${title}, ${form.elements[`place.${number}`].value}: ${values}`,
      place: location.pathname,
      entry: form.elements[`entry.${number}`].value,
    });
    sent.set(entry, row);
    locked(row, true);
  };
  const told = async ({ type, detail }) => {
    const row = sent.get(detail.entry);
    if (!row) return;
    sent.delete(detail.entry);
    if (type === "gudgeon:recorded") { recorded(row, detail.told); return; }
    await queue.drop(detail.entry); // its reason and its value stand in the row
    locked(row, false);
    say(row, detail.said, { refused: true });
    offer(row, Boolean(detail.told && detail.told.keepable));
  };
  document.addEventListener("gudgeon:recorded", told);
  document.addEventListener("gudgeon:refused", told);
  document.addEventListener("gudgeon:queue", ({ detail }) => {
    if (!detail.away && !detail.unpaired) return;
    for (const row of sent.values()) say(row, "Waits on this device, not in the book yet.", { refused: true });
  });

  const sendAtOnce = async (row) => {
    let answer;
    try {
      const response = await fetch("/good/row", { method: "POST", body: body(row) });
      if (!(response.headers.get("content-type") || "").startsWith("application/json")) {
        say(row, "Not recorded: this page is older than the book. Open it anew, then write it again.", { refused: true });
        return;
      }
      answer = await response.json();
    } catch {
      say(row, "Not recorded yet: no answer. Press Enter in this row to send it again.", { refused: true });
      return;
    }
    if (!answer.recorded) {
      say(row, answer.said, { refused: true });
      offer(row, answer.keepable);
      return;
    }
    locked(row, true);
    recorded(row, answer);
  };

  const send = async (row) => {
    const cells = [...row.querySelectorAll("input[data-cell]")];
    if (cells.every((cell) => !cell.value.trim()) || cells.some((cell) => cell.readOnly)) return;
    say(row, "on its way …");
    if (queue) {
      try { await wait(row, cells); return; } catch { /* This browser keeps nothing: it is sent at once. */ }
    }
    await sendAtOnce(row);
  };

  form.addEventListener("keydown", (event) => {
    const cell = event.target;
    if (!cell.matches("input[data-cell]")) return;
    const row = cell.closest("[data-row]");
    const cells = openCells();
    const next = cells[cells.indexOf(cell) + 1];
    // Some gauges end what they type with Tab: behind a figure it writes the row, as Enter does.
    const tabbed = event.key === "Tab" && !event.shiftKey && !event.ctrlKey && !event.altKey && cell.value.trim() &&
      !(next && next.closest("[data-row]") === row);
    if (event.key !== "Enter" && !tabbed) return;
    event.preventDefault();
    if (!next || next.closest("[data-row]") !== row) waiting = waiting.then(() => send(row));
    if (next) next.focus(); else form.querySelector("button[type=submit]").focus();
  });
})();
