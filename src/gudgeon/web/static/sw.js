// Keeps pages that this browser has seen, for when the book is out of reach: the network first, then what is kept.
// What comes from here says when it was made. Nothing that is written goes through here.
// VERSION and NEEDED are set in front of this text by the server.
"use strict";

const PAGES = `pages ${VERSION}`;
const PHOTOS = `photos ${VERSION}`;
const FILES = `files ${VERSION}`;
const OURS = [PAGES, PHOTOS, FILES];
const STAND_IN = "/out-of-reach";
const PATIENCE_MS = 3000;
const PAGES_MOST = 120;
const PHOTOS_MOST = 24;
const NEVER = /^\/(pair|devices|certificate|api|standing|paper|sw\.js|under-way)(\/|\.|$)/;
const PHOTO = /^\/photos\/[0-9a-f]{16,}/;

const told = (address) => {
  const url = new URL(address);
  url.hash = "";
  for (const passing of ["recorded", "since"]) url.searchParams.delete(passing);
  return url.href;
};

const kept = async (name, address) => (await caches.open(name)).match(told(address));

const keep = async (name, address, answer, most = Infinity) => {
  const cache = await caches.open(name);
  const headers = new Headers(answer.headers);
  headers.set("Gudgeon-Kept", new Date().toISOString());
  headers.delete("Content-Encoding");
  headers.delete("Content-Length");
  const body = await answer.blob();
  await cache.delete(told(address));
  await cache.put(told(address), new Response(body, { status: 200, headers }));
  const keys = await cache.keys();
  await Promise.all(keys.slice(0, Math.max(0, keys.length - most)).map((one) => cache.delete(one)));
};

// A device that is not on the list any more keeps nothing of the book.
const forget = async () => { await Promise.all([PAGES, PHOTOS].map((name) => caches.delete(name))); };

// A kept page says in its body when it was made, so that its script can say so.
const marked = async (answer) => {
  const at = answer.headers.get("Gudgeon-Kept");
  if (!(answer.headers.get("content-type") || "").startsWith("text/html")) return answer;
  const words = (await answer.text()).replace("<body", `<body data-kept="${at}"`);
  return new Response(words, { status: 200, headers: answer.headers });
};

const place = (url) => {
  if (url.pathname.startsWith("/static/")) return { name: FILES };
  if (PHOTO.test(url.pathname)) return { name: PHOTOS, most: PHOTOS_MOST };
  return { name: PAGES, most: PAGES_MOST };
};

const fromNetwork = async (request, url) => {
  const answer = await fetch(request);
  const { name, most } = place(url);
  if (answer.status === 403 && answer.type === "basic") await forget();
  if (answer.status === 200 && answer.type === "basic" && !answer.redirected) await keep(name, request.url, answer.clone(), most);
  return answer;
};

const otherwise = async (request, url) => {
  const found = await kept(place(url).name, request.url);
  if (found) return marked(found);
  if (request.mode !== "navigate") return Response.error();
  const standIn = await kept(FILES, new URL(STAND_IN, location.origin).href);
  return standIn || Response.error();
};

const answered = async (event, url) => {
  const { request } = event;
  if (url.pathname.startsWith("/static/")) {
    const found = await kept(FILES, request.url); // its address names its content
    if (found) return found;
  }
  const coming = fromNetwork(request, url);
  event.waitUntil(coming.catch(() => null));
  let timer = 0;
  const late = new Promise((resolve) => { timer = setTimeout(resolve, PATIENCE_MS, null); });
  try {
    const first = await Promise.race([coming, late]);
    if (first) return first;
    const found = await kept(place(url).name, request.url);
    return found ? await marked(found) : await coming;
  } catch {
    return otherwise(request, url);
  } finally {
    clearTimeout(timer);
  }
};

self.addEventListener("fetch", (event) => {
  const { request } = event;
  const url = new URL(request.url);
  if (request.method !== "GET" || url.origin !== location.origin || NEVER.test(url.pathname)) return;
  if (request.headers.has("range")) return;
  event.respondWith(answered(event, url));
});

const fetchAndKeep = async (address) => {
  const url = new URL(address, location.origin);
  if (url.origin !== location.origin || NEVER.test(url.pathname)) return;
  const { name, most } = place(url);
  if (name === FILES && await kept(FILES, url.href)) return;
  const answer = await fetch(url.href, { credentials: "same-origin" });
  if (answer.status === 200 && !answer.redirected) await keep(name, url.href, answer, most);
};
const keepAll = (addresses) => Promise.allSettled(addresses.map(fetchAndKeep));

self.addEventListener("install", (event) => {
  event.waitUntil((async () => {
    const answer = await fetch(STAND_IN);
    if (answer.ok) await keep(FILES, new URL(STAND_IN, location.origin).href, answer);
    await keepAll(NEEDED);
    await self.skipWaiting();
  })());
});

self.addEventListener("activate", (event) => {
  event.waitUntil((async () => {
    const names = await caches.keys();
    await Promise.all(names.filter((name) => !OURS.includes(name)).map((name) => caches.delete(name)));
    await self.clients.claim();
  })());
});

self.addEventListener("message", (event) => {
  if (event.data && event.data.forget) event.waitUntil(forget());
  if (event.data && Array.isArray(event.data.keep)) event.waitUntil(keepAll(event.data.keep.slice(0, 60)));
});
