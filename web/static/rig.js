// The form that answers while it is filled in: each changed value is sent at once, what
// follows from it is swapped in, and the values of a part come when it is opened.

import { post, swap } from "./live.js";
import * as unsaved from "./unsaved.js";

const base = document.documentElement.dataset.base;
const say = document.getElementById("say");
const finder = document.querySelector(".find");
const typingPause = 250; // ms after the last key before looking for words

let stamp = document.querySelector("[data-stamp]").dataset.stamp;
let openBefore = []; // sections that were open before a search

const all = (what, within = document) => [...within.querySelectorAll(what)];
const isSection = (element) => element.classList && element.classList.contains("section");
const openSections = () => all(".section[open]").map((section) => section.dataset.path);
const boxOf = (element) => element && element.closest(".section .field");
const boxAt = (path) => all(".field").find((box) => box.dataset.path === path);
const inputOf = (box) => box.querySelector("[name^='v:']:checked") || box.querySelector("select[name^='v:'], textarea[name^='v:'], input[name^='v:']:not([type=radio])");
const wasOf = (box) => box.querySelector("[name^='w:']");
const valueOf = (box) => { const input = inputOf(box); return input ? input.value : ""; };
const labelOf = (box) => {
  const section = box.closest(".section").querySelector("h3").textContent;
  const part = box.closest(".part-of").querySelector("h4");
  return [section, part && part.textContent, box.querySelector("label, .label").firstChild.textContent.trim()].filter(Boolean).join(", ");
};

document.documentElement.classList.add("live");
document.addEventListener("toggle", (event) => {
  if (isSection(event.target) && event.target.open) load(event.target);
}, true);
document.addEventListener("change", (event) => {
  const box = boxOf(event.target);
  if (box) save(box.dataset.path, "");
});
document.addEventListener("submit", (event) => {
  const by = event.submitter;
  if (by && by.name === "do") return stop(event, () => act(event.target, by));
  if (by && by.name === "step") return stop(event, () => step(by));
  if (by && by.name === "take") return stop(event, () => save(by.value, by.value));
  if (by && by.name === "step") return stop(event, () => turn(event.target, by));
  if (event.target.closest(".section")) return stop(event, () => {});
  if (event.target === finder) return stop(event, () => look(finder.find.value));
});
document.addEventListener("click", (event) => {
  const link = event.target.closest("a[href]");
  if (!link || event.ctrlKey || event.metaKey || event.shiftKey) return;
  if ("all" in link.dataset) return stop(event, () => { finder.find.value = ""; look(""); });
  const to = new URL(link.href);
  if (to.pathname !== location.pathname || !to.searchParams.has("at")) return;
  stop(event, async () => {
    if (finder.find.value) { finder.find.value = ""; await look(""); }
    history.replaceState(null, "", to.hash);
    openTarget();
  });
});
let pause = null;
finder.find.addEventListener("input", () => {
  clearTimeout(pause);
  pause = setTimeout(() => look(finder.find.value), typingPause);
});
window.addEventListener("hashchange", openTarget);
const tryAgainSoon = unsaved.start(resend);
fillWaiting();
openTarget();

function stop(event, then) {
  event.preventDefault();
  then();
}

/** load brings the values of a section that was opened for the first time. */
async function load(section) {
  if ("loaded" in section.dataset) return;
  section.dataset.loaded = "";
  const answer = await bring("of=" + encodeURIComponent(section.dataset.path));
  if (answer) swap(answer.parts);
  else delete section.dataset.loaded;
  fillWaiting();
}

async function bring(query) {
  try {
    const reply = await fetch(base + "/rig/part?" + query, { headers: { Accept: "application/json" } });
    return reply.ok ? await reply.json() : null;
  } catch {
    say.textContent = "The program does not answer.";
    return null;
  }
}

/** save sends one value; take puts the recommended one in its place. */
async function save(path, take) {
  const box = boxAt(path);
  box.classList.add("sent");
  box.classList.remove("kept");
  unsaved.done(path);
  const value = valueOf(box);
  const was = wasOf(box).value;
  const label = labelOf(box);
  const answer = await send(path, { value, was }, take);
  if (!answer.lost) return;
  unsaved.wait(path, { value, was, label });
  fillWaiting();
  tryAgainSoon();
}

/** resend tries once more to save a value that waits. */
async function resend(path, entry) {
  const answer = await send(path, entry, "");
  if (answer.lost) return answer;
  const field = Object.values(answer.fields)[0];
  if (answer.saved || boxAt(path)) unsaved.done(path);
  else unsaved.wait(path, { ...entry, message: (field && field.message) || answer.say });
  return answer;
}

async function send(path, { value, was }, take) {
  const answer = await post(base + "/rig/set", () => [
    ["path", path], ["value", value], ["was", was], ["seen", stamp], ["take", take], ["find", finder.find.value],
    ...openSections().map((one) => ["open", one]),
  ]);
  const box = boxAt(path);
  if (box) {
    box.classList.remove("sent");
    box.classList.toggle("kept", answer.saved);
    box.classList.toggle("unsent", Boolean(answer.lost));
  }
  for (const [id, now] of Object.entries(answer.fields)) show(id, now);
  takeIn(answer);
  return answer;
}

