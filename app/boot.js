// Starts the page, keeps it for working offline, and says so when it can't go on.
//
// What the app may count on:
// - "latheside-trouble" on window: shows the panel of last resort, with the event's why.
// - "latheside-update" on window: a newer page is kept and waits. Send
//   "latheside-update-now" after a tap: the newer page takes over and this tab
//   reloads. Nothing else ever reloads a page. While one waits, <html> carries
//   the attribute data-update, for an app that starts later than the event.
// - "latheside-works" on window: window.lathesideWorks has the answers' functions, or has them
//   no longer; window.lathesideLife is aborted when others take their place.
// - "latheside-works-over" on window: a call of them was their end, with the event's why. They are
//   started afresh; where that doesn't help, it is the panel of last resort.
// - "latheside-install" on window: window.lathesideInstall is the browser's offer to install.
// - every saved key begins with "latheside": those are what the panel copies, and what
//   window.lathesideKept() gives as JSON.

const byId = (id) => document.getElementById(id);

// The panel may come up under a finger that meant something else: it is deaf for a moment.
let shown = 0;
const meant = (act) => () => { if (performance.now() - shown > 400) act(); };

function trouble(what) {
  const panel = byId("trouble");
  if (!panel || !panel.hidden) return;
  byId("trouble-what").textContent = what;
  panel.hidden = false;
  shown = performance.now();
  byId("trouble-copy").focus();
}

function saved() {
  try {
    const keys = Object.keys(localStorage).filter((key) => key.startsWith("latheside")).sort();
    return JSON.stringify(Object.fromEntries(keys.map((key) => [key, localStorage.getItem(key)])), null, 1);
  } catch {
    return null;
  }
}

async function copySaved() {
  const data = saved();
  const said = byId("trouble-said");
  if (data === null) {
    said.textContent = "This browser lets the page keep nothing, so there is nothing to copy.";
    return;
  }
  // Shown in any case, so that it can be selected where the clipboard is refused.
  const box = byId("trouble-data");
  box.value = data;
  box.hidden = false;
  try {
    await navigator.clipboard.writeText(data);
    said.textContent = "Copied. Paste it into a note or a message to yourself.";
  } catch {
    box.select();
    said.textContent = "The clipboard was refused: select all of this and copy it by hand.";
  }
}

// A module that has panicked, or come upon a fault of the engine's, is at its end. It is the answers'
// own, by the calls that led there, or the page's: then whatever is on the screen no longer answers.
function died(reason) {
  if (!(reason instanceof WebAssembly.RuntimeError)) return false;
  if (reason.stack?.includes(worksFiles()[0].split("/").pop())) worksOver(reason.message);
  else ended(reason.message);
  return true;
}

// What it was is said too, so that whoever hears of it knows where to look.
function ended(why) {
  trouble(`Something went wrong in its own works: ${why}`);
}

// The shell has been seen; nobody waits for a tab that is behind another.
const seen = () => new Promise((done) => {
  requestAnimationFrame(() => setTimeout(done));
  setTimeout(done, 100);
});

async function start() {
  const link = document.querySelector("link[rel=modulepreload][data-wasm]");
  // One fetch of the wasm, begun at once and handed on: a loader left to itself fetches it again.
  const wasm = fetch(link.dataset.wasm);
  wasm.catch(() => {});
  const [{ default: load }] = await Promise.all([import(link.href), seen()]);
  await load({
    module_or_path: wasm.then((response) => {
      if (!response.ok) throw new Error(`the answer was ${response.status}`);
      return response;
    }),
  });
}

// The answers' script and wasm.
const worksFiles = () => document.querySelector("meta[name=latheside-works]").content.split(" ");

// The answers' own module, once the page stands: its sentences can be read meanwhile. An address's
// fragment makes each start one with a memory of its own; no host is asked for it.
let starts = 0;
let life;
async function works() {
  life = new AbortController();
  window.lathesideLife = life.signal;
  const [script, wasm] = worksFiles();
  const module = await import(new URL(`${script}#${starts++}`, location.href).href);
  await module.default({ module_or_path: fetch(wasm) });
  tellWorks(module);
}

function tellWorks(module) {
  window.lathesideWorks = module;
  dispatchEvent(new CustomEvent("latheside-works"));
}

// Engines have been seen to trip over sound code, once in some hundred visits: what the page holds
// is untouched, and the answers can be worked again. What ends them twice within a minute is ours.
let renewed = -Infinity;
async function worksOver(why) {
  if (performance.now() - renewed < 60_000) return ended(why);
  renewed = performance.now();
  console.error(`The answers are started afresh: ${why}`);
  life.abort();
  window.lathesideWorks = undefined;
  // Not within the call that found them so.
  await null;
  tellWorks();
  await works().catch(() => ended(why));
}

// Only ever after a tap. The newer page takes over first, if one waits; this tab alone reloads.
async function renew() {
  const waiting = (await navigator.serviceWorker?.getRegistration().catch(() => null))?.waiting;
  if (!waiting) return location.reload();
  navigator.serviceWorker.addEventListener("controllerchange", () => location.reload(), { once: true });
  waiting.postMessage("update");
}

// A set that couldn't be taken whole is thrown away and asked for again, later each time: the page
// may stay open all day where the network comes and goes.
async function keep(pause = 10_000) {
  if (!("serviceWorker" in navigator)) return;
  const registration = await navigator.serviceWorker.register("sw.js", { updateViaCache: "none" });
  const announce = () => {
    if (!registration.waiting || !registration.active) return;
    document.documentElement.dataset.update = "";
    dispatchEvent(new CustomEvent("latheside-update"));
  };
  const watch = (worker) => worker?.addEventListener("statechange", () => {
    announce();
    if (worker.state === "redundant" && !registration.active) {
      setTimeout(() => keep(3 * pause).catch(() => {}), pause);
    }
  });
  registration.addEventListener("updatefound", () => watch(registration.installing));
  announce();
}

// An installed page may stay open for weeks: look again when it comes back into view.
let looked = Date.now();
document.addEventListener("visibilitychange", async () => {
  if (document.visibilityState !== "visible" || Date.now() - looked < 3_600_000) return;
  looked = Date.now();
  const registration = await navigator.serviceWorker?.getRegistration().catch(() => null);
  registration?.update().catch(() => {});
});

// The browser's offer to install the page, kept until the person asks for it.
addEventListener("beforeinstallprompt", (offer) => {
  offer.preventDefault();
  window.lathesideInstall = offer;
  dispatchEvent(new CustomEvent("latheside-install"));
});


byId("trouble-copy").addEventListener("click", meant(copySaved));
byId("trouble-reload").addEventListener("click", meant(renew));
window.lathesideKept = saved;
addEventListener("latheside-update-now", renew);
addEventListener("latheside-trouble", (event) => ended(event.why));
addEventListener("latheside-works-over", (event) => worksOver(event.why));
addEventListener("error", (event) => died(event.error));
addEventListener("unhandledrejection", (event) => died(event.reason));

// Kept only once it runs, so that keeping doesn't slow the start; and kept even
// when it doesn't, so that a mended page can still arrive.
start()
  .then(works)
  .catch((why) => died(why) || trouble(`The page could not be loaded whole: ${why?.message ?? why}.`))
  .finally(() => keep().catch(() => {}));
