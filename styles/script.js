"use strict";
// One take a screen. On: a tap on the right two thirds, space, Enter, the arrows, Page Down (as presenters' remotes send).
(() => {
  const root = document.documentElement;
  const main = document.querySelector("main");
  const inFilm = [...document.querySelectorAll(".take")];
  const asFilmed = [...inFilm].sort((a, b) => a.dataset.filmed - b.dataset.filmed);
  const order = document.querySelector(".order");
  const where = document.querySelector(".where");
  let row = inFilm;
  let here = Math.max(0, inFilm.findIndex((take) => "#" + take.id === location.hash));

  // As large as fits, within what can be read from a metre away and what still is a line.
  function fit(take) {
    for (let size = Math.min(4.5, Math.max(2.2, innerWidth / 320)); ; size -= .1) {
      take.style.setProperty("--size", size.toFixed(2) + "rem");
      if (size <= 1.3 || take.scrollHeight <= take.clientHeight) return;
    }
  }

  function show(moved) {
    inFilm.forEach((take) => take.classList.toggle("here", take === row[here]));
    where.textContent = here + 1 + " of " + row.length;
    row[here].scrollTop = 0;
    fit(row[here]);
    if (moved) {
      history.replaceState(null, "", "#" + row[here].id);
      row[here].focus({ preventScroll: true });
    }
  }

  function go(steps) {
    const to = Math.min(row.length - 1, Math.max(0, here + steps));
    if (to !== here) { here = to; show(true); }
  }

  const keys = {
    ArrowRight: 1, ArrowDown: 1, PageDown: 1, " ": 1, Enter: 1,
    ArrowLeft: -1, ArrowUp: -1, PageUp: -1, Backspace: -1, Home: -Infinity, End: Infinity,
  };
  document.addEventListener("keydown", (event) => {
    if (!(event.key in keys) || event.ctrlKey || event.metaKey || event.altKey) return;
    if (event.target.closest("button") && (event.key === " " || event.key === "Enter")) return;
    // A take longer than the screen is read to its end first.
    const take = row[here];
    const down = keys[event.key] > 0;
    const more = down ? take.scrollHeight - take.clientHeight - take.scrollTop > 4 : take.scrollTop > 4;
    if (event.key.startsWith("Arrow") && /Up|Down/.test(event.key) && more) return;
    event.preventDefault();
    go(event.shiftKey && event.key === " " ? -1 : keys[event.key]);
  });
  main.addEventListener("click", (event) => {
    if (String(getSelection())) return;
    go(event.clientX < innerWidth / 3 ? -1 : 1);
  });
  document.querySelector(".back").addEventListener("click", () => go(-1));
  document.querySelector(".on").addEventListener("click", () => go(1));
  order.addEventListener("click", () => {
    const take = row[here];
    row = row === inFilm ? asFilmed : inFilm;
    order.setAttribute("aria-pressed", String(row === asFilmed));
    here = row.indexOf(take);
    show(true);
  });
  addEventListener("hashchange", () => {
    const to = row.findIndex((take) => "#" + take.id === location.hash);
    if (to >= 0 && to !== here) { here = to; show(false); }
  });
  addEventListener("resize", () => fit(row[here]));
  document.querySelector("nav").hidden = false;
  root.classList.add("paged");
  show(false);
  if (document.fonts) document.fonts.ready.then(() => fit(row[here]));
})();
