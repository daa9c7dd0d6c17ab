// Keeps a client's page on the client's phone, so that it opens again without network.
// A page is kept together with the very files it was built with: older files stay for as long as a kept page
// names them, because a page must never be brought to life by another build's code.
"use strict";

const BUILD = "__BUILD__";
const FILES = __FILES__;
const PAGES = "pages";
const filesOf = (build) => `files-${build}`;
const PATIENCE = 3000;

self.addEventListener("install", (event) => {
  event.waitUntil((async () => {
    const files = await caches.open(filesOf(BUILD));
    await files.addAll(FILES);
    await self.skipWaiting();
  })());
});

self.addEventListener("activate", (event) => {
  event.waitUntil((async () => {
    await self.clients.claim();
    // The page that brought this worker was loaded before there was one: fetch it once more and keep it.
    const open = await self.clients.matchAll({ type: "window" });
    await Promise.all(open.flatMap((client) => both(new URL(client.url).pathname)).map((path) => refresh(path).catch(() => {})));
    await tidy();
  })());
});

self.addEventListener("fetch", (event) => {
  const { request } = event;
  const url = new URL(request.url);
  // What lies below a page, such as its calendar file, is always asked for and never kept.
  if (url.origin !== self.location.origin || request.method !== "GET") return;
  const steps = url.pathname.split("/");
  if (request.mode === "navigate" && steps.length === 3) {
    event.respondWith(page(url.pathname));
    event.waitUntil(refresh(`${url.pathname}/trouble`).catch(() => {}));
  } else if (request.mode === "navigate" && steps.length === 4 && steps[3] === "trouble") {
    event.respondWith(page(url.pathname));
  } else if (request.mode === "navigate" && steps.length === 5 && steps[3] === "in") {
    event.respondWith(language(request, steps.slice(0, 3).join("/")));
  } else if (url.pathname.startsWith("/pkg/")) {
    event.respondWith(file(request));
  }
});

// A client's page, and the one that says what to do when something is not right: kept from the first visit on.
function both(path) {
  const own = path.split("/").slice(0, 3).join("/");
  return [own, `${own}/trouble`];
}

// The studio's page if it answers soon, else the kept one.
async function page(path) {
  const fresh = refresh(path);
  const kept = await (await caches.open(PAGES)).match(path, { ignoreVary: true });
  if (!kept) return fresh;
  const late = new Promise((resolve) => setTimeout(resolve, PATIENCE, kept));
  return Promise.race([fresh.catch(() => kept), late]);
}

// Another language was chosen: from now on the page is kept in it. Without network the kept page stays as it is.
async function language(request, path) {
  try {
    const answer = await fetch(request);
    if (answer.type === "opaqueredirect") await Promise.all(both(path).map((one) => refresh(one).catch(() => {})));
    return answer;
  } catch {
    return Response.redirect(path, 303);
  }
}

// Asks the studio for the page and keeps what it says: a page is kept, a closed link is dropped.
async function refresh(path) {
  const answer = await fetch(path, { cache: "no-store", credentials: "same-origin", redirect: "manual" });
  const pages = await caches.open(PAGES);
  if (answer.status === 200) {
    await pages.put(path, answer.clone());
  } else if (answer.status === 404 || answer.status === 410) {
    await Promise.all(both(path).map((one) => pages.delete(one)));
    await tidy();
  }
  return answer;
}

async function file(request) {
  return (await caches.match(request)) || fetch(request);
}

// Drops the files of earlier builds that no kept page names any more.
async function tidy() {
  const pages = await caches.open(PAGES);
  const texts = await Promise.all((await pages.matchAll()).map((answer) => answer.text()));
  for (const name of await caches.keys()) {
    if (!name.startsWith("files-") || name === filesOf(BUILD)) continue;
    const files = await (await caches.open(name)).keys();
    const named = files.some((file) => texts.some((text) => text.includes(new URL(file.url).pathname)));
    if (!named) await caches.delete(name);
  }
}
