import { cacheName, outdated, type Shell, sourceOf } from "./shell.ts";

/** Filled in when the panels are built. */
declare const SHELL: Shell;

/** As much of the worker's surroundings as is used (W3C Service Workers); the DOM's own types are a window's. */
interface Lasting {
  waitUntil(work: Promise<unknown>): void;
}
interface Scope {
  location: { origin: string };
  clients: { claim(): Promise<void> };
  skipWaiting(): Promise<void>;
  addEventListener(on: "install" | "activate", run: (event: Lasting) => void): void;
  addEventListener(on: "message", run: (event: Lasting & { data: unknown }) => void): void;
  addEventListener(
    on: "fetch",
    run: (event: { request: Request; respondWith(answer: Promise<Response>): void }) => void,
  ): void;
}
declare const self: Scope;

const PAGE = "/index.html";

/** Takes a whole build or nothing: a file that is not of this build (a server half replaced) ends the installation. */
async function keepShell(): Promise<void> {
  const cache = await caches.open(cacheName(SHELL));
  await Promise.all(
    SHELL.files.map(async ({ url, integrity }) => {
      // The name under assets/ holds the content's digest: what an earlier build kept is the same file.
      const kept = url.startsWith("/assets/") ? await caches.match(url) : undefined;
      const response = kept ?? (await fetch(new Request(url, { cache: "reload", integrity })));
      if (!response.ok) throw new Error(`${url}: ${response.status}`);
      await cache.put(url, response);
    }),
  );
}

async function answer(request: Request, url: string): Promise<Response> {
  const own = await caches.open(cacheName(SHELL));
  return (await own.match(url)) ?? (await caches.match(url)) ?? fetch(request);
}

self.addEventListener("install", (event) => event.waitUntil(keepShell()));

self.addEventListener("activate", (event) =>
  event.waitUntil(
    (async () => {
      const old = outdated(await caches.keys(), cacheName(SHELL));
      await Promise.all(old.map((name) => caches.delete(name)));
      await self.clients.claim();
    })(),
  ),
);

self.addEventListener("fetch", (event) => {
  const { request } = event;
  const url = new URL(request.url);
  if (url.origin !== self.location.origin) return;
  const navigates = request.mode === "navigate";
  const source = sourceOf(SHELL, { method: request.method, path: url.pathname, navigates });
  if (source.is === "network") {
    // A part of an earlier build that a window loaded before the change still asks for.
    if (url.pathname.startsWith("/assets/")) event.respondWith(answer(request, url.pathname));
    return;
  }
  event.respondWith(answer(request, source.is === "page" ? PAGE : source.url));
});

// A new worker waits until a person asks for it; nothing else makes it take over while a window is open.
self.addEventListener("message", (event) => {
  if (event.data === "takeOver") event.waitUntil(self.skipWaiting());
});
