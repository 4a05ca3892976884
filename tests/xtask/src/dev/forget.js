// The worker's place while the page is worked on: what an earlier one has kept is thrown away, and
// nothing is kept, so that what is on the screen is what was built.

addEventListener("install", () => skipWaiting());

addEventListener("activate", (event) => event.waitUntil((async () => {
  const older = (await caches.keys()).filter((name) => name.startsWith(`latheside ${registration.scope} `));
  await Promise.all(older.map((name) => caches.delete(name)));
  await registration.unregister();
  // A tab that the earlier one answered shows what it had kept.
  if (older.length > 0) {
    const tabs = await clients.matchAll({ type: "window", includeUncontrolled: true });
    await Promise.all(tabs.map((tab) => tab.navigate(tab.url)));
  }
})()));
