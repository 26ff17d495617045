// Values that could not be sent wait here, in the browser's own store, so that neither a
// lost connection nor a closed page loses them; they are tried again until the program
// has answered.

const base = document.documentElement.dataset.base;
const key = "ampstead-unsaved-" + base;
const tryEvery = 15000; // ms between tries while something waits
const box = document.getElementById("unsaved");

let memory = {}; // where the browser keeps nothing
let timer = null;
let trying = false;

/** all are the waiting values by path: {value, was, label, message}. */
export function all() {
  try {
    return JSON.parse(localStorage.getItem(key)) || {};
  } catch {
    return memory;
  }
}

/** wait keeps a value until it is sent. */
export function wait(path, entry) { change((list) => { list[path] = entry; }); }

/** done forgets a value: it is saved, or was typed anew. */
export function done(path) { change((list) => { delete list[path]; }); }

function change(how) {
  const list = all();
  how(list);
  memory = list;
  try {
    if (Object.keys(list).length) localStorage.setItem(key, JSON.stringify(list));
    else localStorage.removeItem(key);
  } catch { /* kept in memory alone */ }
  show(list);
}

/** start shows what waits and sends it with send(path, entry), which returns the answer. */
export function start(send) {
  const again = async () => {
    clearTimeout(timer);
    if (trying) return;
    trying = true;
    for (const [path, entry] of Object.entries(all())) {
      if (entry.message) continue;
      const answer = await send(path, entry);
      if (answer.lost) break;
    }
    trying = false;
    if (Object.values(all()).some((entry) => !entry.message)) timer = setTimeout(again, tryEvery);
  };
  box.addEventListener("click", (event) => {
    const what = event.target.dataset.do;
    if (what === "again") again();
    if (what === "forget") change((list) => { for (const path of Object.keys(list)) delete list[path]; });
  });
  window.addEventListener("online", again);
  show(all());
  if (Object.keys(all()).length) again();
  return () => { clearTimeout(timer); timer = setTimeout(again, tryEvery); };
}

function show(list) {
  const entries = Object.entries(list);
  box.replaceChildren();
  if (!entries.length) return;
  const line = (tag, text, to) => {
    const e = document.createElement(tag);
    e.textContent = text;
    to.append(e);
    return e;
  };
  const count = entries.length === 1 ? "1 value is" : entries.length + " values are";
  line("p", count + " not saved yet. What you typed is kept on this device.", box).className = "waits";
  const ul = line("ul", "", box);
  for (const [path, entry] of entries) {
    line("li", entry.label + ": " + (entry.value || "nothing") + (entry.message ? ". " + entry.message : ""), ul);
  }
  line("button", "Try again", box).dataset.do = "again";
  line("button", "Forget them", box).dataset.do = "forget";
}
