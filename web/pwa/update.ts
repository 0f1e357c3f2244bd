import { useSyncExternalStore } from "react";
import { watchedSomewhere } from "./watching.ts";

/** How often a new version is looked for, milliseconds. */
const LOOK_MS = 600_000;

/** How long a person who asked for a new version waits for it before the page is simply loaded anew, milliseconds. */
const FETCH_MS = 20_000;

let registration: ServiceWorkerRegistration | null = null;
let ready = false;
const listeners = new Set<() => void>();

function look(): void {
  // The very first build waits for a moment too, but for nobody.
  const now = registration?.waiting != null && registration.active !== null;
  if (now === ready) return;
  ready = now;
  for (const listener of listeners) listener();
}

/** Keeps the panels on this device, so that they open without the network. Browsers allow it on secure origins alone. */
export async function keepPanels(): Promise<void> {
  if (!("serviceWorker" in navigator)) return;
  try {
    const kept = await navigator.serviceWorker.register("/sw.js", { updateViaCache: "none" });
    registration = kept;
    look();
    kept.addEventListener("updatefound", () => {
      kept.installing?.addEventListener("statechange", look);
    });
    navigator.serviceWorker.addEventListener("controllerchange", look);
    setInterval(() => void lookForUpdate(), LOOK_MS);
  } catch {
    // The panels work without it; only an unlinked reload does not.
  }
}

export async function lookForUpdate(): Promise<void> {
  await registration?.update().catch(() => undefined);
}

/** True while a newer build lies on this device and waits for a person to ask for it. */
export function useUpdateReady(): boolean {
  return useSyncExternalStore(
    (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    () => ready,
  );
}

/** The person asked: the waiting build takes over and this window is loaded anew. Never while a session is watched. */
export async function takeUpdate(): Promise<"taken" | "watched"> {
  if (await watchedSomewhere()) return "watched";
  const waiting = registration?.waiting;
  if (!waiting) {
    location.reload();
    return "taken";
  }
  navigator.serviceWorker.addEventListener("controllerchange", () => location.reload(), { once: true });
  waiting.postMessage("takeOver");
  return "taken";
}

/** The server speaks another protocol: nothing can be watched, so the newest build is fetched and taken at once. */
export async function reloadNewest(): Promise<void> {
  const slow = new Promise<void>((done) => setTimeout(done, FETCH_MS));
  await Promise.race([lookForUpdate().then(installed), slow]);
  const waiting = registration?.waiting;
  if (!waiting) return location.reload();
  navigator.serviceWorker.addEventListener("controllerchange", () => location.reload(), { once: true });
  waiting.postMessage("takeOver");
}

/** Resolves when what is being fetched of a new build is there, or has failed. */
function installed(): Promise<void> {
  const worker = registration?.installing;
  if (!worker) return Promise.resolve();
  return new Promise((done) => {
    worker.addEventListener("statechange", () => {
      if (worker.state === "installed" || worker.state === "redundant") done();
    });
  });
}
