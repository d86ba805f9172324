// Whether the book answers, and whether it has moved on since this page was made. Nothing is reloaded by itself: what is
// being written would be lost. A page that follows by itself hears `gudgeon:moved` and prevents its default.
"use strict";

(() => {
  const queue = window.gudgeon && gudgeon.queue;
  if (!queue) return;
  const OFTEN_MS = 1500;
  const SELDOM_MS = 15000;
  const FAILING_MS = 3000;
  const PATIENCE_MS = 5000;
  const line = document.getElementById("moved");

  let seen = document.body.dataset.basis || "";
  // Whether everything that is new was written by this very page.
  const own = ({ many = 0, since = [] }) => many > 0 && many === since.length && since.every((one) => queue.isHere(one.entry));
  // What this device wrote by another page of it, or before this one was loaded.
  const byOthers = async (since) => {
    const sent = new Set((await queue.sent().catch(() => [])).map((one) => one.entry));
    return since.filter((one) => !sent.has(one.entry) && !queue.isHere(one.entry));
  };

  const link = () => {
    const one = document.createElement("a");
    one.className = "button";
    one.href = `${location.pathname}${location.search}`;
    one.textContent = "Show it as it is now";
    one.addEventListener("click", (event) => { event.preventDefault(); location.reload(); });
    return one;
  };
  const say = ({ other, many, since, others }) => {
    if (!line) return;
    const last = others[others.length - 1];
    const more = many - (since.length - others.length) - 1;
    const words = document.createElement("span");
    if (other) words.textContent = "The book that is open now is another one than this page was made from. ";
    else if (last) words.textContent = `The book has changed since this page was made. ${last.who} (${last.device}) recorded ${gudgeon.clipped(last.words)}${more > 0 ? `, and ${more} more` : ""}. `;
    else if (many && many === since.length) words.textContent = "What this device wrote is in the book now; this page was made before it. ";
    else words.textContent = "The book has changed since this page was made. ";
    line.replaceChildren(words, link());
    line.hidden = false;
  };

  const ask = async () => {
    const stop = new AbortController();
    const late = setTimeout(() => stop.abort(), PATIENCE_MS);
    try {
      const answer = await fetch(`/standing${seen ? `?since=${seen}` : ""}`, { cache: "no-store", signal: stop.signal });
      if (answer.status === 403) return { head: "", seal: "" };
      if (!answer.ok) return null;
      return await answer.json();
    } catch {
      return null;
    } finally {
      clearTimeout(late);
    }
  };

  let timer = 0;
  const look = async () => {
    clearTimeout(timer);
    const told = await ask();
    queue.heard({ answered: told !== null, sealed: told ? told.seal : "" });
    const { waiting, unpaired } = queue.standing();
    const onItsWay = waiting > 0 && !unpaired; // what is new may be what this page is sending
    if (told && told.head && seen && told.head !== seen && !onItsWay) {
      if (!own(told)) {
        const detail = { head: told.head, other: Boolean(told.other), many: told.many || 0, since: told.since || [] };
        detail.others = await byOthers(detail.since);
        const moved = new CustomEvent("gudgeon:moved", { detail, cancelable: true });
        if (document.dispatchEvent(moved)) say(detail);
      }
      seen = told.head;
    }
    timer = setTimeout(look, told === null ? FAILING_MS : document.hidden ? SELDOM_MS : OFTEN_MS);
  };

  // Where the browser allows it, the pages that were seen are kept for when the book is out of reach.
  const keep = async () => {
    if (!window.isSecureContext || !("serviceWorker" in navigator)) return;
    const before = navigator.serviceWorker.controller;
    await navigator.serviceWorker.register("/sw.js", { scope: "/" });
    const ready = await navigator.serviceWorker.ready;
    if (before || !document.body.dataset.basis) return;
    const loaded = performance.getEntriesByType("resource").map((one) => one.name);
    ready.active.postMessage({ keep: [location.href, ...loaded] });
  };
  const forget = () => {
    const keeper = navigator.serviceWorker && navigator.serviceWorker.controller;
    if (keeper && queue.standing().unpaired) keeper.postMessage({ forget: true });
  };

  document.addEventListener("gudgeon:queue", forget);
  document.addEventListener("visibilitychange", () => { if (!document.hidden) look(); });
  window.addEventListener("online", look);
  window.addEventListener("offline", look);
  timer = setTimeout(look, document.body.dataset.kept ? 0 : OFTEN_MS);
  keep().catch(() => false);
})();
