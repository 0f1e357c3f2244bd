import { useSyncExternalStore } from "react";
import { watchedSomewhere } from "./watching.ts";

/** Interval between checks for a new version, milliseconds. */
const LOOK_MS = 600_000;

/** Longest wait for a new version after a person asked for it; then the page is simply reloaded. Milliseconds. */
const FETCH_MS = 20_000;

let registration: ServiceWorkerRegistration | null = null;
let ready = false;
const listeners = new Set<() => void>();

function look(): void {
  // The first build ever installed also waits for a moment, but replaces nothing.
  const now = registration?.waiting != null && registration.active !== null;
  if (now === ready) return;
  ready = now;
  for (const listener of listeners) listener();
}

/**
 * Registers the service worker, so that the panels open without the network. Browsers allow it only on secure
 * origins.
 */
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
    // The panels work without a service worker, except for a reload without the network.
  }
}

export async function lookForUpdate(): Promise<void> {
  await registration?.update().catch(() => undefined);
}

/** True while a newer build is installed and waits for a person to ask for it. */
export function useUpdateReady(): boolean {
  return useSyncExternalStore(
    (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    () => ready,
  );
}

/**
 * Activates the waiting build and reloads this window. Does nothing and returns "watched" while any window watches a
 * session.
 */
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

/**
 * Fetches the newest build and activates it at once. Called when the server uses another protocol version, so no
 * session can be watched.
 */
export async function reloadNewest(): Promise<void> {
  const slow = new Promise<void>((done) => setTimeout(done, FETCH_MS));
  await Promise.race([lookForUpdate().then(installed), slow]);
  const waiting = registration?.waiting;
  if (!waiting) return location.reload();
  navigator.serviceWorker.addEventListener("controllerchange", () => location.reload(), { once: true });
  waiting.postMessage("takeOver");
}

/** Resolves when the new build is installed, or its installation has failed. */
function installed(): Promise<void> {
  const worker = registration?.installing;
  if (!worker) return Promise.resolve();
  return new Promise((done) => {
    worker.addEventListener("statechange", () => {
      if (worker.state === "installed" || worker.state === "redundant") done();
    });
  });
}
