// Keeps one whole version of the phone app on the phone and serves it without
// signal. build/phone fills in the version and, for each file, the hash of its bytes.
//
// - A version installs whole or not at all; a cut download leaves the old one.
// - A new version waits. It starts at the next cold start, or when the page asks.
// - Only caches with our own prefix are ever deleted.
// - Jobs are not here: they are in IndexedDB, which this worker never opens.
"use strict";
const VERSION = "@VERSION@";
const PREFIX = "lugmark-";
const CACHE = PREFIX + VERSION;
const FILES = @FILES@;
const SHELL = "/";
const NETWORK_ONLY = ["/v1", "/alive", "/ready", "/openapi.json"]; // each of them, and what lies below it

// fetchFile fetches one file and rejects when a single byte differs from the
// list: a server that changed its version half way cannot mix two.
async function fetchFile(path, integrity) {
  const answer = await fetch(new Request(path, { cache: "no-cache", credentials: "same-origin", integrity }));
  if (!answer.ok || answer.redirected) throw new Error(path + ": HTTP " + answer.status);
  return answer;
}

self.addEventListener("install", (event) => {
  event.waitUntil((async () => {
    await caches.delete(CACHE); // what an interrupted install left
    const cache = await caches.open(CACHE);
    try {
      await Promise.all(FILES.map(async ([path, integrity]) => cache.put(path, await fetchFile(path, integrity))));
    } catch (err) {
      await caches.delete(CACHE);
      throw err; // the install fails as a whole: the browser will try again
    }
  })());
});

self.addEventListener("activate", (event) => {
  event.waitUntil((async () => {
    for (const name of await caches.keys()) {
      if (name.startsWith(PREFIX) && name !== CACHE) await caches.delete(name);
    }
    await self.clients.claim();
  })());
});

self.addEventListener("message", (event) => {
  const type = event.data && event.data.type;
  if (type === "lugmark:activate") event.waitUntil(self.skipWaiting());
  if (type === "lugmark:readback") {
    event.waitUntil(readBack().then((count) => {
      event.ports[0].postMessage({ version: VERSION, count, expected: FILES.length });
    }));
  }
});

async function hashOf(answer) {
  const sum = new Uint8Array(await crypto.subtle.digest("SHA-256", await answer.arrayBuffer()));
  return "sha256-" + btoa(String.fromCharCode(...sum));
}

// readBack counts the files that lie here whole. A file that the browser threw
// away is fetched again if there is signal; the hash lets only the same one in.
async function readBack() {
  const cache = await caches.open(CACHE);
  let count = 0;
  for (const [path, integrity] of FILES) {
    try {
      const kept = await cache.match(path);
      if (!kept || (await hashOf(kept)) !== integrity) await cache.put(path, await fetchFile(path, integrity));
      count++;
    } catch {
      // not here and not to be had now: it is not counted
    }
  }
  return count;
}

self.addEventListener("fetch", (event) => {
  const request = event.request;
  const url = new URL(request.url);
  if (request.method !== "GET" || url.origin !== self.location.origin) return;
  if (NETWORK_ONLY.some((path) => url.pathname === path || url.pathname.startsWith(path + "/"))) return;
  event.respondWith(answerTo(request, request.mode === "navigate" ? SHELL : url.pathname));
});

// answerTo gives this version's own file and never a mix of two: one that the
// browser threw away is let in only with the same bytes. Where the browser's
// storage cannot be opened at all, every file comes from the network.
async function answerTo(request, path) {
  let cache;
  try {
    cache = await caches.open(CACHE);
  } catch {
    return fetch(request);
  }
  const hit = await cache.match(path, { ignoreVary: true });
  if (hit) return hit;
  const file = FILES.find(([name]) => name === path);
  return file ? fetchFile(...file) : fetch(request);
}
