// Keeps the page's own files on the device, so that it can be opened again out of
// reach of the laptop. What the laptop answers is never kept.
const shelf = 'crossfall-1';
const files = ['/', '/index.html', '/style.css', '/icon.svg', '/app.js', '/api.js', '/dom.js', '/state.js', '/queue.js', '/drawing.js', '/before.js', '/walk.js', '/look.js', '/settle.js', '/build.js', '/ground3d.js', '/towns.js'];

self.addEventListener('install', (e) => e.waitUntil(caches.open(shelf).then((c) => c.addAll(files)).then(() => self.skipWaiting())));
self.addEventListener('activate', (e) => e.waitUntil(self.clients.claim()));
self.addEventListener('fetch', (e) => {
  const url = new URL(e.request.url);
  if (e.request.method !== 'GET' || url.origin !== self.location.origin || !files.includes(url.pathname)) return;
  e.respondWith(fetch(e.request).then((answer) => {
    if (answer.ok) {
      const copy = answer.clone();
      e.waitUntil(caches.open(shelf).then((c) => c.put(url.pathname, copy)));
    }
    return answer;
  }).catch(() => caches.match(url.pathname)));
});
