// What waits on this device stands on every page; and a form that gets no answer is kept instead of lost.
// A form goes through the queue, and the page that the book leads to follows. What the book refuses is shown as without
// a script: the same form is sent as a form, and the page comes back with the reason above it.
"use strict";

(() => {
  const queue = window.gudgeon && gudgeon.queue;
  const bar = document.getElementById("waits");
  if (!queue || !bar) return;
  const line = bar.querySelector("[aria-live]");
  const details = bar.querySelector("details");
  const list = bar.querySelector("ul");
  const HEARD_MS = 12000;
  const AT_ONCE_MS = 600;
  const WORDS_MOST = 240;

  const made = (name, words, { className = "" } = {}) => {
    const one = document.createElement(name);
    if (words) one.textContent = words;
    if (className) one.className = className;
    return one;
  };
  const hour = (time) => {
    const then = new Date(time);
    const clock = then.toLocaleTimeString("en-US", { hour: "2-digit", minute: "2-digit", hour12: false });
    if (then.toDateString() === new Date().toDateString()) return clock;
    return `${then.toLocaleDateString("en-US", { weekday: "short", month: "short", day: "numeric" })}, ${clock}`;
  };
  const entries = (count) => (count === 1 ? "1 entry" : `${count} entries`);
  const here = () => `${location.pathname}${location.search}`;

  // The sentences of the bar, the gravest first.
  const keptAt = document.body.dataset.kept || "";
  const sentences = ({ waiting, refused, unread, away, since, unpaired, trouble, keeps }) => {
    const said = [];
    if (unpaired) {
      said.push(waiting
        ? `This device is not paired any more. ${entries(waiting)} ${waiting === 1 ? "waits" : "wait"} on it, not in the book yet, and ${waiting === 1 ? "is" : "are"} kept. Pair this device again, and ${waiting === 1 ? "it is" : "they are"} sent by ${waiting === 1 ? "itself" : "themselves"}: do not write ${waiting === 1 ? "it" : "them"} again.`
        : "This device is not paired any more, so it cannot write into the book.");
    } else {
      if (away) said.push(`No answer from the book since ${hour(since)}.${waiting ? "" : keeps ? " What you write waits here." : ""}`);
      if (waiting) said.push(`${entries(waiting)} ${waiting === 1 ? "waits" : "wait"} on this device, not in the book yet.`);
    }
    if (refused) said.push(`The book refused ${entries(refused)}: not recorded.`);
    if (unread) said.push(`Of what waited, ${entries(unread)} ${unread === 1 ? "is" : "are"} in the book with something to look at.`);
    if (trouble && waiting && !unpaired) said.push(trouble);
    if (keptAt) said.push(`This page is as it was at ${hour(keptAt)}.`);
    if ((away || waiting) && !window.isSecureContext) {
      said.push("Leave this page open: without the book it cannot be loaded again. Set the device not to sleep. What waits is kept on it all the same.");
    }
    if (!keeps && (away || waiting)) {
      said.push("This browser keeps nothing for these pages (a private window, or its storage is full): what you write is sent at once, and without an answer it stays in its form.");
    }
    return said;
  };

  const button = (words, name, act) => {
    const one = made("button", words);
    one.type = "button";
    one.setAttribute("aria-label", `${words}: ${name}`);
    one.addEventListener("click", act);
    return one;
  };
  const link = (words, name, address) => {
    const one = made("a", words, { className: "button" });
    one.href = address;
    one.setAttribute("aria-label", `${words}: ${name}`);
    return one;
  };

  // What the form says, without what ties it to the moment at which it was made.
  const PASSING = ["entry", "basis", "back", "chain", "seal", "knew", "ago", "recorded"];
  const fieldsIn = (text) => [...new URLSearchParams(text)].filter(([name, value]) => value && !PASSING.includes(name.split(".")[0]));
  const same = (one, other) => one.address === other.address && JSON.stringify(fieldsIn(one.body)) === JSON.stringify(fieldsIn(other.body));

  // Where the form is in which a refused entry can be written anew, with what was written where its page takes that.
  const LONGEST = 6000;
  const formOf = (one) => {
    const back = new URLSearchParams(one.body).get("back") || "";
    const own = /^\/(?![/\\])/;
    if (!one.address.startsWith("/record/")) return own.test(one.place) ? one.place : own.test(one.address) ? one.address : "/";
    if (/^\/record\/(pull|loosened|looked)$/.test(one.address)) return own.test(back) ? back : "/set";
    const said = new URLSearchParams(fieldsIn(one.body));
    if (own.test(back)) said.set("back", back);
    const whole = `${one.address}?${said}`;
    return whole.length > LONGEST ? one.address : whole;
  };
  // A pull that this device has sent since for the same joint, stage, pass and bolt.
  const pullOf = ({ place = "" }) => (place.includes("#") ? place.replace("#asks-", "#") : "");
  const meanwhile = (one, sent) => (pullOf(one).includes("-bolt-")
    ? sent.find((other) => pullOf(other) === pullOf(one) && other.chain === one.chain && other.settled > one.at) : null);

  const item = (one, sent) => {
    const row = made("li");
    row.append(made("p", gudgeon.clipped(one.words || "An entry", WORDS_MOST), { className: "waits-words" }));
    row.append(made("p", one.refused ? `Refused, not in the book. Written at ${hour(one.at)}.` : `Waits since ${hour(one.at)}, not in the book yet.`, { className: "soft" }));
    if (!one.refused) return row;
    row.append(made("p", one.refused, { className: "waits-why" }));
    const later = meanwhile(one, sent);
    if (later) row.append(made("p", `The same pull is in the book meanwhile: ${gudgeon.clipped(later.words)}.`, { className: "waits-words" }));
    const buttons = made("p", "", { className: "buttons" });
    if (!one.content) buttons.append(button("Send it once more", one.words, () => queue.again(one.entry)));
    else if (!later) buttons.append(link("Write it anew", one.words, formOf(one)));
    buttons.append(button("I have read it: put it away", one.words, () => queue.drop(one.entry)));
    row.append(buttons);
    return row;
  };

  const lateItem = (one) => {
    const row = made("li");
    row.append(made("p", `In the book: ${gudgeon.clipped(one.said || one.words, WORDS_MOST)}`, { className: "waits-words" }));
    one.remarks.forEach((words) => row.append(made("p", `Look. ${words}`, { className: "waits-why" })));
    const buttons = made("p", "", { className: "buttons" });
    buttons.append(button("I have read it", one.words, () => queue.read(one.entry)));
    row.append(buttons);
    return row;
  };

  let shownWords = "";
  let shownList = "";
  const show = async () => {
    const standing = queue.standing();
    const waits = await queue.waiting().catch(() => []);
    const late = await queue.unread().catch(() => []);
    const said = sentences(standing);
    const words = said.join(" ");
    if (words !== shownWords) {
      shownWords = words;
      line.replaceChildren(...said.map((one) => made("span", `${one} `)));
      if (standing.unpaired) {
        const pair = made("a", "Pair it again");
        pair.href = `/pair?${new URLSearchParams({ to: here() })}`;
        line.append(pair);
      } else if (keptAt && !standing.away) {
        const anew = made("a", "The book answers: load the page anew");
        anew.href = here();
        line.append(anew);
      }
    }
    const sent = waits.some((one) => one.refused) ? await queue.sent().catch(() => []) : [];
    const kept = JSON.stringify([waits.map((one) => [one.entry, one.refused, Boolean(meanwhile(one, sent))]), late.map((one) => one.entry)]);
    if (kept !== shownList) {
      shownList = kept;
      list.replaceChildren(...late.map(lateItem), ...waits.map((one) => item(one, sent)));
      details.hidden = waits.length + late.length === 0;
      if (late.length) details.open = true;
    }
    bar.classList.toggle("small", !standing.waiting && !standing.unread && !standing.unpaired && !standing.away && !keptAt);
    bar.hidden = !words;
    usedUp(waits);
  };
  // The reason of a refusal opens by itself where it comes; on later pages the bar is one line.
  document.addEventListener("gudgeon:refused", () => { details.open = true; });
  // An entry that is on its way for a moment is no news.
  let timer = 0;
  const showSoon = () => {
    const { away, unpaired, refused, unread } = queue.standing();
    clearTimeout(timer);
    if (away || unpaired || refused || unread || !bar.hidden) show(); else timer = setTimeout(show, AT_ONCE_MS);
  };
  document.addEventListener("gudgeon:queue", showSoon);
  if (keptAt) {
    // A kept page offers the same ids each time it is shown; each entry has its own.
    document.querySelectorAll("input[name=entry], input[name^='entry.']").forEach((one) => { one.value = gudgeon.newId(); });
    queue.heard({ answered: false });
    show();
  }

  // What a form says, in its own words: for the list of what waits.
  const plain = (one) => (one ? one.textContent.replace(/\s+/g, " ").trim() : "");
  const titleOf = (form) => {
    const title = plain(document.querySelector("h1")).slice(0, 80);
    const part = form.closest("details, section, fieldset");
    const near = part && [...part.querySelectorAll("summary, h2, h3, legend")].filter((one) => (
      one.compareDocumentPosition(form) & (Node.DOCUMENT_POSITION_FOLLOWING | Node.DOCUMENT_POSITION_CONTAINED_BY))).pop();
    return [title, form.getAttribute("aria-label") || plain(near).slice(0, 80)].filter(Boolean).join(", ");
  };
  const wordsOf = (form, submitter) => {
    if (form.dataset.words) return form.dataset.words;
    const said = [...form.elements].flatMap((one) => {
      if (one.disabled || ["hidden", "submit", "button", "file", "fieldset"].includes(one.type) || !one.value) return [];
      if (one.type === "checkbox" || one.type === "radio") {
        return one.checked && one.labels && one.labels[0] ? [one.labels[0].textContent.trim()] : [];
      }
      if (one.matches("select")) return one.selectedOptions[0] && one.value ? [one.selectedOptions[0].textContent.trim()] : [];
      return one.value.trim() ? [one.value.trim()] : [];
    });
    const pressed = plain(submitter);
    if (!said.length && pressed) return (submitter.querySelector(".unseen") ? pressed : `${titleOf(form)}: ${pressed}`).slice(0, 300);
    return [titleOf(form), said.concat(pressed && submitter.name ? [pressed] : []).join(", ")].filter(Boolean).join(": ").slice(0, 300);
  };

  const body = (form, submitter) => {
    const sent = new URLSearchParams();
    for (const [name, value] of new FormData(form)) if (typeof value === "string") sent.append(name, value);
    if (submitter && submitter.name) sent.append(submitter.name, submitter.value);
    return sent.toString();
  };

  // A message has a block of its own: in a row of a list below it, over its whole width.
  const notes = new WeakMap();
  const note = (form, words, { quiet = false } = {}) => {
    const place = notes.get(form) || made("p", "", { className: "waits-here" });
    notes.set(form, place);
    place.setAttribute("role", "status");
    place.textContent = words;
    const row = form.closest("li");
    if (row) row.append(place); else form.before(place);
    if (!quiet) place.scrollIntoView({ block: "nearest" });
  };

  // A form in which nothing is written says the same each time: once it waits, it is used up until the book has said no.
  const inQueue = /^\/(record\/|begin$|strike\/)/;
  const bare = (form) => form.method === "post" && inQueue.test(new URL(form.action).pathname) &&
    [...form.elements].every((one) => ["hidden", "submit", "button"].includes(one.type));
  const used = new Map();
  const close = (form, entry) => {
    used.set(form, entry);
    [...form.elements].forEach((one) => { if (one.matches("button")) one.disabled = true; });
  };
  const reopen = (form) => {
    used.delete(form);
    [...form.elements].forEach((one) => { if (one.matches("button")) one.disabled = false; });
  };
  const usedUp = (waits) => {
    if (!waits.length && !used.size) return;
    for (const form of document.forms) {
      if (!bare(form) || used.has(form)) continue;
      const buttons = [...form.elements].filter((one) => one.matches("button"));
      if (buttons.length !== 1) continue;
      const mine = { address: new URL(form.action).pathname, body: body(form, buttons[0]) };
      const found = waits.find((one) => !one.refused && same(one, mine));
      if (!found) continue;
      close(form, found.entry);
      note(form, `Waits on this device, not in the book yet: ${found.words}.`, { quiet: true });
    }
  };
  const answeredFor = ({ type, detail }) => {
    for (const [form, entry] of used) {
      if (entry !== detail.entry) continue;
      if (type === "gudgeon:refused") reopen(form);
      note(form, settledWords(type, detail), { quiet: true });
    }
  };
  const settledWords = (type, detail) => (type === "gudgeon:recorded"
    ? `In the book: ${gudgeon.clipped(detail.said || detail.words, WORDS_MOST)}` : `Refused, not in the book: ${gudgeon.clipped(detail.words, WORDS_MOST)}. Why stands above.`);
  document.addEventListener("gudgeon:recorded", answeredFor);
  document.addEventListener("gudgeon:refused", answeredFor);

  const asForm = (form, submitter) => {
    delete form.dataset.sent;
    form.dataset.straight = "yes";
    if (form.requestSubmit) form.requestSubmit(submitter && submitter.form === form ? submitter : undefined); else form.submit();
  };

  // What becomes of an entry: recorded, refused, or no answer for now.
  const outcome = (entry) => new Promise((resolve) => {
    const told = ({ type, detail }) => {
      if (type !== "gudgeon:queue") { if (detail.entry === entry) done({ type, detail }); return; }
      if (detail.away || detail.unpaired) done({ type: "away" });
    };
    const types = ["gudgeon:recorded", "gudgeon:refused", "gudgeon:queue"];
    const late = setTimeout(() => done({ type: "away" }), HEARD_MS);
    const done = (found) => {
      clearTimeout(late);
      types.forEach((type) => document.removeEventListener(type, told));
      resolve(found);
    };
    types.forEach((type) => document.addEventListener(type, told));
  });

  const send = async (form, submitter) => {
    const words = wordsOf(form, submitter);
    const address = new URL(form.action).pathname;
    const mine = { address, body: body(form, submitter) };
    const before = (await queue.waiting().catch(() => [])).find((one) => !one.refused && same(one, mine));
    if (before) {
      delete form.dataset.sent;
      note(form, `It waits on this device already, written at ${hour(before.at)}, and is not written twice: ${gudgeon.clipped(words, WORDS_MOST)}.`);
      if (bare(form)) close(form, before.entry);
      show();
      return;
    }
    let entry = "";
    try {
      ({ entry } = await queue.put({ ...mine, words, place: form.dataset.place || "" }));
    } catch {
      if (await answers()) { asForm(form, submitter); return; }
      delete form.dataset.sent;
      note(form, "Not recorded: the book does not answer, and this browser keeps nothing for these pages. Leave the page open, and press it again.");
      return;
    }
    const found = await outcome(entry);
    if (found.type === "gudgeon:recorded") {
      const then = found.detail.then || here();
      location.assign(then);
      return;
    }
    if (found.type === "gudgeon:refused") {
      await queue.drop(entry);
      asForm(form, submitter);
      return;
    }
    delete form.dataset.sent;
    form.reset();
    form.elements.entry.value = gudgeon.newId();
    note(form, `Waits on this device, not in the book yet: ${gudgeon.clipped(words, WORDS_MOST)}. It is sent as soon as the book answers.`);
    if (bare(form)) { close(form, entry); show(); return; }
    const settled = ({ type, detail }) => {
      if (detail.entry !== entry) return;
      note(form, settledWords(type, detail));
      document.removeEventListener("gudgeon:recorded", settled);
      document.removeEventListener("gudgeon:refused", settled);
    };
    document.addEventListener("gudgeon:recorded", settled);
    document.addEventListener("gudgeon:refused", settled);
    show();
  };

  // Whether the book answers at all.
  const answers = async () => {
    const stop = new AbortController();
    const late = setTimeout(() => stop.abort(), 4000);
    try {
      return (await fetch("/standing", { cache: "no-store", signal: stop.signal })).status < 500;
    } catch {
      return false;
    } finally {
      clearTimeout(late);
    }
  };

  // A file, and what is no entry of the book, goes only while the book answers; what was written stays in the form.
  const sendNow = async (form, submitter) => {
    if (await answers()) { asForm(form, submitter); return; }
    delete form.dataset.sent;
    const what = form.querySelector("input[type=file]") ? "A photo or a file" : "This";
    note(form, `Not sent: the book does not answer. ${what} does not wait on the device: leave this page open, and press it again when the book answers.`);
  };

  document.addEventListener("submit", (event) => {
    const form = event.target;
    if (event.defaultPrevented || form.method !== "post") return;
    if (form.dataset.straight) { delete form.dataset.straight; return; }
    const address = new URL(form.action);
    if (address.origin !== location.origin) return;
    event.preventDefault();
    const chosen = [...form.querySelectorAll("input[type=file]")].some((one) => one.value);
    if (inQueue.test(address.pathname) && !chosen && form.elements.entry) send(form, event.submitter);
    else sendNow(form, event.submitter);
  });
})();
