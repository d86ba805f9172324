// The screen at the wrench: keys for greasy hands, sounds, speech, a screen that stays awake, and the next pull at once.
// Every pull is still a form; without this script, or without what keeps entries on the device, it is sent as one.
"use strict";

window.gudgeon = window.gudgeon || {};

(() => {
  const place = document.getElementById("screen");
  if (!place) return;
  const hands = document.getElementById("hands");
  const told = document.getElementById("told");
  const ARMED_MS = 15000;
  const SAID_MS = 5000;
  const KEYS = ["PageDown", "Enter", " "];

  const forLong = (name, value) => {
    try {
      if (value !== undefined) localStorage.setItem(name, value);
      return localStorage.getItem(name);
    } catch { return null; }
  };

  // Sounds. A browser lets a page sound only after somebody has touched it.
  const sounds = document.getElementById("sounds");
  const aloud = document.getElementById("aloud");
  const TONES = {
    taken: [[660, 0, 0.12], [990, 0.13, 0.18]],
    ignored: [[150, 0, 0.3]],
    armed: [[440, 0, 0.1], [440, 0.2, 0.1], [440, 0.4, 0.1]],
    refused: [[220, 0, 0.18], [150, 0.2, 0.3]],
  };
  let speaker = null;
  const wake = () => {
    try {
      const Made = window.AudioContext || window.webkitAudioContext;
      if (!speaker && Made) speaker = new Made();
      if (speaker && speaker.state === "suspended") speaker.resume();
    } catch { speaker = null; }
  };
  const sound = (name) => {
    if (!sounds.checked) return;
    wake();
    try {
      for (const [pitch, after, length] of TONES[name]) {
        const tone = speaker.createOscillator();
        const volume = speaker.createGain();
        tone.type = name === "taken" ? "sine" : "square";
        tone.frequency.value = pitch;
        volume.gain.value = 0.25;
        tone.connect(volume).connect(speaker.destination);
        tone.start(speaker.currentTime + after);
        tone.stop(speaker.currentTime + after + length);
      }
    } catch { /* It is said in words too. */ }
  };
  const readAloud = (words) => {
    if (!aloud.checked || !words || !window.speechSynthesis) return;
    try {
      const said = new SpeechSynthesisUtterance(words);
      said.lang = "en-US";
      speechSynthesis.cancel();
      speechSynthesis.speak(said);
    } catch { /* It stands on the screen. */ }
  };

  // Words in one line above the pull; a press that is waited for stays until it comes or its time is over.
  let silence = 0;
  const hush = () => { hands.hidden = true; hands.textContent = ""; delete hands.dataset.armed; };
  const say = (words, { lasting = false } = {}) => {
    clearTimeout(silence);
    hands.hidden = false;
    hands.textContent = words;
    delete hands.dataset.armed;
    if (!lasting) silence = setTimeout(hush, SAID_MS);
  };
  const refuse = (words, field) => {
    sound("refused");
    say(words);
    if (field) field.focus();
  };

  const element = (name, words = "", more = {}) => Object.assign(document.createElement(name), { textContent: words }, more);
  const tell = (title, words, { entry = "", remarks = [], alert = false } = {}) => {
    const box = element("div", "", { className: alert ? "refusal" : "said brief" });
    box.setAttribute("role", alert ? "alert" : "status");
    const line = element("p");
    line.append(element("strong", title), ` ${words} `);
    if (entry) line.append(element("a", "Strike it", { className: "strike", href: `/strike/${entry}?back=${encodeURIComponent(`${base}#next`)}` }));
    box.append(line, ...remarks.map((one) => {
      const remark = element("p", "", { className: "remark" });
      remark.append(element("strong", "Look."), ` ${one}`);
      return remark;
    }));
    told.replaceChildren(box);
  };

  // The plan: what may be shown before the book has answered.
  const base = place.dataset.plan.replace(/\/plan$/, "");
  let plan = null;
  let waiting = [];
  let mine = new Set();
  let goingOn = new URLSearchParams(location.search).get("go_on") === "yes";
  // The stages of which somebody said on this page that the line is painted; the book tells it from their first pull on.
  const painted = new Set([Number(new URLSearchParams(location.search).get("painted"))]);
  let stale = false;
  // As the book reads it: `Nm` is a torque and `nm` is none.
  const bare = (text) => text.replace(/(\d) +([A-Za-z])/, "$1$2").replace(/([A-Za-z])[ ·\-*]([A-Za-z])/g, "$1$2");
  // What was typed beside an answer, until the book has it: a refusal gives it back.
  const typed = new Map();
  const TYPED = ["setting", "with_what"];
  const giveBack = () => {
    const before = typed.get(shownKey());
    if (!before) return;
    for (const name of TYPED) {
      const field = place.querySelector(`input[name=${name}]`);
      if (field && !field.value && before[name]) field.value = before[name];
    }
  };
  const keyOf = (pull) => `stage-${pull.stage}-pass-${pull.round}-bolt-${pull.bolt}`;
  const keyIn = (one) => one.place.slice(base.length + 1).replace(/^asks-/, "");
  const shownKey = () => {
    const section = place.querySelector("[data-pull]");
    if (!section) return "";
    const form = section.querySelector("form.outcomes");
    return `stage-${form.elements.stage.value}-pass-${form.elements.round.value}-bolt-${form.elements.bolt.value}`;
  };
  const shownPull = () => plan && plan.pulls.find((one) => keyOf(one) === shownKey());
  const typing = () => {
    const at = document.activeElement;
    return (place.contains(at) && at.matches("input[type=text], textarea, select")) || Boolean(place.querySelector(".answers details[open]"));
  };

  const fetchPlan = async (more = {}) => {
    const shownWith = new URLSearchParams(location.search);
    const wanted = new URLSearchParams(more);
    if (shownWith.get("bolts_are")) wanted.set("bolts_are", shownWith.get("bolts_are"));
    if (goingOn) wanted.set("go_on", "yes");
    const answer = await fetch(`${place.dataset.plan}?${wanted}`, { headers: { Accept: "application/json" }, cache: "no-store" });
    if (!answer.ok) throw new Error(`The plan was answered with ${answer.status}`);
    // Out of reach it comes from what the browser kept, and is older than what was sent after that.
    return { ...await answer.json(), kept: answer.headers.get("Gudgeon-Kept") || "" };
  };
  // Pulls that the book has, and of which the plan at hand knows nothing yet: they are never shown again.
  const settled = new Map();
  // What was recorded and asks for the book before the next pull, until it was asked.
  let toBeAsked = "";
  // When the book last said what is shown, by the clock of this device.
  let saidAt = Date.parse(document.body.dataset.kept || "") || Date.now();
  // A plan of another book is none of this page, and one that was kept before what is shown would lead back.
  const serves = (fresh) => fresh.chain === document.body.dataset.chain &&
    (!fresh.kept || Date.parse(fresh.kept) >= saidAt || fresh.basis === (plan || document.body.dataset).basis);
  const takePlan = async (fresh, askedAt) => {
    for (const [key, at] of settled) if (at < askedAt && !fresh.kept) settled.delete(key);
    if (fresh.kept && gudgeon.queue) {
      const sent = await gudgeon.queue.sent().catch(() => []);
      const later = sent.filter((one) => (one.place || "").startsWith(`${base}#`) && one.settled >= Date.parse(fresh.kept));
      for (const one of later) settled.set(keyIn(one), performance.now());
    }
    if (!fresh.kept) toBeAsked = "";
    saidAt = Date.parse(fresh.kept) || Date.now();
    plan = fresh;
  };
  const recount = async () => {
    if (!gudgeon.queue) { waiting = []; return; }
    try {
      const all = await gudgeon.queue.waiting();
      waiting = all.filter((one) => !one.refused && (one.place || "").startsWith(`${base}#`));
    } catch { waiting = []; }
  };

  // A piece of a page as the server drew it; nothing in it is run.
  const drawn = (html) => new DOMParser().parseFromString(html, "text/html").body.childNodes;
  const standing = document.getElementById("state");
  const fill = (html) => {
    place.replaceChildren(...drawn(html));
    standing.classList.toggle("with-pull", Boolean(place.querySelector("[data-pull]")));
  };
  const put = (html, { top = true } = {}) => {
    const focused = place.contains(document.activeElement);
    fill(html);
    if (focused) { const section = place.firstElementChild; section.tabIndex = -1; section.focus({ preventScroll: true }); }
    if (top) document.getElementById("next").scrollIntoView();
  };
  const asking = (words) => {
    const section = element("section", "", { className: "pull pull-stop" });
    section.setAttribute("aria-label", "The book is asked");
    const head = element("p", "", { className: "pull-where" });
    head.append(element("b", "The book is asked"));
    const line = element("p", `${words.replace(/[.!?]$/, "")}. The next pull is shown when the book has answered.`, { className: "lead" });
    section.append(head, line);
    place.replaceChildren(section);
  };
  // Show what comes next, by the plan and by what waits on this device.
  const show = ({ quiet = false } = {}) => {
    if (!plan) return;
    const asks = waiting.find((one) => one.place.startsWith(`${base}#asks-`));
    if (asks || toBeAsked) { disarm(); asking(asks ? asks.words : toBeAsked); return; }
    const held = new Set([...waiting.map(keyIn), ...settled.keys()]);
    const next = plan.pulls.find((one) => !held.has(keyOf(one)));
    const before = shownKey();
    if (!next) { disarm(); if (!(quiet && place.querySelector(".pull-stop") && !before)) put(plan.then); else fill(plan.then); return; }
    if (next.paint && !painted.has(next.stage)) {
      disarm();
      if (place.querySelector("[data-painted]")) return;
      put(next.paint);
      readAloud(place.querySelector(".lead").textContent);
      return;
    }
    const shown = place.querySelector("input[name=setting]");
    const value = shown && before === keyOf(next) ? shown.value : "";
    if (before !== keyOf(next)) disarm();
    put(next.html, { top: before !== keyOf(next) });
    const field = place.querySelector("input[name=setting]");
    if (value && field) field.value = value;
    giveBack();
    if (armed) mark();
    if (before !== keyOf(next)) readAloud(next.speech);
  };
  let asked = 0;
  let answered = 0;
  const refresh = async ({ recorded = "" } = {}) => {
    const askedAt = performance.now();
    const turn = ++asked;
    let fresh;
    try { fresh = await fetchPlan(recorded ? { recorded } : {}); } catch { return; }
    if (turn < answered || !serves(fresh)) return;
    answered = turn;
    await recount();
    if (typing()) { stale = true; return; }
    stale = false;
    await takePlan(fresh, askedAt);
    if (fresh.state) standing.replaceChildren(...drawn(fresh.state));
    for (const note of document.querySelectorAll("[data-note]")) if (!fresh.notes.includes(note.dataset.note)) note.remove();
    for (const [name, count] of Object.entries(fresh.counts)) {
      const link = document.querySelector(`.counts a[href="/open#${name.replaceAll(" ", "-")}"] b`);
      if (link) link.textContent = count;
    }
    if (fresh.before && !place.querySelector("[data-go-on]")) { disarm(); told.replaceChildren(); put(fresh.before); return; }
    if (fresh.before || place.querySelector("[data-go-on]")) return;
    await show({ quiet: true });
  };

  // A press arms first where an answer may not slip, and counts the second time.
  let armed = "";
  let disarming = 0;
  const main = () => place.querySelector(".main");
  const mark = () => { const button = main(); if (button) button.dataset.armed = "yes"; };
  const disarm = () => {
    clearTimeout(disarming);
    if (armed) hush();
    armed = "";
    const button = main();
    if (button) delete button.dataset.armed;
  };
  const arm = (button) => {
    armed = shownKey() || "here";
    mark();
    say(`Armed, nothing is written yet. Press once more, two seconds after the first time: ${button.textContent.trim()}.`, { lasting: true });
    hands.dataset.armed = "yes";
    sound("armed");
    clearTimeout(disarming);
    disarming = setTimeout(() => { disarm(); say("Not armed any more: nothing was written."); }, ARMED_MS);
  };
  const ignore = () => {
    sound("ignored");
    if (armed) { hands.textContent = "Too soon: wait two seconds after the first press."; } else say("A second press within a second and a half is not counted.");
  };
  const tooSoon = () => {
    if (gudgeon.justNow(Number(gudgeon.forNow("gudgeon.pressed") || 0))) { ignore(); return true; }
    gudgeon.forNow("gudgeon.pressed", String(Date.now()));
    return false;
  };
  document.addEventListener("gudgeon:ignored", ignore);

  const missing = (form, outcome) => {
    const { setting, angle_deg: angle, seen } = form.elements;
    const field = setting instanceof RadioNodeList ? setting[0] : setting;
    if (field && !field.closest("details") && outcome !== "doubtful" && !field.value.trim()) {
      return ["Not written: read the scale first, and write what it shows.", field];
    }
    if (outcome === "stopped at" && angle && !angle.value.trim()) return ["Not written: say how far it turned.", angle];
    if (seen && !seen.value.trim()) return ["Not written: say what you see first.", seen];
    return null;
  };

  // Not at once: while a form is being submitted a browser takes no other submission of it.
  const post = (form, button) => setTimeout(() => {
    form.dataset.own = "yes";
    form.requestSubmit(button);
  }, 0);
  let busy = false;
  const answer = async (form, button) => {
    const outcome = button.value;
    const lack = missing(form, outcome);
    if (lack) { disarm(); refuse(...lack); return; }
    if (!gudgeon.queue || !shownKey()) { sound("taken"); post(form, button); return; }
    busy = true;
    const body = new URLSearchParams(new FormData(form));
    body.set(button.name, outcome);
    const pull = shownPull();
    const setting = (body.get("setting") || "").trim();
    const sure = pull && pull.goes_on.includes(outcome) && !body.get("tool") && (!setting || pull.reads.includes(bare(setting)));
    const setTo = pull && setting && !pull.reads.includes(bare(setting)) ? `, the wrench set to ${setting}` : "";
    const words = `${pull ? pull.words : place.querySelector(".pull-where b").textContent}${setTo}: ${outcome}`;
    disarm();
    hush();
    const entry = body.get("entry");
    typed.set(shownKey(), Object.fromEntries(TYPED.map((name) => [name, body.get(name) || ""])));
    try {
      mine.add(entry);
      tell("On its way:", `${words}.`);
      await gudgeon.queue.put({
        address: form.getAttribute("action").split("#")[0],
        body: body.toString(),
        words,
        place: `${base}#${sure ? "" : "asks-"}${shownKey()}`,
      });
    } catch {
      // Nothing is kept on this device: the form goes as a form.
      busy = false;
      post(form, button);
      return;
    }
    sound("taken");
    goingOn = false;
    history.replaceState(null, "", `${base}#next`);
    try {
      await recount();
      if (sure) await show();
      else if (waiting.some((one) => one.entry === entry)) asking(words);
    } finally {
      busy = false;
    }
  };

  const press = () => {
    if (busy || tooSoon()) return;
    const act = main();
    if (!act) { refuse("No answer here is given by a key: look at the screen."); return; }
    const form = act.closest("form");
    if (place.querySelector(".answers details[open]:not(.pull-line)")) {
      refuse("Another answer is open on the screen: finish it or close it first.");
      return;
    }
    const lack = form && missing(form, act.value);
    if (lack) { disarm(); refuse(...lack); return; }
    const deliberate = form ? Boolean(place.querySelector(".pull-twice")) || !shownKey() : !act.matches("[data-go-on], [data-ask]");
    if (deliberate && !armed) { arm(act); return; }
    if (!form) { disarm(); sound("taken"); act.click(); return; }
    answer(form, act);
  };

  document.addEventListener("keydown", (event) => {
    if (!KEYS.includes(event.key) || event.altKey || event.ctrlKey || event.metaKey || event.shiftKey) return;
    const at = event.target;
    const page = event.key === "PageDown";
    wake();
    if (at.matches("textarea, select")) return;
    if (at.matches("input[type=text]") && !page) {
      if (event.key !== "Enter" || !place.contains(at)) return;
      event.preventDefault();
      if (event.repeat) return;
      const more = at.closest("details");
      if (more && more.querySelector("button")) { more.querySelector("button").click(); return; }
      if (!at.value.trim()) { refuse("Nothing is written there yet.", at); return; }
      at.blur();
      say(`Read: ${at.value.trim()}. Now the answer.`);
      return;
    }
    if (!page && at.closest("a, button, summary, input, label") && at !== main()) return;
    event.preventDefault();
    if (event.repeat) return;
    press();
  });
  document.addEventListener("keyup", (event) => { if (event.key === " " && event.target === main()) event.preventDefault(); });
  document.addEventListener("pointerdown", wake);

  place.addEventListener("submit", (event) => {
    const form = event.target;
    if (form.dataset.straight) return; // sent once more, to show why the book refused it: no press
    if (form.dataset.own) { delete form.dataset.own; return; }
    const button = event.submitter;
    if (!form.matches(".outcomes") || !button) return;
    event.preventDefault();
    event.stopPropagation();
    if (busy || tooSoon()) return;
    answer(form, button);
  });
  place.addEventListener("click", (event) => {
    const link = event.target.closest("a[data-go-on], a[data-ask], a[data-painted]");
    if (!link || !plan) return;
    if (link.matches("[data-painted]")) painted.add(Number(new URL(link.href).searchParams.get("painted")));
    event.preventDefault();
    if (link.matches("[data-ask]")) { refresh(); return; }
    history.replaceState(null, "", `${base}#next`);
    place.replaceChildren();
    show();
  });
  place.addEventListener("focusout", () => { setTimeout(() => { if (stale && !typing()) refresh(); }, 0); });

  // What becomes of what was put.
  const ours = (detail) => (detail.place || "").startsWith(`${base}#`) || mine.has(detail.entry);
  document.addEventListener("gudgeon:recorded", async ({ detail }) => {
    if (!ours(detail)) return;
    mine.add(detail.entry);
    if (detail.place) {
      settled.set(keyIn(detail), performance.now());
      typed.delete(keyIn(detail));
    }
    if ((detail.place || "").startsWith(`${base}#asks-`)) toBeAsked = detail.words;
    tell("In the book:", `${detail.words}.`, { entry: detail.entry, remarks: detail.remarks.filter((one) => !one.startsWith("The joint is in doubt: ")) });
    await recount();
    if (detail.remarks.length) { sound("refused"); refresh({ recorded: detail.entry }); return; }
    if (!waiting.length) refresh();
  });
  document.addEventListener("gudgeon:refused", async ({ detail }) => {
    if (!ours(detail)) return;
    tell("Not in the book:", `${detail.words}. ${detail.said}`, { alert: true });
    sound("refused");
    await refresh();
  });
  document.addEventListener("gudgeon:queue", async ({ detail }) => {
    await recount();
    if (detail.away && !busy && waiting.some((one) => one.place === `${base}#asks-pause`)) { disarm(); asking(waiting.at(-1).words); }
    if (detail.away && waiting.length) tell(`Waits on this phone: ${waiting.length}.`, `${waiting.at(-1).words}. The book has not got it yet.`);
  });
  document.addEventListener("gudgeon:moved", (event) => {
    const { detail } = event;
    if (detail.other) return;
    event.preventDefault();
    const others = (detail.others || []).filter((one) => !mine.has(one.entry));
    if (others.length) say(`Meanwhile ${others.map((one) => `${one.who} (${one.device}) recorded ${gudgeon.clipped(one.words)}`).join("; ")}.`, { lasting: true });
    if (typing()) { stale = true; return; }
    if (!plan || detail.head !== plan.head) refresh();
  });

  // Remembered on this device.
  document.getElementById("hands-free").hidden = false;
  document.documentElement.classList.add("keys");
  sounds.checked = forLong("gudgeon.sounds") !== "no";
  aloud.checked = forLong("gudgeon.aloud") === "yes";
  sounds.addEventListener("change", () => { forLong("gudgeon.sounds", sounds.checked ? "yes" : "no"); sound("taken"); });
  aloud.addEventListener("change", () => {
    forLong("gudgeon.aloud", aloud.checked ? "yes" : "no");
    const pull = shownPull();
    if (aloud.checked && pull) readAloud(pull.speech);
    else if (window.speechSynthesis) speechSynthesis.cancel();
  });
  if (!window.speechSynthesis) { aloud.checked = false; aloud.disabled = true; aloud.parentElement.append(" (this browser has no voice)"); }

  // The screen stays awake where the browser lets it.
  const awake = document.getElementById("awake");
  const stayAwake = async () => {
    try {
      await navigator.wakeLock.request("screen");
      awake.textContent = "The screen stays awake while this page is open.";
    } catch {
      awake.textContent = "This browser does not keep the screen awake here: set the phone not to sleep.";
    }
  };
  stayAwake();
  document.addEventListener("visibilitychange", () => { if (!document.hidden) stayAwake(); });

  (async () => {
    const askedAt = performance.now();
    try {
      const fresh = await fetchPlan();
      if (serves(fresh)) await takePlan(fresh, askedAt);
    } catch { /* It comes with the next thing that the book says. */ }
    await recount();
    if (!plan) {
      const done = waiting.find((one) => keyIn(one) === shownKey());
      if (done) asking(done.words);
      return;
    }
    if (waiting.length || settled.size || (plan.basis !== document.body.dataset.basis && !typing() && !place.querySelector("[data-go-on]"))) await show();
    else if (shownPull()) readAloud(shownPull().speech);
  })();
})();
