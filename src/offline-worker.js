/* global self, caches, location, fetch, URL */
// Keeps the files of one build and answers from them, so that the page opens without a network.
const CACHE = '__CACHE__';
const FILES = '__FILES__'.split(' ');

self.addEventListener('install', (event) => {
  event.waitUntil(caches.open(CACHE).then((cache) => cache.addAll(FILES)));
});

self.addEventListener('activate', (event) => {
  const dropOthers = async () => {
    const names = await caches.keys();
    await Promise.all(
      names.filter((name) => name.startsWith('benchtally-') && name !== CACHE).map((name) => caches.delete(name)),
    );
    await self.clients.claim();
  };
  event.waitUntil(dropOthers());
});

self.addEventListener('fetch', (event) => {
  const { request } = event;
  if (request.method !== 'GET' || new URL(request.url).origin !== location.origin) return;
  const answer = async () => {
    const cache = await caches.open(CACHE);
    const isPage = request.mode === 'navigate';
    const kept = await cache.match(request, { ignoreVary: true, ignoreSearch: isPage });
    return kept ?? (isPage ? await cache.match('./') : undefined) ?? fetch(request);
  };
  event.respondWith(answer());
});
