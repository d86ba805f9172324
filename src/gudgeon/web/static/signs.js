// The pad of figures on many phones has no minus: a field that may be below zero gets a key for its sign.
"use strict";

for (const field of document.querySelectorAll("input[data-signed], form[data-signed] input[name=value]")) {
  const key = document.createElement("button");
  key.type = "button";
  key.className = "sign";
  key.tabIndex = -1; // Enter and Tab go from figure to figure
  key.textContent = "\u00b1";
  key.setAttribute("aria-label", "Change the sign");
  key.addEventListener("click", () => {
    const said = field.value.trim();
    field.value = /^[-\u2212]/.test(said) ? said.slice(1) : `-${said.replace(/^\+/, "")}`;
    field.dispatchEvent(new Event("input", { bubbles: true }));
    field.focus();
  });
  const both = document.createElement("span");
  both.className = "signed";
  field.replaceWith(both);
  both.append(field, key);
  field.inputMode = "decimal";
}
