// Asks how far the year and the drills of this rig are, and puts each part in its
// place when it is there. The picture has its place from the beginning; the lists
// above it are left as they are being read, and it is said when they grew.

const home = document.getElementById("home");
const line = document.getElementById("progress");
const bar = line && line.querySelector("progress");
const say = line && line.querySelector("span");
const base = document.documentElement.dataset.base;

function put(id, html) {
  const place = document.getElementById(id);
  const holds = place.contains(document.activeElement) && document.activeElement.getAttribute("href");
  place.innerHTML = html;
  if (holds) place.querySelector(`a[href="${CSS.escape(holds)}"]`)?.focus();
}

function show(now) {
  if (now.year) put("home-year", now.year);
  if (now.stages) put("home-stages", now.stages);
  home.dataset.had = now.token;
  bar.max = now.total || 1;
  bar.value = now.done;
  if (!now.over) {
    if (say.textContent !== now.say) say.textContent = now.say;
    return;
  }
  bar.hidden = true;
  line.id = "reckoned";
  say.textContent = "Reckoned.";
  if (now.tally !== home.dataset.tally) {
    const again = document.createElement("a");
    again.href = base + "/";
    again.textContent = "Read the page anew";
    say.textContent = `Reckoned, and the list of findings changed. ${now.tally}. `;
    say.append(again);
  }
}

async function ask() {
  let wait = 700;
  try {
    const reply = await fetch(base + "/home/progress?had=" + encodeURIComponent(home.dataset.had), { headers: { Accept: "application/json" } });
    if (!reply.ok) throw new Error(reply.statusText);
    const now = await reply.json();
    show(now);
    if (now.over) return;
  } catch {
    say.textContent = "The program does not answer. Trying again.";
    wait = 3000;
  }
  setTimeout(ask, wait);
}

if (line) ask();
