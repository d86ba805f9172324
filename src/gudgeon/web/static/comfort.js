// Comfort only: every page works without it. Nothing is sent but the forms themselves.
"use strict";

window.gudgeon = window.gudgeon || {};

// Which press and which tap were the last, also on the page before; after `justNow` another one is too soon.
gudgeon.forNow = (name, value) => {
  try {
    if (value !== undefined) sessionStorage.setItem(name, value);
    return sessionStorage.getItem(name);
  } catch { return null; }
};
gudgeon.justNow = (at) => Date.now() >= at && Date.now() - at < 1500;

// Of two taps at once the second falls on what stands under the finger by then, and is meant for none of it: what the next
// page writes, the next pull, the next entry of a list.
(() => {
  const NEAR_PX = 40;
  const screen = document.getElementById("screen");
  const waits = document.getElementById("waits");
  const writes = (target) => target.closest("form[method=post] button, form[method=post] input[type=image], #screen a");
  // Whoever has filled in something on this page means it.
  let filled = false;
  document.addEventListener("input", () => { filled = true; }, true);
  const say = (target) => {
    if (screen) { document.dispatchEvent(new CustomEvent("gudgeon:ignored")); return; }
    const line = document.createElement("p");
    line.className = "waits-here";
    line.setAttribute("role", "status");
    line.textContent = "A second tap within a second and a half is not counted.";
    const row = target.closest("li");
    if (row) row.append(line); else (target.closest("form") || target).after(line);
    setTimeout(() => line.remove(), 5000);
  };
  document.addEventListener("click", (event) => {
    if (!event.isTrusted || !event.detail) return; // a key
    const [at, x, y] = (gudgeon.forNow("gudgeon.tapped") || "0 0 0").split(" ").map(Number);
    const again = gudgeon.justNow(at) && Math.hypot(event.clientX - x, event.clientY - y) < NEAR_PX;
    const { target } = event;
    const before = at < performance.timeOrigin;
    if (again && (before ? !filled && writes(target) : screen || (waits && waits.contains(target)))) {
      event.preventDefault();
      event.stopImmediatePropagation();
      say(target);
    } else if (target.closest("button, a")) {
      gudgeon.forNow("gudgeon.tapped", `${Date.now()} ${event.clientX} ${event.clientY}`);
    }
  }, true);
  // The screen at the wrench remembers its own presses; one that led to it counts there too.
  if (!screen) document.addEventListener("keydown", ({ key, repeat }) => {
    if (!repeat && ["PageDown", "Enter", " "].includes(key)) gudgeon.forNow("gudgeon.pressed", String(Date.now()));
  }, true);
})();

// A form is sent once: a second tap while the first is on its way does nothing.
document.addEventListener("submit", (event) => {
  const form = event.target;
  if (form.dataset.sent) {
    event.preventDefault();
    return;
  }
  form.dataset.sent = "yes";
  window.setTimeout(() => { delete form.dataset.sent; }, 5000);
});

// A page that the browser kept may be older than the book: it is asked for anew.
window.addEventListener("pageshow", (event) => {
  if (event.persisted) window.location.reload();
});

// Where the style of paper does not reach into a closed part, the part is opened for the printer and closed again.
const openedToPrint = [];
window.addEventListener("beforeprint", () => {
  for (const part of document.querySelectorAll("details.fold, details.part, details.fold details")) {
    if (part.open) continue;
    part.open = true;
    openedToPrint.push(part);
  }
});
window.addEventListener("afterprint", () => {
  while (openedToPrint.length) openedToPrint.pop().open = false;
});
