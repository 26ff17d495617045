// The form that answers while it is filled in: each changed field is sent at
// once, and what follows from it is swapped in.

import { post, swap } from "./live.js";

const base = document.documentElement.dataset.base;
const say = document.getElementById("say");

document.documentElement.classList.add("live");
document.addEventListener("change", (event) => {
  const field = fieldOf(event.target);
  if (field) save(field, "");
});
document.addEventListener("submit", (event) => {
  if (!event.target.closest(".section")) return;
  event.preventDefault();
  const take = event.submitter && event.submitter.name === "take" && event.submitter.value;
  const field = take && fieldOf(event.submitter);
  if (field) save(field, take);
});
window.addEventListener("hashchange", openTarget);
openTarget();

function fieldOf(element) {
  const box = element.closest(".section .field");
  return box && {
    box,
    input: box.querySelector("[name=value]"),
    path: box.querySelector("[name=path]"),
    was: box.querySelector("[name=was]"),
    seen: box.closest("form").querySelector("[name=seen]"),
  };
}

async function save(field, take) {
  field.box.classList.add("sent");
  field.box.classList.remove("kept");
  const answer = await post(base + "/rig/set", () => ({
    path: field.path.value, value: field.input.value, was: field.was.value, seen: field.seen.value, take,
  }));
  field.box.classList.remove("sent");
  field.box.classList.toggle("kept", answer.saved);
  for (const [id, now] of Object.entries(answer.fields)) show(id, now);
  keepPlace(() => swap(answer.parts));
  if (answer.stamp) document.querySelectorAll("[name=seen]").forEach((seen) => { seen.value = answer.stamp; });
  say.textContent = answer.say;
}

// keepPlace does a swap and then opens what was open and goes back to where the
// visitor was, by position: names, and ids with them, may have changed.
function keepPlace(change) {
  const all = (what) => [...document.querySelectorAll(what)];
  const open = all(".section").map((section) => section.open);
  const at = fieldOf(document.activeElement);
  const spot = at && all(".field").indexOf(at.box);
  change();
  all(".section").forEach((section, i) => { section.open = section.open || open[i]; });
  if (at && !document.contains(document.activeElement.closest(".field"))) {
    const box = all(".field")[spot];
    if (box) box.querySelector("[name=value]").focus();
  }
}

function show(id, now) {
  const input = document.getElementById(id);
  if (!input) return;
  const field = fieldOf(input);
  input.value = now.value;
  field.was.value = now.was;
  field.box.classList.toggle("blank", now.was === "");
  input.toggleAttribute("aria-invalid", now.message !== "");
  if (now.message) input.setAttribute("aria-invalid", "true");
  document.getElementById(id + "-wrong").textContent = now.message;
}

// A link to a field opens its section and goes there.
function openTarget() {
  const target = document.getElementById(location.hash.slice(1));
  const section = target && target.closest(".section");
  if (!section) return;
  section.open = true;
  target.scrollIntoView({ block: "center" });
  if (target !== section) target.focus({ preventScroll: true });
}
