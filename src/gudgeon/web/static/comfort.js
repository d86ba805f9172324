// Comfort only: every page works without it. Nothing is sent but the forms themselves.
"use strict";

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
