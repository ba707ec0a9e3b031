// Keeps the pages that work without a signal, and nothing that belongs to a member.
const KEPT = "kept-{{ version }}";
const FILES = {{ files|safe }};
const PAGES = {{ pages|safe }};
const WITHOUT_SIGNAL = {{ without_signal|safe }};

async function fill() {
  const cache = await caches.open(KEPT);
  const addresses = [...FILES, ...Object.values(PAGES), ...Object.values(WITHOUT_SIGNAL)];
  await cache.addAll(addresses.map((address) => new Request(address, { cache: "no-cache" })));
}

// Pages that are open keep the scripts they began with, so the cache before stays for them.
async function tidy() {
  const names = (await caches.keys()).filter((name) => name.startsWith("kept-"));
  const older = names.filter((name) => name !== KEPT).slice(0, -1);
  await Promise.all(older.map((name) => caches.delete(name)));
  await self.clients.claim();
}

// Taking over at once is safe: the queue lives in the pages, and a page loads all it needs at once.
self.addEventListener("install", (event) => event.waitUntil(fill().then(() => self.skipWaiting())));
self.addEventListener("activate", (event) => event.waitUntil(tidy()));

async function kept(address) {
  const own = await (await caches.open(KEPT)).match(address);
  return own ?? (await caches.match(address)) ?? fetch(address);
}

// A tag scanned without a signal cannot be looked up, so it opens a new piece under that tag.
function unreached(path) {
  if (path in WITHOUT_SIGNAL) return kept(WITHOUT_SIGNAL[path]);
  const code = path.match(/^\/t\/([^/]+)\/?$/)?.[1];
  return Response.redirect(code ? `/take-in/?tag=${code}` : `/take-in/?unreached=${path}`, 302);
}

self.addEventListener("fetch", (event) => {
  const { request } = event;
  const { origin, pathname } = new URL(request.url);
  if (request.method !== "GET" || origin !== location.origin) return;
  if (request.mode === "navigate") {
    if (pathname in PAGES) event.respondWith(kept(PAGES[pathname]));
    else event.respondWith(fetch(request).catch(() => unreached(pathname)));
  } else if (FILES.includes(pathname)) {
    event.respondWith(kept(pathname));
  }
});
