// A page that showed old answers asks until the new ones are there; then it loads itself again, unless something is typed on it.
"use strict";
(() => {
  const note = document.getElementById("being-reckoned");
  if (!note) return;
  let touched = false;
  addEventListener("input", () => { touched = true; });
  const ask = async () => {
    try {
      const answer = await (await fetch(note.dataset.fresh, { headers: { accept: "application/json" } })).json();
      if (answer.fresh) {
        if (!touched && !document.querySelector("details[open] form")) { location.reload(); return; }
        note.firstChild.textContent = "The new reckoning is there. ";
        return;
      }
    } catch { /* the network is gone; ask again */ }
    setTimeout(ask, 1500);
  };
  setTimeout(ask, 800);
})();
