// Keeps the live values on the page up to date: by a stream of events where the
// browser and the way to the program allow it, else by asking every few seconds.

const box = document.getElementById("live-now");
const say = document.getElementById("live-say");
const pause = 5000;

function show(now) {
  const open = box.querySelector("details[open]") !== null;
  const holds = box.contains(document.activeElement) && document.activeElement.getAttribute("href");
  box.innerHTML = now.html;
  if (open) box.querySelector("details")?.setAttribute("open", "");
  if (holds) box.querySelector(`a[href="${CSS.escape(holds)}"]`)?.focus();
  if (say.textContent !== now.say) say.textContent = now.say;
}

function lost() {
  say.textContent = "The program does not answer. The values shown are old.";
  box.classList.add("old");
}

async function poll() {
  try {
    const reply = await fetch(box.dataset.poll, { headers: { Accept: "application/json" } });
    if (!reply.ok) throw new Error(reply.statusText);
    box.classList.remove("old");
    const now = await reply.json();
    show(now);
    if (now.over) return;
  } catch {
    lost();
  }
  setTimeout(poll, pause);
}

function follow() {
  const events = new EventSource(box.dataset.events);
  let heard = false;
  events.addEventListener("now", (e) => {
    heard = true;
    box.classList.remove("old");
    const now = JSON.parse(e.data);
    show(now);
    if (now.over) events.close();
  });
  events.addEventListener("error", () => {
    if (heard && events.readyState === EventSource.CONNECTING) return lost(); // it tries again by itself
    events.close();
    poll();
  });
}

if (box) {
  if (window.EventSource) follow();
  else poll();
}
