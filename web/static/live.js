// Sends a change and puts the parts the server recomputed into the page.
// Changes go one after another, in the order they were made.

let last = Promise.resolve();

/** post sends fields, an object or pairs, to the address and returns the answer; it never
 * rejects. An answer that is lost did not come at all. */
export function post(address, fields) {
  last = last.then(() => send(address, fields));
  return last;
}

async function send(address, fields) {
  try {
    const reply = await fetch(address, {
      method: "POST",
      headers: { Accept: "application/json" },
      body: new URLSearchParams(fields()),
    });
    if ((reply.headers.get("Content-Type") || "").startsWith("application/json")) {
      return await reply.json();
    }
    return { saved: false, say: await reply.text(), fields: {}, parts: {} };
  } catch {
    return { saved: false, lost: true, say: "Not saved: the program does not answer. What you typed is still here.", fields: {}, parts: {} };
  }
}

/** swap replaces the inside of each element named; others stay as they are. */
export function swap(parts) {
  for (const [id, html] of Object.entries(parts)) {
    const element = document.getElementById(id);
    if (element) element.innerHTML = html;
  }
}
