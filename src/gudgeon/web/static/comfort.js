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
