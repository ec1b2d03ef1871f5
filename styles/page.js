"use strict";
// View, units and ticks, kept on this device where it lets us; without it the page still reads.
(() => {
  const body = document.body;
  const key = "steps:" + body.dataset.store;
  let kept = { view: "", units: "both", done: [] };
  try { kept = Object.assign(kept, JSON.parse(localStorage.getItem(key) || "{}")); } catch { /* nothing is kept */ }
  if (!Array.isArray(kept.done)) kept.done = [];
  const keep = () => { try { localStorage.setItem(key, JSON.stringify(kept)); } catch { /* nothing is kept */ } };
  const steps = [...document.querySelectorAll(".step")];
  const next = document.querySelector(".next");

  const has = (element, view) => !view || element.dataset.views.split(" ").includes(view);
  function show() {
    body.dataset.units = kept.units;
    body.dataset.view = kept.view;
    for (const element of document.querySelectorAll("[data-views]")) element.classList.toggle("away", !has(element, kept.view));
    for (const gap of document.querySelectorAll(".gap")) gap.classList.toggle("here", gap.dataset.gap === kept.view);
    const mine = steps.filter((step) => has(step, kept.view));
    for (const step of steps) {
      const done = kept.done.includes(step.dataset.step);
      step.classList.toggle("done", done);
      step.querySelector(".tick input").checked = done;
    }
    const open = mine.filter((step) => !kept.done.includes(step.dataset.step));
    const done = mine.length - open.length;
    next.hidden = false;
    next.textContent = open.length === 0 ? "All done" : done === 0 ? "Begin" : "Go on, " + done + " of " + mine.length + " done";
    next.href = "#" + (open[0] || mine[mine.length - 1]).id;
  }

  for (const name of ["view", "units"]) {
    for (const input of document.querySelectorAll("input[name=" + name + "]")) {
      if (input.value === kept[name]) input.checked = true;
      input.addEventListener("change", () => { kept[name] = input.value; keep(); show(); });
    }
  }
  const chosen = document.querySelector("input[name=view]:checked");
  if (!chosen || chosen.value !== kept.view) kept.view = "";
  for (const step of steps) {
    step.querySelector(".tick input").addEventListener("change", (event) => {
      kept.done = kept.done.filter((id) => id !== step.dataset.step);
      if (event.target.checked) kept.done.push(step.dataset.step);
      keep();
      show();
    });
  }
  document.querySelector(".again").addEventListener("click", () => { kept.done = []; keep(); show(); });
  // A step that is jumped to must not hide under the bar, whose height depends on the screen's width and on what it says.
  const bar = document.querySelector(".bar");
  const measure = () => document.documentElement.style.setProperty("--bar", bar.offsetHeight + 4 + "px");
  new ResizeObserver(measure).observe(bar);
  show();
})();
