// The pad, the echo, and the queue that keeps readings on the phone while the network is gone. Without this script the
// plain form does the same, one page a reading.
"use strict";
(() => {
  const bench = document.getElementById("bench");
  const form = document.getElementById("reading-form");
  if (!bench || !form) return;
  const field = form.elements.reading;
  const echo = document.getElementById("echo");
  const waiting = document.getElementById("waiting");
  const lines = [...document.querySelectorAll("#lines li")];
  const KEY = "gudgeon-waiting";
  const REMEMBERED = ["instrument", "base", "unit", "setting", "part_temp_c"];
  const SPOKEN = { space: " ", "⌫": null, "−": "-" };

  document.getElementById("pad").hidden = false;
  if (matchMedia("(pointer: coarse)").matches) field.inputMode = "none";

  // What was typed, and what it would be taken to mean.
  let asking = 0, timer = 0;
  const understood = () => {
    clearTimeout(timer);
    const typed = field.value.trim();
    if (!typed) { say(""); return; }
    timer = setTimeout(async () => {
      const mine = ++asking;
      const query = new URLSearchParams({ reading: typed, unit: form.elements.unit.value, base: form.elements.base.value });
      try {
        const answer = await (await fetch(bench.dataset.echo + "?" + query, { headers: { accept: "application/json" } })).json();
        if (mine === asking) say(answer.echo || answer.sentence, !answer.echo);
      } catch { if (mine === asking) say(typed + ", kept as typed until the network is back"); }
    }, 120);
  };
  const say = (text, wrong) => { echo.textContent = text; echo.classList.toggle("wrong", Boolean(wrong)); };
  field.addEventListener("input", understood);
  for (const name of REMEMBERED) form.elements[name].addEventListener("input", understood);

  document.getElementById("pad").addEventListener("click", (event) => {
    const key = event.target.closest("button")?.dataset.key;
    if (!key) return;
    if (key === "⌫") field.value = field.value.slice(0, -1);
    else if (key.length > 1 && key !== "space") field.value = (field.value.trim() + " " + key).trim() + (key === "over" || key === "under" ? " " : "");
    else field.value += SPOKEN[key] ?? key;
    understood();
  });

  // The line at hand.
  const current = () => lines.find((line) => line.classList.contains("here"));
  const goTo = (line) => {
    if (!line) return;
    for (const other of lines) { other.classList.toggle("here", other === line); other.removeAttribute("aria-current"); }
    line.setAttribute("aria-current", "true");
    form.elements.line.value = line.dataset.line;
    form.elements.station.value = line.dataset.station;
    form.elements.direction_deg.value = line.dataset.deg;
    document.getElementById("where").textContent = line.dataset.station || document.querySelector("h1").textContent;
    document.getElementById("direction").textContent = line.dataset.direction;
    document.getElementById("hint").textContent = line.dataset.hint;
    document.getElementById("spot").replaceChildren(line.querySelector("template").content.cloneNode(true));
    field.value = ""; field.focus({ preventScroll: true });
  };
  const advance = (line) => {
    const at = lines.indexOf(line);
    goTo([...lines.slice(at + 1), ...lines.slice(0, at)].find((next) => next.dataset.taken === "0") || lines[Math.min(at + 1, lines.length - 1)]);
  };
  document.getElementById("lines").addEventListener("click", (event) => {
    const line = event.target.closest("li");
    if (line && event.target.closest("a")) { event.preventDefault(); goTo(line); say(""); scrollTo({ top: 0 }); }
  });

  // The queue: every reading goes through it, so that what is shown is what is kept.
  const load = () => { try { return JSON.parse(localStorage.getItem(KEY)) || []; } catch { return []; } };
  const save = (queue) => localStorage.setItem(KEY, JSON.stringify(queue));
  const showWaiting = (text) => {
    const count = load().length;
    waiting.hidden = !count && !text;
    waiting.textContent = text || (count ? `${count} reading${count === 1 ? "" : "s"} waiting on this device for the network.` : "");
  };
  const mark = (line, typed, kind) => {
    if (!line) return null;
    const chip = document.createElement("span");
    chip.textContent = typed; if (kind) chip.className = kind;
    line.querySelector(".values").append(chip);
    line.dataset.taken = String(Number(line.dataset.taken) + 1);
    return chip;
  };
  const chips = new Map();
  let sending = false;
  const deliver = async () => {
    if (sending) return;
    sending = true;
    try {
      for (let queue = load(); queue.length; queue = load()) {
        const [first] = queue;
        let response;
        try {
          response = await fetch(first.post, { method: "POST", body: new URLSearchParams(first.fields), headers: { accept: "application/json" } });
        } catch { break; }
        if (response.status >= 500 || response.status === 401) break;
        const answer = await response.json().catch(() => ({}));
        save(load().filter((other) => other.fields.ticket !== first.fields.ticket));
        const chip = chips.get(first.fields.ticket);
        if (response.ok) { if (chip) { chip.className = ""; chip.title = answer.echo || ""; } say(`Taken: ${answer.echo}`); }
        else {
          if (chip) { chip.className = "refused"; const line = chip.closest("li"); line.dataset.taken = String(Number(line.dataset.taken) - 1); }
          waiting.hidden = false; waiting.textContent = `${first.fields.item}, ${first.fields.station}: ${answer.sentence || "not taken"}`;
          if (!field.value) { field.value = first.fields.reading; const line = lines.find((one) => one.dataset.line === first.fields.line); if (line) { const kept = field.value; goTo(line); field.value = kept; } }
          say(answer.sentence, true);
          return;
        }
      }
      showWaiting();
    } finally { sending = false; }
  };
  const ticket = () => "t" + [...crypto.getRandomValues(new Uint8Array(12))].map((byte) => byte.toString(16).padStart(2, "0")).join("");

  form.addEventListener("submit", (event) => {
    event.preventDefault();
    const quick = event.submitter?.value;
    const typed = (quick || field.value).trim();
    if (!typed) { say("Type the reading, or tap “not reached”.", true); field.focus(); return; }
    if (!form.elements.who || form.elements.who.value.trim() || !form.elements.who.required) { /* named */ }
    else { form.elements.who.focus(); return; }
    const fields = Object.fromEntries([...new FormData(form)].filter(([, value]) => typeof value === "string" && value.trim()));
    delete fields.quick;
    fields.reading = typed; fields.ticket = ticket();
    const line = current();
    chips.set(fields.ticket, mark(line, typed, "waits"));
    save([...load(), { post: bench.dataset.post, fields }]);
    say(""); form.elements.note.value = "";
    advance(line); showWaiting(); deliver();
  });
  addEventListener("online", deliver);
  addEventListener("visibilitychange", () => { if (!document.hidden) deliver(); });
  setInterval(() => { if (load().length) deliver(); }, 4000);
  for (const kept of load()) if (kept.post === bench.dataset.post) chips.set(kept.fields.ticket, mark(lines.find((line) => line.dataset.line === kept.fields.line), kept.fields.reading, "waits"));
  showWaiting(); deliver(); understood();
})();
