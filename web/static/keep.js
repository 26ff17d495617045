// Takes readings also without a connection: each is written into the browser's own
// store first, with an ID made here, then sent; what could not be sent is tried
// again until the program has said that it is stored. Sending twice stores once,
// because the program knows the ID. Without scripts the form is sent as it is.

import { ask, cells, check, number } from "./keep-fields.js";

const base = document.documentElement.dataset.base; // of the rig's pages
const form = document.getElementById("entry");
const box = document.getElementById("waiting");
const store = document.getElementById("store");
const wrong = document.getElementById("entry-wrong");
const rig = form.dataset.rig;
const queueKey = "ampstead-keep-" + rig;
const draftKey = "ampstead-draft-" + rig;
const sendEvery = 15000; // ms between tries while something waits
const longest = 10000; // ms that an answer is waited for

let memory = {}; // where the browser keeps nothing
let remembers = true;
let sure = false; // what was asked about is to be stored as it is
let sending = null;

function load(key, without) {
  try {
    const text = localStorage.getItem(key);
    if (text !== null) return JSON.parse(text);
  } catch {
    remembers = false;
  }
  return key in memory ? memory[key] : without;
}

function save(key, value) {
  memory[key] = value;
  try {
    localStorage.setItem(key, JSON.stringify(value));
  } catch {
    remembers = false;
  }
}

const queue = () => load(queueKey, []);

// change works on the queue as it is now: another tab may have changed it.
function change(how) {
  save(queueKey, how(queue()));
  show();
}

/** newID makes an ID that no other device makes. */
function newID() {
  if (crypto.randomUUID) return crypto.randomUUID();
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  return [...bytes].map((b) => b.toString(16).padStart(2, "0")).join("");
}

const value = (name) => {
  const field = form.elements[name];
  return field ? field.value.trim() : "";
};

// reading makes of the form what the program stores; it throws the name of a field
// that cannot be read.
function reading() {
  const groups = cells().map((cell) => number(cell.value));
  cells().forEach((cell, i) => { if (Number.isNaN(groups[i])) throw cell; });
  if (groups.every((v) => v === null)) groups.length = 0;
  const one = { id: newID(), version: 1, taken: when(), groups_v: groups, meter: value("meter"), note: value("note") };
  for (const [name, key] of [["bank", "bank_v"], ["current", "current_a"], ["rested", "rested_h"], ["counter", "counter_ah"]]) {
    const v = number(value(name));
    if (Number.isNaN(v)) throw form.elements[name];
    if (v !== null) one[key] = v;
  }
  const temps = value("temps").split(/[\s;]+/).filter((t) => t !== "").map(number);
  if (temps.some(Number.isNaN)) throw form.elements.temps;
  if (temps.length) one.temperatures_c = temps.map((t) => (form.dataset.us ? (t - 32) / 1.8 : t));
  return one;
}

function when() {
  const typed = value("taken");
  return (typed ? new Date(typed) : new Date()).toISOString();
}

function say(text) { wrong.textContent = text; }

form.addEventListener("submit", async (event) => {
  event.preventDefault();
  const doubts = cells().map(check).filter(Boolean).length;
  let one;
  try {
    one = reading();
  } catch (field) {
    if (field.closest("details")) field.closest("details").open = true;
    field.focus();
    say("Not stored: this field is no number.");
    return;
  }
  if (one.groups_v.length === 0 && one.bank_v === undefined && !one.note) {
    say("Nothing is entered yet.");
    cells()[0].focus();
    return;
  }
  if (doubts > 0 && !sure) {
    asked("Not stored yet: some values look like slips. Mend them, or store the reading as it is.");
    return;
  }
  store.disabled = true;
  say("");
  change((list) => [...list, { reading: one, fresh: true }]);
  const got = await send(!sure);
  store.disabled = false;
  answered(one, got);
});

function asked(text) {
  sure = true;
  store.textContent = "Store it as it is";
  say(text);
  const first = form.querySelector("[aria-invalid]");
  if (first) first.focus();
}

// answered says what became of the reading just entered.
function answered(one, got) {
  const mine = got && got.find((g) => g.id === one.id);
  if (mine && mine.doubts && mine.doubts.length) {
    change((list) => list.filter((item) => item.reading.id !== one.id)); // it is still in the form
    for (const d of mine.doubts) question(d);
    asked("Not stored yet: some values look like slips. Mend them, or store the reading as it is.");
    return;
  }
  if (mine && mine.error && !mine.correct) {
    change((list) => list.filter((item) => item.reading.id !== one.id));
    say("Not stored: " + mine.error + ".");
    return;
  }
  clear();
  if (mine && mine.stored) {
    location.assign(base + "/keep?done=" + (mine.fresh ? "stored" : "known"));
    return;
  }
  say("");
  box.scrollIntoView({ block: "center" });
}

function question(d) {
  const cell = d.field.startsWith("groups.") && cells()[Number(d.field.slice(7)) - 1];
  if (cell) {
    ask(cell, d.found + ".", d.perhaps || "");
  } else {
    say(d.found + ".");
  }
}

function clear() {
  const meter = value("meter");
  form.reset();
  for (const cell of cells()) {
    cell.value = "";
    ask(cell, "", "");
  }
  for (const name of ["bank", "current", "temps", "counter", "taken", "note"]) form.elements[name].value = "";
  form.elements.meter.value = meter;
  sure = false;
  store.textContent = "Store this reading";
  save(draftKey, {});
}

form.addEventListener("input", (event) => {
  sure = false;
  store.textContent = "Store this reading";
  if (event.target.name && event.target.type !== "hidden") save(draftKey, Object.fromEntries(new FormData(form)));
});

