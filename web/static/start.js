// The picture grows while an answer is typed, ticked or pointed at. Without this
// script it does so with every answer given.

const sketch = document.getElementById("sketch");
const form = document.getElementById("begin-type") || document.getElementById("begin-choose");
let asked = 0;
let timer = 0;

async function draw(query) {
  const mine = ++asked;
  query.set("picture", "1");
  try {
    const answer = await fetch("/start?" + query);
    if (!answer.ok || mine !== asked) return;
    const text = await answer.text();
    if (mine === asked) sketch.innerHTML = text;
  } catch {
    // The picture stays as it was; the answer is not touched by it.
  }
}

function soon(query) {
  clearTimeout(timer);
  timer = setTimeout(() => draw(query), 120);
}

function asFilled() {
  return new URLSearchParams(new FormData(form));
}

function asPicked(button) {
  const query = new URLSearchParams(new FormData(button.form));
  query.delete("typed");
  query.set("answer", button.value);
  return query;
}

if (sketch && form) {
  form.addEventListener("input", () => soon(asFilled()));
  for (const on of ["pointerover", "focusin"]) {
    document.addEventListener(on, (event) => {
      const button = event.target.closest('.begin-ask button[name="answer"]');
      if (button) soon(asPicked(button));
    });
  }
}

// Ticking "nothing" clears the rest, and the other way round.
document.addEventListener("change", (event) => {
  const box = event.target.closest('.begin-many [type="checkbox"]');
  if (!box || !box.checked) return;
  for (const other of box.form.querySelectorAll('[type="checkbox"]')) {
    if (other !== box && (box.value === "none") !== (other.value === "none")) other.checked = false;
  }
});
