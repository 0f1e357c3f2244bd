import { cacheName, outdated, type Shell, sourceOf } from "./shell.ts";

/** Replaced with the shell of the build when the panels are built. */
declare const SHELL: Shell;

/** The part of the worker's global scope used here (W3C Service Workers); the DOM library's types describe a window. */
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

/** Caches the whole build or nothing: a file of another build, as during a server update, fails the installation. */
async function keepShell(): Promise<void> {
  const cache = await caches.open(cacheName(SHELL));
  await Promise.all(
    SHELL.files.map(async ({ url, integrity }) => {
      // Names under assets/ contain the content's digest, so a file cached by an earlier build is the same file.
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
    // A window loaded before an update may still request a file of an earlier build.
    if (url.pathname.startsWith("/assets/")) event.respondWith(answer(request, url.pathname));
    return;
  }
  event.respondWith(answer(request, source.is === "page" ? PAGE : source.url));
});

// A new worker takes over only when a person asks, never while a window is open otherwise.
self.addEventListener("message", (event) => {
  if (event.data === "takeOver") event.waitUntil(self.skipWaiting());
});
