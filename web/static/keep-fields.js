// The fields of a reading: the next one on enter, a pasted column spread over
// them, and a question at once when a value looks like a slip.

const form = document.getElementById("entry");

/** cells lists the fields of the groups. */
export const cells = () => [...form.querySelectorAll(".cells input")];

/** number reads what is typed, with a decimal point or comma; NaN when it cannot. */
export function number(text) {
  const plain = text.trim().replace("−", "-").replace(",", ".").replace(/\s*V$/i, "");
  if (plain === "") return null;
  return /^[-+]?(\d+\.?\d*|\.\d+)$/.test(plain) ? Number(plain) : NaN;
}

const low = Number(form.dataset.low);
const high = Number(form.dataset.high);
const plausible = (v) => v >= low && v <= high;

// swaps lists the text with each pair of neighbouring digits changed over.
function swaps(text) {
  const list = [];
  for (let i = 0; i + 1 < text.length; i++) {
    if (/\d/.test(text[i]) && /\d/.test(text[i + 1]) && text[i] !== text[i + 1]) {
      list.push(text.slice(0, i) + text[i + 1] + text[i] + text.slice(i + 2));
    }
  }
  return list;
}

// The program asks by the same bounds, V.
const far = 0.08; // from what the others show
const close = 0.03; // within which a slip put right must fit

function middle(values) {
  const list = values.filter((v) => v !== null && plausible(v)).sort((a, b) => a - b);
  return list.length > 1 ? list[Math.floor(list.length / 2)] : null;
}

const before = (cell) => number(cell.dataset.last || "");

// stoodSo tells a group that stood as far from the others last time.
function stoodSo(cell, off) {
  const all = middle(cells().map(before));
  return all !== null && before(cell) !== null && Math.abs(before(cell) - all - off) <= close;
}

/** doubt says what looks like a slip in a field: [question, what was meant]. */
export function doubt(cell) {
  const text = cell.value.trim();
  const v = number(text);
  if (v === null) return null;
  if (Number.isNaN(v)) return ["This is no number.", ""];
  if (!plausible(v)) {
    for (const times of [0.001, 0.01, 0.1, 10, 100]) {
      if (plausible(v * times)) return [text + " V cannot be a cell.", String(Number((v * times).toPrecision(6)))];
    }
    return [text + " V cannot be a cell.", ""];
  }
  const near = middle(cells().filter((c) => c !== cell).map((c) => number(c.value)));
  if (near === null || Math.abs(v - near) <= far || stoodSo(cell, v - near)) return null;
  for (const other of swaps(text)) {
    const w = number(other);
    if (w !== null && Math.abs(w - near) <= close) return ["Far from the others: are two digits swapped?", other];
  }
  return ["Far from the others, which show about " + near + " V.", ""];
}

/** ask shows a question under a field, with a button that takes what was meant. */
export function ask(cell, question, meant) {
  const line = document.getElementById("ask." + cell.name.slice(6));
  line.replaceChildren();
  cell.toggleAttribute("aria-invalid", question !== "");
  if (question === "") return;
  cell.setAttribute("aria-invalid", "true");
  line.append(question + " ");
  if (meant) {
    const take = document.createElement("button");
    take.type = "button";
    take.textContent = "Take " + meant;
    take.addEventListener("click", () => {
      cell.value = meant;
      cell.dispatchEvent(new Event("input", { bubbles: true }));
      check(cell);
      cell.focus();
    });
    line.append(take);
  }
}

/** check asks about a field; it reports whether there was anything to ask. */
export function check(cell) {
  const found = doubt(cell);
  ask(cell, found ? found[0] : "", found ? found[1] : "");
  return found !== null;
}

function spread(from, text) {
  const parts = text.split(/[\s;]+/).filter((part) => part !== "");
  if (parts.length < 2) return false;
  const list = cells();
  parts.forEach((part, i) => {
    const cell = list[list.indexOf(from) + i];
    if (!cell) return;
    cell.value = part === "-" ? "" : part;
    check(cell);
  });
  from.dispatchEvent(new Event("input", { bubbles: true }));
  return true;
}

if (form) {
  form.addEventListener("keydown", (event) => {
    if (event.key !== "Enter" || !event.target.matches(".cells input")) return;
    event.preventDefault();
    const list = cells();
    const next = list[list.indexOf(event.target) + 1];
    if (next) {
      next.focus();
      next.select();
    } else {
      form.querySelector(".rest input:checked").focus();
    }
  });
  // Enter must not send a reading that is only half entered, however it comes.
  form.addEventListener("keypress", (event) => {
    if (event.key === "Enter" && event.target.matches("input")) event.preventDefault();
  });
  form.addEventListener("change", (event) => {
    if (event.target.matches(".cells input")) check(event.target);
  });
  form.addEventListener("paste", (event) => {
    if (event.target.matches(".cells input") && spread(event.target, event.clipboardData.getData("text"))) event.preventDefault();
  });
}
