// Places on a photo, in comfort: a tap fills the field that is chosen and goes on to the next one; a closer look at the
// last tap takes a finer one. The fields say everything; the crosses over the picture are drawn from them.
"use strict";

(() => {
  const SVG = "http://www.w3.org/2000/svg";
  const CLOSER = 4; // so many times as large as on the picture, and never finer than two screen points a pixel
  const form = document.querySelector("form[data-trace]");
  if (!form) return;
  const picture = form.querySelector("[data-trace-picture]");
  const marks = form.querySelector(".aims");
  const block = form.querySelector("[data-trace-closer]");
  const canvas = block.querySelector("canvas");
  const [wide, high] = [Number(picture.dataset.width), Number(picture.dataset.height)];
  const fields = [...form.querySelectorAll(".aim-row input[type=text]")];
  const image = new Image();
  image.src = picture.src;
  const pointed = form.elements.pointed;
  const kept = form.querySelector("[data-trace-coarse]");
  const next = form.querySelector("[data-trace-next]");
  // Fields of taps that nobody looked at more closely; the form carries their names, so that they are known afterward.
  const names = kept.value ? JSON.parse(kept.value) : [];
  const coarse = new Set(fields.filter((one) => names.includes(one.name)));
  let ownWords = pointed.value !== "" && coarse.size === 0;
  let again = false; // whether the closer look goes through what was tapped coarsely
  let last = null;
  let shown = null;

  const placeOf = (field) => {
    const parts = field.value.split(",").map((part) => Number.parseFloat(part));
    return parts.length === 2 && parts.every(Number.isFinite) ? parts : null;
  };

  const draw = () => {
    marks.replaceChildren(...fields.filter(placeOf).map((field) => {
      const [x, y] = placeOf(field).map((one) => 1000 * one / wide);
      const group = document.createElementNS(SVG, "g");
      const cross = document.createElementNS(SVG, "path");
      const words = document.createElementNS(SVG, "text");
      group.setAttribute("class", "aim");
      cross.setAttribute("d", `M${x - 14} ${y}h28M${x} ${y - 14}v28`);
      words.setAttribute("x", x + 10);
      words.setAttribute("y", y - 10);
      words.textContent = field.dataset.mark;
      group.append(cross, words);
      return group;
    }));
  };

  const closer = () => {
    const at = last && placeOf(last);
    block.hidden = !at || !image.complete || !image.naturalWidth;
    if (block.hidden) return;
    const box = picture.getBoundingClientRect();
    const scale = Math.max(2 * Math.min(1, box.width / wide), Math.min(2, CLOSER * box.width / wide));
    shown = { left: at[0] - canvas.width / 2 / scale, top: at[1] - canvas.height / 2 / scale, scale };
    const pen = canvas.getContext("2d");
    pen.fillStyle = "#777";
    pen.fillRect(0, 0, canvas.width, canvas.height);
    pen.drawImage(image, shown.left, shown.top, canvas.width / scale, canvas.height / scale, 0, 0, canvas.width, canvas.height);
    pen.strokeStyle = "#d00";
    pen.beginPath();
    for (const way of [-1, 1]) { // open in the middle, so that it hides nothing
      pen.moveTo(canvas.width / 2 + way * 6, canvas.height / 2);
      pen.lineTo(canvas.width / 2 + way * 40, canvas.height / 2);
      pen.moveTo(canvas.width / 2, canvas.height / 2 + way * 6);
      pen.lineTo(canvas.width / 2, canvas.height / 2 + way * 40);
    }
    pen.stroke();
    block.querySelector("[data-trace-name]").textContent = last.dataset.mark;
  };

  const inSight = (what, where) => what.scrollIntoView({ block: where });

  const lookAt = (field) => {
    last = field;
    closer();
    if (block.hidden) image.addEventListener("load", () => lookAt(field), { once: true });
    else inSight(block, "center");
  };

  // What the next tap on the picture sets, told above it.
  const tellNext = () => {
    const chosen = form.querySelector("input[name=tap]:checked");
    next.hidden = !chosen;
    if (chosen) next.querySelector("strong").textContent = chosen.closest("label").textContent.trim();
  };

  // How far a tap may miss: on the picture one point of the screen, unless somebody said it himself.
  const miss = () => {
    const width = picture.getBoundingClientRect().width;
    kept.value = coarse.size ? JSON.stringify([...coarse].map((one) => one.name)) : "";
    if (!ownWords && width) pointed.value = coarse.size && wide > width ? (wide / width).toFixed(1) : "";
  };

  const write = (field, x, y) => {
    const within = (value, most) => Math.min(most, Math.max(0, value)).toFixed(1);
    field.value = `${within(x, wide)},${within(y, high)}`;
    last = field;
    draw();
    closer();
  };

  const goOn = () => {
    const empty = fields.find((field) => !field.value.trim());
    const radio = empty && form.querySelector(`input[name=tap][value="${CSS.escape(empty.name)}"]`);
    if (radio) radio.checked = true;
    tellNext();
  };

  picture.closest(".pin-taps").classList.add("scripted");
  picture.addEventListener("click", (event) => {
    // A click without a place comes from the keyboard: the fields say where.
    if (event.detail === 0 && event.clientX === 0 && event.clientY === 0) return;
    event.preventDefault();
    const box = picture.getBoundingClientRect();
    const chosen = form.querySelector("input[name=tap]:checked");
    const field = chosen && fields.find((one) => one.name === chosen.value);
    if (!field || !box.width || !box.height) return;
    write(field, wide * (event.clientX - box.left) / box.width, high * (event.clientY - box.top) / box.height);
    coarse.add(field);
    miss();
    goOn();
    if (!block.hidden) inSight(block, "center");
  });
  canvas.addEventListener("click", (event) => {
    const box = canvas.getBoundingClientRect();
    if (!last || !shown || !box.width) return;
    const per = canvas.width / box.width / shown.scale;
    write(last, shown.left + (event.clientX - box.left) * per, shown.top + (event.clientY - box.top) * per);
    coarse.delete(last);
    miss();
    if (again && coarse.size) lookAt([...coarse][0]);
    else inSight(again || fields.every((field) => field.value.trim()) ? form.elements.wide : next, "start");
  });
  for (const link of document.querySelectorAll("[data-trace-again]")) {
    link.addEventListener("click", (event) => {
      if (!coarse.size) return;
      event.preventDefault();
      again = true;
      lookAt([...coarse][0]);
    });
  }
  form.addEventListener("input", (event) => {
    ownWords = ownWords || event.target === pointed;
    coarse.delete(event.target);
    miss();
    draw();
  });
  form.addEventListener("change", tellNext);
  tellNext();
})();