// What was typed before the page went away stands in the form again.
function restore() {
  const draft = load(draftKey, {});
  if (cells().some((cell) => cell.value !== "")) return; // the program sent the form back
  for (const [name, text] of Object.entries(draft)) {
    const field = form.elements[name];
    if (field && name !== "id" && name !== "sure" && text !== "") field.value = text;
  }
}

/** send sends what waits; its answer is what became of each, or null. */
function send(askBack) {
  if (!sending) sending = post(askBack).finally(() => { sending = null; show(); });
  return sending;
}

async function post(askBack) {
  const list = queue().filter((item) => !item.refused);
  if (list.length === 0) return [];
  // Only one that is just being entered is asked back about: the others are no
  // longer in the form.
  const alone = askBack && list.length === 1 && list[0].fresh;
  const body = JSON.stringify({ rig, ask: alone, readings: list.slice(0, 100).map((item) => item.reading) });
  const late = new AbortController();
  const timer = setTimeout(() => late.abort(), longest);
  try {
    const reply = await fetch(base + "/keep/readings", { method: "POST", headers: { "Content-Type": "application/json", Accept: "application/json" }, body, signal: late.signal });
    const json = (reply.headers.get("Content-Type") || "").startsWith("application/json");
    if (!json) {
      hold(reply.redirected ? "Open this page anew and give the passphrase; then they are sent." : "The program did not take them: " + reply.status + ".");
      return null;
    }
    const answer = await reply.json();
    if (!reply.ok) {
      hold("Not stored yet: " + answer.error + ".");
      return null;
    }
    settle(answer.results);
    return answer.results;
  } catch {
    hold("The program does not answer. Kept on this device; it is sent when the connection is back.");
    return null;
  } finally {
    clearTimeout(timer);
  }
}

let held = "";

// hold keeps what waits, and why.
function hold(why) {
  held = why;
  change((list) => list.map((item) => ({ ...item, fresh: false })));
}

// settle takes out what is stored and marks what never will be as it stands.
function settle(results) {
  held = "";
  const by = new Map(results.map((got) => [got.id, got]));
  change((list) => list.flatMap((item) => {
    const got = by.get(item.reading.id);
    if (!got) return [item];
    if (got.stored) return [];
    if (got.error) return [{ ...item, fresh: false, refused: got.error, correct: got.correct || "" }];
    return [item];
  }));
}

// show tells what waits on this device.
function show() {
  const list = queue();
  const waits = list.filter((item) => !item.refused && !item.fresh).length;
  box.hidden = waits === 0 && !list.some((item) => item.refused);
  if (box.hidden) return;
  box.querySelector("b").textContent = waits > 0 ? waits + " waiting." : "Not taken.";
  box.querySelector("span").textContent = held || (remembers ? "" : "This browser keeps nothing: do not close the page.");
  box.querySelector("button").hidden = waits === 0;
  box.querySelector("ul").replaceChildren(...list.filter((item) => !item.fresh).map(row));
}

function row(item) {
  const line = document.createElement("li");
  const values = item.reading.groups_v.map((v) => (v === null ? "–" : v)).join(" ");
  const at = new Date(item.reading.taken);
  const local = new Date(at.getTime() - at.getTimezoneOffset() * 60000).toISOString();
  line.append(local.slice(0, 10) + " " + local.slice(11, 16) + ": " + values + " ");
  if (item.refused) line.append(item.refused + ". ");
  if (item.correct) {
    const link = document.createElement("a");
    link.href = item.correct;
    link.textContent = "See it. ";
    line.append(link);
  }
  if (item.refused) line.append(button("Put it back into the form", () => back(item)), button("Drop it", () => drop(item)));
  return line;
}

function button(text, what) {
  const b = document.createElement("button");
  b.type = "button";
  b.textContent = text;
  b.addEventListener("click", what);
  return b;
}

function drop(item) { change((list) => list.filter((other) => other.reading.id !== item.reading.id)); }

function back(item) {
  drop(item);
  cells().forEach((cell, i) => {
    const v = item.reading.groups_v[i];
    cell.value = v === null || v === undefined ? "" : String(v);
  });
  for (const [name, key] of [["bank", "bank_v"], ["current", "current_a"], ["counter", "counter_ah"], ["note", "note"], ["meter", "meter"]]) {
    form.elements[name].value = item.reading[key] === undefined ? "" : String(item.reading[key]);
  }
  cells()[0].focus();
}

// What was only just entered when the page went away waits like the others.
function wake() {
  change((list) => list.map((item) => ({ ...item, fresh: false })));
  retry();
}

async function retry() {
  const before = queue().filter((item) => !item.refused).length;
  if (before === 0) return;
  await send(false);
  if (queue().filter((item) => !item.refused).length < before && !cells().some((cell) => cell.value !== "")) {
    location.assign(base + "/keep?done=stored"); // the lists on this page are old by now
  }
}

box.querySelector("button").addEventListener("click", retry);
window.addEventListener("online", retry);
window.addEventListener("storage", show);
document.addEventListener("visibilitychange", () => { if (!document.hidden) retry(); });
setInterval(retry, sendEvery);

// Where the browser allows it (https, or this machine itself) the page can also be
// opened without a connection.
if ("serviceWorker" in navigator && window.isSecureContext) {
  navigator.serviceWorker.register(base + "/keep-worker.js", { scope: base + "/keep" }).catch(() => {});
}

restore();
wake();
document.documentElement.classList.add("keeps");
