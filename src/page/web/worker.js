// Where the browser allows it (https with the shop's own authority, or this machine itself) the pages that are of use
// away from home open with the house out of reach, a reload included: each as it was last seen, which the page says.
// Everything else is asked of the house alone.
'use strict';
const kept = 'pages 1';
const useful = /^\/(receipt|device|hours|due|shopping|away|seller\/[^/]+)?$/;
const ours = /^\/(style\.css|page\.js|icon\.svg|away\.js|device\.js)$/;

// The pages that have to be there before they were ever looked at, with their files. Whether all of them are: before this
// device is paired the house gives none, so that it is asked for again by the page (`message`).
async function hold(anew) {
  const pages = await caches.open(kept);
  let whole = true;
  for (const path of ['/away', '/device']) {
    const address = new URL(path, self.location.href).href;
    if (!anew && await pages.match(address)) continue;
    const answer = await fetch(path, { cache: 'reload' });
    if (!answer.ok || answer.redirected) {
      whole = false;
      continue;
    }
    const text = await answer.clone().text();
    for (const [, file] of text.matchAll(/(?:src|href)="(\/[\w.-]+\.(?:js|css|svg)(?:\?[0-9a-f]{8})?)"/g))
      if (!await pages.match(new URL(file, self.location.href).href)) await pages.add(new URL(file, self.location.href).href);
    await pages.put(address, answer);
  }
  return whole;
}
self.addEventListener('install', (event) => event.waitUntil((async () => {
  await hold(true);
  await self.skipWaiting();
})()));
self.addEventListener('message', (event) => event.waitUntil(hold(event.data === 'anew').catch(() => false)
  .then((whole) => event.ports[0].postMessage(whole))));
self.addEventListener('activate', (event) => event.waitUntil((async () => {
  for (const name of await caches.keys()) if (name !== kept) await caches.delete(name);
  await self.clients.claim();
})()));

// The newest copy by path, whatever stood behind the question mark; files by their whole address.
async function remember(request, answer, path) {
  const pages = await caches.open(kept);
  if (ours.test(path)) await pages.delete(request.url, { ignoreSearch: true });
  await pages.put(ours.test(path) ? request.url : new URL(path, request.url).href, answer);
}
async function lastSeen(request, path) {
  const pages = await caches.open(kept);
  return await pages.match(request.url) || await pages.match(new URL(path, request.url).href) ||
    await pages.match(request.url, { ignoreSearch: true });
}

self.addEventListener('fetch', (event) => {
  const { request } = event;
  const address = new URL(request.url);
  if (request.method !== 'GET' || address.origin !== self.location.origin) return;
  const path = address.pathname;
  const file = ours.test(path);
  if (!file && request.mode !== 'navigate') return;
  event.respondWith((async () => {
    if (file) {
      const known = await (await caches.open(kept)).match(request.url);
      if (known) return known;
    }
    try {
      const stop = new AbortController();
      const clock = setTimeout(() => stop.abort(), 8000);  // a house that is silent is out of reach
      const answer = await fetch(request, { signal: stop.signal });
      clearTimeout(clock);
      if (answer.ok && !answer.redirected && (file || useful.test(path))) event.waitUntil(remember(request, answer.clone(), path));
      return answer;
    } catch (wrong) {
      const seen = await lastSeen(request, path);
      if (seen) return seen;
      const away = file ? null : await (await caches.open(kept)).match(new URL('/away', request.url).href);
      if (away) return away;
      throw wrong;
    }
  })());
});
