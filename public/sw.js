// Keeps the page for working with no network: all of it or none of it.
//
// The page and its files are taken together, under a name made from their
// contents, and only a whole set is ever used. A newer set waits until the
// person asks for it by a tap; nothing here reloads a page.

// Filled in by the build: what this set is called, and each file of it with its digest.
const VERSION = "";
const FILES = [];

// Other pages of the same host have caches too: only names that open like this are ours.
const OURS = `latheside ${registration.scope} `;
const CACHE = OURS + VERSION;

// The page's own address, in the two ways that hosts write it.
const PAGE = new URL("./", registration.scope).href;
const PAGES = [PAGE, new URL("index.html", registration.scope).href];

/** One file, past every cache on the way, and refused unless it is what was built. */
async function take([path, integrity]) {
  const response = await fetch(new URL(path, registration.scope), { cache: "reload", integrity });
  if (!response.ok || response.redirected) throw new Error(`${path}: ${response.status}`);
  return [new URL(path, registration.scope), response];
}

/** Every file, read whole for its digest's sake before any is put, so that a failure leaves nothing behind. */
async function takeAll() {
  const taken = await Promise.all(FILES.map(take));
  const cache = await caches.open(CACHE);
  try {
    await Promise.all(taken.map(([url, response]) => cache.put(url, response)));
  } catch (full) {
    await caches.delete(CACHE);
    throw full;
  }
}

async function forgetOlder() {
  const older = (await caches.keys()).filter((name) => name.startsWith(OURS) && name !== CACHE);
  await Promise.all(older.map((name) => caches.delete(name)));
  await clients.claim();
}

/** The kept answer, or the network's where the browser has thrown ours away. */
async function answer(request, url) {
  const kept = await caches.match(url, { cacheName: CACHE, ignoreVary: true });
  return kept ?? fetch(request);
}

addEventListener("install", (event) => event.waitUntil(takeAll()));

addEventListener("activate", (event) => event.waitUntil(forgetOlder()));

addEventListener("message", (event) => {
  if (event.data === "update") skipWaiting();
});

addEventListener("fetch", (event) => {
  const { request } = event;
  if (request.method !== "GET") return;
  const url = new URL(request.url);
  url.search = "";
  url.hash = "";
  if (request.mode === "navigate") {
    // A host may hold other pages below this folder: those are not ours to answer.
    if (PAGES.includes(url.href)) event.respondWith(answer(request, PAGE));
  } else if (url.href.startsWith(registration.scope)) {
    event.respondWith(answer(request, request.url));
  }
});
