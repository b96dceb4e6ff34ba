// Keeps every file of this version of the site, and answers from what is kept. `VERSION`, `FILES` and `NOT_FOUND` stand
// above. An older version is thrown away once this one is whole.

const CACHE = `galley ${VERSION}`;
const address = (path) => new URL(path, self.registration.scope).href;

self.addEventListener("install", (event) => {
  // Past the browser's own cache, which may hold files of an older version.
  const fresh = FILES.map((path) => new Request(address(path), { cache: "reload" }));
  event.waitUntil(caches.open(CACHE).then((cache) => cache.addAll(fresh)).then(() => self.skipWaiting()));
});

self.addEventListener("activate", (event) => {
  const old = (names) => names.filter((it) => it.startsWith("galley ") && it !== CACHE);
  const gone = caches.keys().then((names) => Promise.all(old(names).map((it) => caches.delete(it))));
  event.waitUntil(gone.then(() => self.clients.claim()));
});

self.addEventListener("fetch", (event) => {
  const { request } = event;
  if (request.method !== "GET" || !request.url.startsWith(self.registration.scope)) return;
  event.respondWith(answer(request));
});

async function answer(request) {
  const cache = await caches.open(CACHE);
  const path = new URL(request.url).pathname;
  const named = path.endsWith("/") ? `${path}index.html` : path;
  const kept = await cache.match(new URL(named, request.url).href);
  if (kept) return kept;
  try {
    return await fetch(request);
  } catch (fault) {
    if (request.mode !== "navigate") throw fault;
    const page = await cache.match(address(NOT_FOUND));
    return page ?? Response.error();
  }
}
