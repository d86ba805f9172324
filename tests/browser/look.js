// What is wrong with the page as it is laid out now: a list of plain sentences, empty when all is well.
({ most, contrast, thumb, finger }) => {
  const found = [];
  const root = document.documentElement;
  const tell = (what, element) => {
    const words = (element.innerText || element.value || element.outerHTML).trim().replace(/\s+/g, " ");
    found.push(`${what}: <${element.localName}> ${words.slice(0, 70)}`);
  };
  const elements = [...document.body.querySelectorAll("*")];
  const styles = new Map(elements.map((element) => [element, getComputedStyle(element)]));
  // A `details` that is closed keeps boxes for what it hides; checkVisibility knows.
  const seen = (element) => {
    const box = element.getBoundingClientRect();
    return element.checkVisibility({ visibilityProperty: true }) && box.width > 1 && box.height > 1 && box.right > 0;
  };
  const visible = elements.filter(seen);
  const within = (element, test) => {
    for (let one = element; one && one !== root; one = one.parentElement) if (test(one)) return one;
    return null;
  };
  const rolls = (element) => ["auto", "scroll"].includes(styles.get(element)?.overflowX);
  const texts = visible.filter((element) =>
    [...element.childNodes].some((node) => node.nodeType === Node.TEXT_NODE && node.data.trim()));

  // The page as a whole.
  if (root.lang !== "en") found.push("the language of the page is not given");
  if (document.querySelectorAll("h1").length !== 1) found.push("not exactly one first heading");
  if (document.querySelectorAll("main").length !== 1) found.push("not exactly one main part");
  if (root.scrollWidth > root.clientWidth) found.push(`it rolls sideways: ${root.scrollWidth} in ${root.clientWidth}`);
  const names = elements.map((element) => element.id).filter(Boolean);
  for (const name of new Set(names.filter((one, index) => names.indexOf(one) !== index))) found.push(`two parts are named ${name}`);
  for (const element of document.querySelectorAll("[style], style, script:not([src])")) tell("styled or scripted in line", element);

  // Nothing cut off, nothing beyond the edge.
  for (const element of visible) {
    if (element.matches("input, textarea")) continue; // a field rolls to where one types
    const style = styles.get(element);
    if (["hidden", "clip"].includes(style.overflowX) && element.scrollWidth > element.clientWidth + 1) tell("cut off at the side", element);
    if (["hidden", "clip"].includes(style.overflowY) && element.scrollHeight > element.clientHeight + 1) tell("cut off below", element);
  }
  for (const element of texts) {
    const box = element.getBoundingClientRect();
    if ((box.left < -1 || box.right > most + 1) && !within(element.parentElement, rolls)) tell("beyond the edge", element);
  }
  for (const field of document.querySelectorAll("select, button, .button"))
    if (seen(field) && field.scrollWidth > field.clientWidth + 1) tell("too narrow for its words", field);

  // Large enough for a gloved thumb, in both directions. A word in a running sentence may be as narrow as it is.
  const sentence = (link) => {
    if (styles.get(link).display !== "inline") return false;
    let block = link.parentElement;
    while (styles.get(block)?.display === "inline") block = block.parentElement;
    if (block.localName === "td") block = block.parentElement; // a citation beside what it is of
    return block.innerText.replace(link.innerText, "").trim() !== "";
  };
  const hit = (element) => {
    const label = element.matches("input[type=checkbox], input[type=radio]") && element.labels[0];
    return (label || element).getBoundingClientRect();
  };
  const targets = visible.filter((element) =>
    element.matches("a[href], button, summary, select, textarea, input:not([type=hidden])") && !element.matches(".skip"));
  for (const element of targets) {
    const box = hit(element);
    const running = element.matches("a") && sentence(element);
    if (box.height < (running ? finger : thumb) - 0.5) tell(`lower than ${running ? finger : thumb} px`, element);
    if (!running && box.width < thumb - 0.5) tell(`narrower than ${thumb} px`, element);
  }
  const words = (element) => {
    const range = document.createRange();
    range.selectNodeContents(element);
    return [...range.getClientRects()].filter((box) => box.width > 2 && box.height > 2);
  };
  const apart = targets.map((element) => ({ element, boxes: [...element.getClientRects()], words: words(element) }));
  apart.forEach(({ element, words: own }, index) => {
    for (const other of apart.slice(Math.max(0, index - 12), index + 13)) {
      if (other.element === element || other.element.contains(element) || element.contains(other.element)) continue;
      const over = (box, cover) => Math.min(box.right, cover.right) - Math.max(box.left, cover.left) > 2
        && Math.min(box.bottom, cover.bottom) - Math.max(box.top, cover.top) > 4;
      if (own.some((box) => other.boxes.some((cover) => over(box, cover)))) tell("something else to tap lies over it", element);
    }
  });

  // No words over other words: what is scrolled out of sight is left out, and of a line its middle is taken.
  // The box of a drawn text is higher than its ink, so a drawing is left to the eye.
  const lines = [];
  const shown = (element, box) => {
    let [left, top, right, bottom] = [box.left, box.top, box.right, box.bottom];
    for (let one = element.parentElement; one && one !== document.body; one = one.parentElement) {
      const style = styles.get(one);
      if (style.overflowX === "visible" && style.overflowY === "visible") continue;
      const edge = one.getBoundingClientRect();
      [left, top] = [Math.max(left, edge.left), Math.max(top, edge.top)];
      [right, bottom] = [Math.min(right, edge.right), Math.min(bottom, edge.bottom)];
    }
    return { element, left, top: top + (bottom - top) * 0.25, right, bottom: bottom - (bottom - top) * 0.25 };
  };
  for (const element of texts) {
    if (element.matches("option, textarea, svg text") || within(element, (one) => (styles.get(one)?.clipPath ?? "none") !== "none")) continue;
    for (const node of element.childNodes) {
      if (node.nodeType !== Node.TEXT_NODE || !node.data.trim()) continue;
      const range = document.createRange();
      range.selectNodeContents(node);
      for (const box of range.getClientRects()) lines.push(shown(element, box));
    }
  }
  const drawn = lines.filter((line) => line.right - line.left > 2 && line.bottom - line.top > 2);
  drawn.sort((a, b) => a.top - b.top);
  drawn.forEach((line, index) => {
    for (let other = index + 1; other < drawn.length && drawn[other].top < line.bottom - 1; other += 1) {
      const next = drawn[other];
      if (next.element === line.element) continue;
      if (Math.min(line.right, next.right) - Math.max(line.left, next.left) > 2) tell("other words lie over it", line.element);
    }
  });

  // Named for those who hear the page.
  for (const field of document.querySelectorAll("input:not([type=hidden]), select, textarea")) {
    const named = [...(field.labels || [])].some((label) => label.textContent.trim());
    if (!named && !field.getAttribute("aria-label") && !field.getAttribute("aria-labelledby")) tell("a field without a label", field);
  }
  for (const element of document.querySelectorAll("button, a[href], summary"))
    if (!(element.textContent.trim() || element.getAttribute("aria-label"))) tell("nothing to read on it", element);
  for (const image of document.querySelectorAll("img:not([alt])")) tell("a picture without words", image);
  for (const link of document.querySelectorAll("a[href^='#']"))
    if (!document.getElementById(link.getAttribute("href").slice(1))) tell("leads nowhere on the page", link);

  // What is sent twice must count once, and the book must know on what its writer looked.
  for (const form of document.querySelectorAll("form[method=post][action^='/record'], form[method=post][action^='/strike']"))
    for (const name of ["entry", "basis"])
      if (!form.querySelector(`input[type=hidden][name=${name}]`)?.value) tell(`a form without ${name}`, form);

  // Text against what lies behind it.
  const canvas = document.createElement("canvas");
  canvas.width = canvas.height = 1;
  const pen = canvas.getContext("2d", { willReadFrequently: true });
  const parsed = new Map();
  const rgba = (color) => {
    if (!parsed.has(color)) {
      pen.clearRect(0, 0, 1, 1);
      pen.fillStyle = color;
      pen.fillRect(0, 0, 1, 1);
      const [red, green, blue, alpha] = pen.getImageData(0, 0, 1, 1).data;
      parsed.set(color, [red, green, blue, alpha / 255]);
    }
    return parsed.get(color);
  };
  const over = (top, below) => [0, 1, 2].map((index) => top[index] * top[3] + below[index] * (1 - top[3])).concat(1);
  const backdrop = (element) => {
    const layers = [];
    for (let one = element; one; one = one.parentElement) {
      const style = styles.get(one) || getComputedStyle(one);
      if (style.backgroundImage !== "none") return null;
      const color = rgba(style.backgroundColor);
      if (color[3] > 0) layers.push(color);
      if (color[3] === 1) break;
    }
    return layers.reverse().reduce((below, top) => over(top, below), [255, 255, 255, 1]);
  };
  const light = (color) => {
    const [red, green, blue] = color.slice(0, 3).map((value) => {
      const part = value / 255;
      return part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4;
    });
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
  };
  const told = new Set();
  const fields = visible.filter((element) => element.matches("input:not([type=checkbox]):not([type=radio]), select, textarea"));
  for (const element of new Set([...texts, ...fields])) {
    const style = styles.get(element);
    const behind = backdrop(element);
    if (!behind) { tell("a picture lies behind the words", element); continue; }
    const faint = within(element, (one) => Number(styles.get(one)?.opacity ?? 1) < 1);
    if (faint) { tell("faded", element); continue; }
    const ink = rgba(element.closest("svg") ? style.fill : style.color);
    const [upper, lower] = [light(over(ink, behind)), light(behind)].sort((a, b) => b - a);
    const ratio = (upper + 0.05) / (lower + 0.05);
    const pair = `${style.color} on ${behind}`;
    if (ratio < contrast && !told.has(pair)) {
      told.add(pair);
      tell(`contrast ${ratio.toFixed(1)}, less than ${contrast} (${pair})`, element);
    }
    if (parseFloat(style.fontSize) < 14 && !element.closest("svg")) tell(`small letters, ${style.fontSize}`, element);
  }
  return [...new Set(found)];
}
