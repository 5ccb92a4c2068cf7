// Drawing on a photo: drag for an arrow or a ring, tap for words. What is drawn is kept beside the photo, never in it.
"use strict";
(() => {
  const form = document.getElementById("drawing-form");
  const photo = form && document.getElementById(form.dataset.photo);
  if (!photo) return;
  const SVG = "http://www.w3.org/2000/svg", WIDE = 1000;
  const image = photo.querySelector("img"), text = document.getElementById("mark-text");
  form.querySelector(".draw-tools").hidden = false;
  let marks = [];
  try { marks = JSON.parse(form.elements.marks.value); } catch { marks = []; }
  photo.querySelector("svg")?.remove();
  const over = document.createElementNS(SVG, "svg");
  over.setAttribute("class", "picture over"); over.setAttribute("role", "img"); over.setAttribute("aria-label", "Drawn on the photo");
  photo.append(over); photo.classList.add("drawable");
  const tall = () => WIDE * (image.naturalHeight || image.height) / (image.naturalWidth || image.width);
  const add = (name, values, body) => {
    const made = document.createElementNS(SVG, name);
    for (const [key, value] of Object.entries(values)) made.setAttribute(key, value);
    if (body) made.textContent = body;
    over.append(made);
  };
  const draw = () => {
    const h = tall();
    over.setAttribute("viewBox", `0 0 ${WIDE} ${h}`); over.replaceChildren();
    for (const mark of marks) {
      const x = mark.x * WIDE, y = mark.y * h, tx = mark.to_x * WIDE, ty = mark.to_y * h;
      let at = [x, y];
      if (mark.kind === "ring") {
        const r = Math.max(12, Math.hypot(tx - x, ty - y)); at = [tx, ty];
        for (const kind of ["pic-over-under", "pic-over"]) add("circle", { class: kind, cx: x, cy: y, r, fill: "none" });
      } else if (mark.kind === "arrow") {
        const long = Math.hypot(tx - x, ty - y) || 1, ux = (tx - x) / long, uy = (ty - y) / long, bx = tx - 30 * ux, by = ty - 30 * uy;
        for (const kind of ["pic-over-under", "pic-over"]) add("path", { class: kind, d: `M${x} ${y}L${tx} ${ty}` });
        add("path", { class: "pic-over-tip", d: `M${tx} ${ty}L${bx - 10 * uy} ${by + 10 * ux}L${bx + 10 * uy} ${by - 10 * ux}z` });
      }
      if (mark.text) {
        const end = at[0] > 0.72 * WIDE;
        add("text", { class: "pic-over-text", x: at[0] + (end ? -12 : 12), y: at[1] - 10, ...(end ? { "text-anchor": "end" } : {}) }, mark.text);
      }
    }
    form.elements.marks.value = JSON.stringify(marks);
  };
  const share = (event) => {
    const box = over.getBoundingClientRect(), cut = (value) => Math.min(1, Math.max(0, Math.round(value * 1e4) / 1e4));
    return [cut((event.clientX - box.left) / box.width), cut((event.clientY - box.top) / box.height)];
  };
  let under = null;
  over.addEventListener("pointerdown", (event) => {
    event.preventDefault(); over.setPointerCapture(event.pointerId);
    const [x, y] = share(event);
    under = { kind: form.elements.tool.value, x, y, to_x: x, to_y: y, text: text.value.trim() };
    marks.push(under); draw();
  });
  over.addEventListener("pointermove", (event) => { if (under) { [under.to_x, under.to_y] = share(event); draw(); } });
  const lift = () => {
    if (!under) return;
    const still = Math.hypot(under.to_x - under.x, under.to_y - under.y) < 0.01;
    if ((under.kind !== "words" && still) || (under.kind === "words" && !under.text)) { marks.pop(); if (under.kind === "words") text.focus(); }
    else text.value = "";
    under = null; draw();
  };
  over.addEventListener("pointerup", lift);
  over.addEventListener("pointercancel", () => { if (under) marks.pop(); under = null; draw(); });
  document.getElementById("take-back").addEventListener("click", () => { marks.pop(); draw(); });
  image.addEventListener("load", draw);
  draw();
})();
