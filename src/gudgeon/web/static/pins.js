// Pins on a photo, in comfort: a tap sets or moves one at once; the picture may still be on the phone alone.
// The rows of the form say everything; the marks over the picture are drawn from them.
"use strict";

(() => {
  const SVG = "http://www.w3.org/2000/svg";
  const WIDEST = 1600; // of a picture that is only looked at: a phone holds no canvas of fifty million points

  const rowsOf = (form) => [...form.querySelectorAll("[data-pin-row]")];
  const cell = (row, name) => row.querySelector(`input[name^="${name}."]`);
  const percent = (text) => Math.min(100, Math.max(0, Number.parseFloat(text.replace(",", ".")) || 0));

  const draw = (form, marks) => {
    const height = Number(marks.dataset.height);
    marks.replaceChildren(...rowsOf(form).filter((row) => !cell(row, "away").checked).map((row) => {
      const pin = document.createElementNS(SVG, "g");
      pin.setAttribute("class", "pin");
      const x = 10 * percent(cell(row, "across").value);
      const y = height * percent(cell(row, "down").value) / 100;
      const badge = document.createElementNS(SVG, "circle");
      const words = document.createElementNS(SVG, "text");
      const set = (element, values) => Object.entries(values).forEach(([name, value]) => element.setAttribute(name, value));
      const number = cell(row, "number").value;
      set(badge, { class: "pin-badge", cx: x, cy: y, r: 42 });
      set(words, { x, y, dy: ".35em", "font-size": number.length < 3 ? 46 : 36 });
      words.textContent = number;
      pin.append(badge, words);
      return pin;
    }));
    for (const row of rowsOf(form)) {
      row.classList.toggle("gone", cell(row, "away").checked);
      row.querySelector("[data-pin-number]").textContent = cell(row, "number").value;
      // A page that is sent and refused comes back without its photo, and that may be the only one: it is not sent so.
      cell(row, "text").required = !cell(row, "away").checked;
    }
  };

  const added = (form) => {
    const rows = rowsOf(form);
    const key = Math.max(0, ...rows.map((row) => Number(row.dataset.pinRow))) + 1;
    const first = Number(form.elements.first ? form.elements.first.value : 1) || 1;
    const number = Math.max(first - 1, ...rows.map((row) => Number.parseInt(cell(row, "number").value, 10) || 0)) + 1;
    const row = document.getElementById("pin-row").content.cloneNode(true).firstElementChild;
    row.dataset.pinRow = String(key);
    for (const one of row.querySelectorAll("[name$='.0']")) one.name = one.name.replace(/0$/, String(key));
    for (const one of row.querySelectorAll("[id$='-0']")) one.id = one.id.replace(/0$/, String(key));
    for (const one of row.querySelectorAll("[for$='-0']")) one.htmlFor = one.htmlFor.replace(/0$/, String(key));
    row.querySelector("input[type=radio]").value = String(key);
    cell(row, "number").value = String(number);
    form.querySelector("[data-pin-rows]").append(row);
    return row;
  };

  const tapped = (form, picture, marks, event) => {
    const box = picture.getBoundingClientRect();
    if (!box.width || !box.height) return;
    const chosen = form.querySelector("input[name=tap]:checked");
    const moved = chosen && chosen.value !== "new" && rowsOf(form).find((row) => row.dataset.pinRow === chosen.value);
    const row = moved || added(form);
    cell(row, "across").value = percent(String(100 * (event.clientX - box.left) / box.width)).toFixed(1);
    cell(row, "down").value = percent(String(100 * (event.clientY - box.top) / box.height)).toFixed(1);
    if (moved) form.querySelector("input[name=tap][value=new]").checked = true;
    draw(form, marks);
  };

  const begin = (form) => {
    const picture = form.querySelector("[data-pins-picture]");
    const marks = form.querySelector(".pin-marks");
    picture.closest(".pin-taps").classList.add("scripted");
    picture.addEventListener("click", (event) => {
      // A click without a place comes from the keyboard: the fields of the row say where.
      if (event.detail === 0 && event.clientX === 0 && event.clientY === 0) return;
      event.preventDefault();
      tapped(form, picture, marks, event);
    });
    form.addEventListener("input", () => draw(form, marks));
    // Enter in a field goes on to the next one; the pins are written by the button alone.
    form.addEventListener("keydown", (event) => {
      if (event.key !== "Enter" || !event.target.matches("[data-pin-row] input[type=text]")) return;
      event.preventDefault();
      const fields = rowsOf(form).map((row) => cell(row, "text"));
      const next = fields[fields.indexOf(event.target) + 1];
      if (next) next.focus(); else event.target.blur();
    });
  };

  for (const form of document.querySelectorAll("form[data-pins]")) begin(form);

  // A photo that is just taken: it is shown before it is sent, so that its pins go into the book with it.
  const block = document.querySelector("[data-pins-new]");
  if (!block) return;
  const form = block.closest("form");
  const file = form.querySelector("input[type=file]");
  const canvas = block.querySelector("canvas");
  const marks = block.querySelector(".pin-marks");

  let shown = false;

  const show = async () => {
    block.hidden = true;
    if (shown) form.querySelector("[data-pin-rows]").replaceChildren(); // they were set on another picture
    if (!file.files.length || typeof createImageBitmap !== "function") return;
    let image;
    try {
      image = await createImageBitmap(file.files[0]);
    } catch {
      return; // not a picture that this browser can show: the server says why it is not taken
    }
    const scale = Math.min(1, WIDEST / Math.max(image.width, image.height));
    canvas.width = Math.max(1, Math.round(image.width * scale));
    canvas.height = Math.max(1, Math.round(image.height * scale));
    canvas.getContext("2d").drawImage(image, 0, 0, canvas.width, canvas.height);
    const height = 1000 * image.height / image.width;
    image.close();
    marks.dataset.height = String(height);
    marks.setAttribute("viewBox", `0 0 1000 ${height}`);
    for (const one of [marks, block.querySelector(".pin-taps")]) one.classList.toggle("upright", height > 1000);
    draw(form, marks);
    block.hidden = false;
    shown = true;
  };
  begin(form);
  file.addEventListener("change", show);
  if (file.files.length) show();
})();
