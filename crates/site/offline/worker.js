// Keeps every file of this version of the site, and answers from what is kept. `VERSION`, `FILES` and `NOT_FOUND` stand
// above. An older version is thrown away once this one is whole.

const SCOPE = self.registration.scope;
// All sites of a host share one store: what is kept for another folder of it is not ours to throw away.
const OWN = `galley ${SCOPE} `;
const CACHE = OWN + VERSION;
const address = (path) => new URL(path, SCOPE).href;

self.addEventListener("install", (event) => event.waitUntil(keepAll().then(() => self.skipWaiting())));

self.addEventListener("activate", (event) => {
  const old = (names) => names.filter((it) => it.startsWith(OWN) && it !== CACHE);
  const gone = caches.keys().then((names) => Promise.all(old(names).map((it) => caches.delete(it))));
  event.waitUntil(gone.then(() => self.clients.claim()));
});

self.addEventListener("fetch", (event) => {
  const { request } = event;
  if (request.method !== "GET" || !request.url.startsWith(SCOPE)) return;
  event.respondWith(answer(request));
});

async function keepAll() {
  const found = await Promise.all(FILES.map(async (path) => [path, await fresh(path)]));
  const cache = await caches.open(CACHE);
  await Promise.all(found.map(([path, file]) => cache.put(address(path), file)));
}

async function fresh(path) {
  // Past the browser's own cache, which may hold files of an older version.
  const file = await fetch(address(path), { cache: "reload" });
  // Some hosts send the page for what is not found as they send it for any other such address.
  if (!file.ok && path !== NOT_FOUND) throw new Error(`${path}: ${file.status}`);
  // Some lead to a shorter address; what was found there may not answer for a page unless it is made anew.
  return file.redirected ? new Response(file.body, { headers: file.headers }) : file;
}

async function answer(request) {
  const cache = await caches.open(CACHE);
  const { pathname } = new URL(request.url);
  // What hosts show at addresses without the name of a file, or without its ending.
  const names = pathname.endsWith("/") ? [`${pathname}index.html`] : [pathname, `${pathname}.html`];
  for (const name of names) {
    const kept = await cache.match(new URL(name, SCOPE).href);
    if (kept) return kept;
  }
  try {
    return await fetch(request);
  } catch (fault) {
    const isPage = request.mode === "navigate" && (await cache.match(address(NOT_FOUND)));
    if (!isPage) throw fault;
    // Led there rather than shown here, so that its links are right at any depth.
    return Response.redirect(address(NOT_FOUND));
  }
}
