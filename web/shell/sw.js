'use strict';
// Offline start: everything is fetched once, then answered from the cache. @BUILD@ changes with every build.
const kCache = 'pondtrim-@BUILD@';
const kFiles = ['./', 'index.html', 'index.js', 'packed.wasm', 'operations.wasm', 'rest.wasm', 'rest-operations.wasm', 'manifest.webmanifest', 'trust.html', 'icon-192.png', 'icon-512.png', 'icon-512-maskable.png'];
self.addEventListener('install', e => e.waitUntil(
  caches.open(kCache)
    .then(c => c.addAll(kFiles.map(f => new Request(f, { cache: 'reload' }))))
    .then(() => self.skipWaiting())));
self.addEventListener('activate', e => e.waitUntil(
  caches.keys()
    .then(names => Promise.all(names.filter(n => n.startsWith('pondtrim-') && n !== kCache).map(n => caches.delete(n))))
    .then(() => self.clients.claim())));
self.addEventListener('fetch', e => {
  if (e.request.method !== 'GET' || new URL(e.request.url).origin !== location.origin) return;
  e.respondWith(caches.open(kCache).then(c => c.match(e.request, { ignoreSearch: true })).then(r => r || fetch(e.request)));
});
