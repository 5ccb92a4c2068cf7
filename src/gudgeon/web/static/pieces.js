// Fetches what is folded away when it is first opened; without this script the link inside leads to the same on its own page.
"use strict";

async function fetchPiece(details) {
  const address = details.dataset.piece;
  delete details.dataset.piece;
  try {
    const answer = await fetch(address + (address.includes("?") ? "&" : "?") + "piece=1");
    if (!answer.ok) throw new Error(answer.statusText);
    const holder = document.createElement("div");
    holder.className = "piece";
    holder.innerHTML = await answer.text();
    details.querySelector(":scope > p").replaceWith(holder);
  } catch {
    details.dataset.piece = address; // the link is still there; opening it again tries again
  }
}

document.addEventListener("toggle", (event) => {
  if (event.target.open && event.target.dataset.piece) fetchPiece(event.target);
}, true);

function openTarget() {
  const place = location.hash && document.getElementById(decodeURIComponent(location.hash.slice(1)));
  for (let fold = place; fold; fold = fold.parentElement) if (fold.localName === "details") fold.open = true;
  if (place) place.scrollIntoView();
}

addEventListener("hashchange", openTarget);
openTarget();
