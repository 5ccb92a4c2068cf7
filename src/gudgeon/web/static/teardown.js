// Photos gathered one after another from the camera, and a note that waits on the page while the network is gone. Without this
// script the plain form does the same with the photos of one choosing.
"use strict";
(() => {
  const ticket = () => "p" + [...crypto.getRandomValues(new Uint8Array(12))].map((byte) => byte.toString(16).padStart(2, "0")).join("");
  for (const form of document.querySelectorAll("form[data-note]")) {
    const taken = [], list = form.querySelector("[data-taken]"), waiting = form.querySelector("[data-waiting]");
    const gather = (input) => {
      for (const file of input.files) {
        taken.push(file);
        const item = document.createElement("li"), picture = document.createElement("img"), drop = document.createElement("button");
        picture.alt = file.name; picture.width = picture.height = 96; picture.src = URL.createObjectURL(file);
        picture.addEventListener("error", () => picture.replaceWith(file.name));
        drop.type = "button"; drop.textContent = "not this one";
        drop.addEventListener("click", () => { taken.splice(taken.indexOf(file), 1); item.remove(); });
        item.append(picture, drop); list.append(item);
      }
      input.value = "";
    };
    for (const input of form.querySelectorAll("input[type=file]")) input.addEventListener("change", () => gather(input));
    for (const pick of form.querySelectorAll("input[name=pick]")) pick.addEventListener("change", () => { form.elements.item.value = pick.value; });
    let under = false, held = null;
    const send = async () => {
      if (under || !held) return;
      under = true;
      try {
        const response = await fetch(form.action, { method: "POST", body: held });
        if (response.status >= 500) throw new Error("not now");
        held = null;
        if (response.redirected && response.ok) { location.assign(response.url); return; }
        const page = new DOMParser().parseFromString(await response.text(), "text/html");
        const sentence = page.querySelector("main .notice")?.textContent.trim() || "Not taken.";
        waiting.hidden = false; waiting.textContent = sentence;
        const both = page.querySelector("main .both"), old = form.querySelector(".both");
        old?.remove(); if (both) waiting.after(document.adoptNode(both));
        const seen = page.querySelector("form[data-note] input[name=seen]");
        if (seen && form.elements.seen) form.elements.seen.value = seen.value;
        waiting.scrollIntoView({ block: "center" });
      } catch {
        waiting.hidden = false; waiting.textContent = "No network: this note and its photos wait here and go out by themselves. Keep the page open.";
        setTimeout(send, 4000);
      } finally { under = false; }
    };
    form.addEventListener("submit", (event) => {
      event.preventDefault();
      held = new FormData(form, event.submitter ?? undefined);
      for (const name of ["pictures", "more_pictures"]) held.delete(name);
      for (const file of taken) held.append("pictures", file, file.name);
      if (form.elements.item) held.set("ticket", form.dataset.ticket ||= ticket());
      send();
    });
    // A change to the form is a new thing to send, under a new ticket.
    form.addEventListener("input", () => { delete form.dataset.ticket; held = null; });
    addEventListener("online", send);
  }
})();
