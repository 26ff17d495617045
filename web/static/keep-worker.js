// Keeps the page for readings, with what it needs, so that it opens without a
// connection. The program is always asked first; nothing but this page is kept.

const shelf = "ampstead-keep";
const page = new URL("keep", self.location).pathname; // of the rig whose worker this is
const patience = 4000; // ms the program has to answer before the kept page is shown

self.addEventListener("install", () => self.skipWaiting());
self.addEventListener("activate", (event) => event.waitUntil(self.clients.claim().then(refill)));

// refill keeps the page that is open, which was loaded before there was a worker.
async function refill() {
  const reply = await fetch(page);
  if (!keepable(reply)) return;
  const text = await reply.clone().text();
  const cache = await caches.open(shelf);
  await cache.put(page, reply);
  const needs = [...text.matchAll(/(?:href|src)="(\/static\/[^"]+)"/g)].map((m) => m[1]);
  await cache.addAll([...new Set([...needs, "/static/keep-fields.js"])]);
}

const keepable = (reply) => reply.ok && !reply.redirected && reply.type === "basic";

self.addEventListener("fetch", (event) => {
  const url = new URL(event.request.url);
  const mine = url.origin === location.origin && event.request.method === "GET" && (url.pathname === page || url.pathname.startsWith("/static/"));
  if (mine) event.respondWith(answer(event.request, url.pathname));
});

async function answer(request, path) {
  const cache = await caches.open(shelf);
  const kept = await cache.match(path);
  try {
    const reply = await (kept ? inTime(request) : fetch(request));
    if (keepable(reply)) await cache.put(path, reply.clone());
    return reply;
  } catch (failure) {
    if (kept) return kept;
    throw failure;
  }
}

function inTime(request) {
  return new Promise((resolve, reject) => {
    setTimeout(() => reject(new Error("no answer")), patience);
    fetch(request).then(resolve, reject);
  });
}