/** act adds, copies, removes or checks something. */
async function act(form, button) {
  button.disabled = true;
  const typed = form.classList.contains("section") || form.closest(".section") ? [] : [...new FormData(form)];
  const answer = await post(base + "/rig/item", () => [
    ...typed, ["do", button.value], ["seen", stamp], ...openSections().map((one) => ["open", one]),
  ]);
  button.disabled = false;
  if (answer.saved) finder.find.value = "";
  takeIn(answer);
  if (!answer.go) return;
  const undo = document.querySelector("#did button");
  const there = document.getElementById("s-" + answer.go) || document.getElementById("p-" + answer.go);
  if (there) arrive(there);
  else if (undo) undo.focus();
}

/** turn undoes the last edit, or does it again. */
async function turn(form, button) {
  const address = button.getAttribute("formaction") || form.getAttribute("action");
  const step = button.value;
  button.disabled = true;
  const answer = await post(address, () => [["page", "form"], ["seen", stamp], ["find", finder.find.value], ...openSections().map((one) => ["open", one])]);
  button.disabled = false;
  takeIn(answer);
  const next = document.querySelector(`.steps [value="${step}"]`) || document.querySelector(".steps button, .steps a");
  if (next) next.focus({ preventScroll: true });
}

/** step takes the last edit back, or does it again. */
async function step(button) {
  button.disabled = true;
  const answer = await post(button.getAttribute("formaction") || button.form.action, () => [["seen", stamp], ["page", "form"], ...openSections().map((one) => ["open", one])]);
  button.disabled = false;
  takeIn(answer);
  const next = document.querySelector("#did button");
  if (next) next.focus();
}

/** takeIn puts an answer into the page, and keeps what was typed and not saved. */
function takeIn(answer) {
  if (answer.parts.sections === undefined) swap(answer.parts);
  else keepPlace(answer.renames || {}, () => swap(answer.parts));
  if (answer.stamp) stamp = answer.stamp;
  say.textContent = answer.say;
}

// keepPlace does a swap of all sections and then puts back what was typed, and goes back
// to where the visitor was: paths may be called otherwise now.
function keepPlace(renames, change) {
  const called = (path) => {
    for (const [was, is] of Object.entries(renames)) if (path === was || path.startsWith(was + ".")) return is + path.slice(was.length);
    return path;
  };
  const typed = all(".field").filter((box) => valueOf(box) !== wasOf(box).value)
    .map((box) => ({ path: called(box.dataset.path), value: valueOf(box), wrong: box.querySelector(".wrong").textContent }));
  const unfolded = all(".part-of").filter((part) => part.querySelector(".more[open]")).map((part) => part.id);
  const at = boxOf(document.activeElement);
  const path = at && called(at.dataset.path);
  const top = at && at.getBoundingClientRect().top;
  change();
  for (const id of unfolded) {
    const more = document.getElementById(id) && document.getElementById(id).querySelector(".more");
    if (more) more.open = true;
  }
  for (const one of typed) {
    const box = boxAt(one.path);
    if (box && one.wrong) put(box, one.value, one.wrong);
  }
  fillWaiting();
  const back = path && boxAt(path);
  if (!back) return;
  const input = inputOf(back);
  if (input) input.focus({ preventScroll: true });
  window.scrollBy(0, back.getBoundingClientRect().top - top);
}

/** fillWaiting shows values that wait to be sent in their fields. */
function fillWaiting() {
  for (const [path, entry] of Object.entries(unsaved.all())) {
    const box = boxAt(path);
    if (!box) continue;
    put(box, entry.value, entry.message || "Not saved yet.");
    box.classList.add("unsent");
  }
}

function put(box, value, message) {
  const radios = all("input[type=radio]", box);
  for (const radio of radios) radio.checked = radio.value === value;
  const input = inputOf(box);
  if (!radios.length && input) input.value = value;
  if (input) {
    input.toggleAttribute("aria-invalid", message !== "");
    if (message) input.setAttribute("aria-invalid", "true");
  }
  box.querySelector(".wrong").textContent = message;
}

function show(id, now) {
  const box = boxOf(document.getElementById(id));
  if (!box) return;
  wasOf(box).value = now.was;
  box.classList.toggle("blank", now.was === "");
  put(box, now.value, now.message);
}

/** look shows only what goes with the words; with none, everything. */
async function look(words) {
  clearTimeout(pause);
  words = words.trim();
  if (words && !document.querySelector(".found-for")) openBefore = openSections();
  const open = words ? [] : openBefore;
  const query = new URLSearchParams([["find", words], ...open.map((one) => ["open", one])]);
  const answer = await bring(query);
  if (!answer || finder.find.value.trim() !== words) return;
  swap(answer.parts);
  fillWaiting();
}

/** arrive opens a section or part and goes to its first value. */
async function arrive(there) {
  const section = there.closest(".section");
  section.open = true;
  await load(section);
  const input = there.querySelector("[autofocus]") || all(".field", there).map(inputOf).find(Boolean);
  if (!input) return;
  input.focus({ preventScroll: true });
  (isSection(there) ? section : input.closest(".field")).scrollIntoView({ block: isSection(there) ? "start" : "center" });
  if (input.select) input.select();
}

// A link to a value opens what it is in and goes there.
async function openTarget() {
  const id = decodeURIComponent(location.hash.slice(1));
  if (!id) return;
  const section = all(".section").find((one) => id === one.id || id.startsWith(one.id.slice(2) + ".") || document.getElementById(id)?.closest(".section") === one);
  if (!section) return;
  section.open = true;
  await load(section);
  const target = document.getElementById(id);
  if (!target) return;
  for (let up = target.closest("details"); up; up = up.parentElement.closest("details")) up.open = true;
  target.scrollIntoView({ block: "center" });
  if (target !== section) target.focus({ preventScroll: true });
}
