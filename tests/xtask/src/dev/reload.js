// Shows what has been built anew: a sheet takes the place of the one before it, for anything else the
// page is loaded again. Its host, `cargo xtask serve --dev`, alone puts this into the page.

const made = async () => (await (await fetch("made.txt", { cache: "no-store" })).text()).split(" ");

let [page, style] = await made();
setInterval(async () => {
  // A host that has stopped is asked again: it may be started anew.
  const now = await made().catch(() => [page, style]);
  if (now[0] !== page) return location.reload();
  if (now[1] !== style) document.querySelector("link[rel=stylesheet]").href = `style.css?${now[1]}`;
  [page, style] = now;
}, 300);
