// The table of a part, in comfort: Enter sends a row by itself and goes on to the next one.
// Nothing is called recorded before the book has it; what got no answer is sent again under the same id, and counts once.
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

  // Only what was refused may be kept all the same.
  const offer = (row) => {
    const place = row.querySelector("[data-sure]");
    if (place.firstElementChild) return;
    const tick = document.getElementById("row-sure").content.cloneNode(true);
    tick.querySelector("input").name = `sure.${row.dataset.row}`;
    place.replaceChildren(tick);
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

  const send = async (row) => {
    const cells = [...row.querySelectorAll("input[data-cell]")];
    if (cells.every((cell) => !cell.value.trim()) || cells.some((cell) => cell.readOnly)) return;
    say(row, "on its way …");
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
      offer(row);
      return;
    }
    form.elements.basis.value = answer.basis;
    row.querySelector("[data-sure]").replaceChildren();
    cells.forEach((cell) => { cell.readOnly = true; });
    const why = answer.why && answer.why !== answer.verdict ? `: ${answer.why}` : "";
    say(row, `In the book. ${answer.verdict.toUpperCase()}${why}`, { shape: answer.shape, entry: answer.entry });
  };

  form.addEventListener("keydown", (event) => {
    const cell = event.target;
    if (event.key !== "Enter" || !cell.matches("input[data-cell]")) return;
    event.preventDefault();
    const row = cell.closest("[data-row]");
    const cells = openCells();
    const next = cells[cells.indexOf(cell) + 1];
    if (!next || next.closest("[data-row]") !== row) waiting = waiting.then(() => send(row));
    if (next) next.focus(); else form.querySelector("button[type=submit]").focus();
  });
})();
