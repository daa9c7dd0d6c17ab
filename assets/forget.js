// Stands on the page that says a link is closed: clears what this phone kept for it.
"use strict";

// The page's own path, whatever below it was asked for.
const path = location.pathname.split("/").slice(0, 3).join("/");
try {
  for (const key of Object.keys(localStorage)) {
    if (key.startsWith(`betweentimes:${path}:`)) localStorage.removeItem(key);
  }
} catch {
  // Storage is switched off: then nothing was kept either.
}
if ("caches" in self) {
  caches.open("pages").then((pages) => Promise.all([path, `${path}/trouble`].map((one) => pages.delete(one)))).catch(() => {});
}
if ("indexedDB" in self) {
  indexedDB.deleteDatabase(`betweentimes:${path}:photos`);
}
