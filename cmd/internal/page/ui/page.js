// The page answers while one types. Everything here only saves a click: without this file each form works by its button.
"use strict";
(() => {
  const $ = (q, at = document) => at.querySelector(q);
  const $$ = (q, at = document) => [...at.querySelectorAll(q)];

  // Files may be dropped on what takes them.
  const takes = (zone, then) => {
    const input = $("input[type=file]", zone);
    zone.addEventListener("dragover", e => { e.preventDefault(); zone.classList.add("over"); });
    zone.addEventListener("dragleave", () => zone.classList.remove("over"));
    zone.addEventListener("drop", e => {
      e.preventDefault();
      zone.classList.remove("over");
      if (!e.dataTransfer.files.length) return;
      input.files = e.dataTransfer.files;
      then(input);
    });
  };
  $$("form[data-drop]").forEach(f => takes(f, () => f.requestSubmit()));
  $$(".field[data-drop]").forEach(f => takes(f, () => {}));

  $$("[data-sure]").forEach(f => f.addEventListener("submit", e => {
    if (!confirm(f.dataset.sure)) e.preventDefault();
  }));

  // A field that a link leads to is shown, also inside a closed part.
  const reveal = () => {
    const to = location.hash.length > 1 && document.getElementById(decodeURIComponent(location.hash.slice(1)));
    if (!to) return;
    for (let d = to.closest("details"); d; d = d.parentElement.closest("details")) d.open = true;
    const field = to.matches("input,select,textarea") ? to : $("input,select,textarea", to);
    to.scrollIntoView({ block: "center" });
    if (field) field.focus({ preventScroll: true });
  };
  addEventListener("hashchange", reveal);
  document.addEventListener("click", e => { // the same link twice
    const a = e.target.closest("a[href^='#']");
    if (a && a.hash === location.hash) reveal();
  });

  // A run that takes a while.
  const work = $("[data-job]");
  if (work) {
    const events = new EventSource(`/job/${work.dataset.job}/events`);
    events.onmessage = e => {
      const p = JSON.parse(e.data);
      if (p.Words) $(".words", work).textContent = p.Words;
      const bar = $("progress", work);
      if (p.Of) { bar.max = p.Of; bar.value = p.Done; }
      if (p.Finished) { events.close(); location.reload(); }
    };
  }

  const sheet = $("[data-sheet]");
  const form = $("#describe");
  if (!sheet || !form) { reveal(); return; }
  document.documentElement.classList.add("live");
  const key = sheet.dataset.sheet, at = `/panel/${encodeURIComponent(key)}`;
  const show = $("[data-answer]", sheet), now = $("[data-now]", sheet), told = $("[data-progress]", sheet), wrong = $("[data-wrong]", sheet), saved = $("[data-saved]", sheet);
  let rev = Number(sheet.dataset.rev || 0), stage = Number(sheet.dataset.stage || 0);

  // Only what the chosen kind of climate needs is shown.
  const kinds = () => {
    const kind = ($("input[name='q:kind']:checked", form) || {}).value || "";
    $$("[data-kind]", form).forEach(e => { e.hidden = e.dataset.kind !== kind; });
  };
  kinds();

  // What is typed is sent once the hand rests; of several answers only the latest is shown.
  let timer = 0, sending = null, changed = new Set();
  const send = async () => {
    timer = 0;
    if (sending) sending.abort();
    const mine = sending = new AbortController();
    const body = new URLSearchParams();
    for (const [k, v] of new FormData(form)) if (typeof v === "string" && !k.startsWith("name:") && !k.startsWith("rename:")) body.append(k, v);
    let reply;
    try {
      const r = await fetch(at, { method: "POST", body, headers: { Accept: "application/json" }, signal: mine.signal });
      if (!r.ok) throw new Error(await r.text());
      reply = await r.json();
    } catch (err) {
      if (err.name !== "AbortError") told.textContent = "The page cannot reach the program. What is typed stays in the fields; start the program again and press “Answer again”.";
      return;
    }
    if (mine !== sending) return;
    sending = null;
    rev = reply.rev; stage = 1;
    show.innerHTML = reply.answer;
    now.innerHTML = reply.now;
    wrong.innerHTML = reply.wrong;
    if (reply.told) told.textContent = reply.told;
    saved.textContent = reply.unsaved ? "kept as a draft, not saved yet" : "saved";
    $$(".field", form).forEach(f => {
      const note = $(".wrong", f);
      if (!note) return;
      const id = note.id.replace(/-wrong$/, ""), text = reply.fields[id] || "";
      note.textContent = text;
      f.classList.toggle("bad", !!text);
      const input = $("input,select,textarea", f);
      if (text) input.setAttribute("aria-invalid", "true"); else input.removeAttribute("aria-invalid");
    });
  };
  const soon = ms => { clearTimeout(timer); timer = setTimeout(send, ms); };
  form.addEventListener("input", e => {
    if (!e.target.name || e.target.type === "file" || /^(name|rename):/.test(e.target.name)) return;
    kinds();
    soon(e.target.type === "text" || e.target.tagName === "TEXTAREA" ? 300 : 0);
  });
  form.addEventListener("submit", () => { clearTimeout(timer); });

  // Finer answers come as events.
  const follow = () => {
    const events = new EventSource(`${at}/events?rev=${rev}&stage=${stage}`);
    events.onmessage = e => {
      const p = JSON.parse(e.data);
      if (p.rev < rev || sending || timer) return;
      told.textContent = p.words ? p.words + (p.of ? `: ${p.done} of ${p.of}` : "") : "";
      if (p.answer) { rev = p.rev; stage = p.stage; show.innerHTML = p.answer; now.innerHTML = p.now; }
    };
  };
  follow();

  // A logger's file dropped on its field is taken at once.
  const drop = $("[data-drop-record]", form);
  if (drop) {
    const take = async input => {
      const body = new FormData();
      body.append("drop:record", input.files[0]);
      told.textContent = "reading the record";
      const r = await fetch(drop.dataset.dropRecord, { method: "POST", body });
      location.assign(r.url || location.href);
      location.reload();
    };
    takes(drop, take);
    $("input[type=file]", drop).addEventListener("change", e => take(e.target));
    $("button", drop).hidden = true;
  }

  // One reading and hours, one line.
  const phone = $("[data-phone]");
  if (phone) phone.addEventListener("submit", async e => {
    e.preventDefault();
    const line = $("[data-line]");
    line.textContent = "…";
    const r = await fetch(phone.action, { method: "POST", body: new URLSearchParams(new FormData(phone)), headers: { Accept: "application/json" } });
    line.innerHTML = await r.text();
  });
  reveal();
})();
