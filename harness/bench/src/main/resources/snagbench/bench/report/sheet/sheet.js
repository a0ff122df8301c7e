"use strict";
/* Reads values off the charts, and widens them. The page says all that it says without this. */
document.addEventListener("DOMContentLoaded", () => {
  const points = (path) => {
    const found = [];
    let x = 0, y = 0;
    for (const part of path.getAttribute("d").matchAll(/([MLHVh])(-?\d+)(?: (-?\d+))?/g)) {
      const a = Number(part[2]);
      if (part[1] === "M" || part[1] === "L") { x = a; y = Number(part[3]); }
      else if (part[1] === "H") { x = a; }
      else if (part[1] === "h") { x += a; }
      else { y = a; }
      found.push({ x, y, breaks: part[1] === "M" });
    }
    return found;
  };
  const valueAt = (list, x) => {
    let before = null;
    for (const one of list) {
      if (one.x >= x) {
        if (one.x === x || before === null) { return one.x - x < 1 ? one.y : null; }
        return one.breaks ? null : before.y + (one.y - before.y) * (x - before.x) / (one.x - before.x);
      }
      before = one;
    }
    return null;
  };
  for (const figure of document.querySelectorAll("figure.strips")) {
    const scroll = figure.querySelector(".scroll"), svg = scroll.querySelector("svg");
    const from = Number(svg.dataset.from), to = Number(svg.dataset.to);
    const left = Number(svg.dataset.left), plot = Number(svg.dataset.plot);
    const readout = document.createElement("output");
    readout.className = "readout";
    readout.textContent = "Move over the chart, or focus it and press the arrow keys, to read values off.";
    const tools = document.createElement("div");
    tools.className = "tools";
    let width = 1;
    for (const [name, factor] of [["Wider", 1.5], ["Narrower", 1 / 1.5]]) {
      const button = document.createElement("button");
      button.type = "button";
      button.textContent = name;
      button.addEventListener("click", () => {
        width = Math.min(12, Math.max(1, width * factor));
        svg.style.width = width * 100 + "%";
      });
      tools.append(button);
    }
    figure.insertBefore(readout, figure.querySelector("figcaption"));
    figure.append(tools);
    const cursor = document.createElementNS("http://www.w3.org/2000/svg", "line");
    cursor.setAttribute("class", "cursor");
    cursor.setAttribute("y1", "0");
    cursor.setAttribute("y2", String(svg.viewBox.baseVal.height));
    let curves = null, at = left;
    const show = () => {
      at = Math.min(left + plot, Math.max(left, at));
      curves = curves || [...svg.querySelectorAll("path[data-of]")].map((path) => ({ path, list: points(path) }));
      if (!cursor.parentNode) { svg.append(cursor); }
      cursor.setAttribute("x1", String(at));
      cursor.setAttribute("x2", String(at));
      const share = (at - left) / plot;
      const micros = from + share * (to - from);
      const said = [(micros / 1000).toFixed(1) + " ms"];
      for (const { path, list } of curves) {
        const y = valueAt(list, share * (Number(path.dataset.columns) - 1));
        if (y !== null) {
          const low = Number(path.dataset.low), high = Number(path.dataset.high);
          const digits = Math.max(0, 3 - Math.ceil(Math.log10((high - low) || 1)));
          said.push(path.dataset.of + " " + path.getAttribute("class") + " about "
            + (high - (high - low) * y / 600).toFixed(Math.min(6, digits)) + " " + path.dataset.unit);
        }
      }
      for (const state of svg.querySelectorAll("g[data-state]")) {
        const box = state.firstChild, start = Number(box.getAttribute("x"));
        if (at >= start && at < start + Number(box.getAttribute("width"))) { said.push(state.dataset.state); }
      }
      readout.textContent = said.join("; ");
    };
    svg.addEventListener("pointermove", (event) => {
      const box = svg.getBoundingClientRect();
      at = (event.clientX - box.left) * svg.viewBox.baseVal.width / box.width;
      show();
    });
    scroll.addEventListener("keydown", (event) => {
      const step = { ArrowLeft: -4, ArrowRight: 4 }[event.key];
      if (step) { at += event.shiftKey ? step * 10 : step; event.preventDefault(); show(); }
    });
  }
  /* Where the style sheet cannot reach into folded parts, they are opened for the printer and closed again behind it. */
  const opened = new Set();
  window.addEventListener("beforeprint", () => {
    if (CSS.supports("selector(::details-content)")) { return; }
    for (const part of document.querySelectorAll("details:not([open])")) { part.open = true; opened.add(part); }
  });
  window.addEventListener("afterprint", () => {
    for (const part of opened) { part.open = false; }
    opened.clear();
  });
});
