// Asks how far the run behind this page is, shows it, and opens the page anew
// when it is done. Without scripts the page refreshes itself.

const line = document.getElementById("progress");
const bar = line && line.querySelector("progress");
const say = line && line.querySelector("span");

async function ask() {
  let wait = 500;
  try {
    const reply = await fetch(location.pathname + "/progress" + location.search, { headers: { Accept: "application/json" } });
    if (!reply.ok) throw new Error(reply.statusText);
    const now = await reply.json();
    if (now.over) {
      location.reload();
      return;
    }
    bar.max = now.total || 1;
    bar.value = now.done;
    if (say.textContent !== now.say) say.textContent = now.say;
  } catch {
    say.textContent = "The program does not answer. Trying again.";
    wait = 3000;
  }
  setTimeout(ask, wait);
}

if (line) ask();
