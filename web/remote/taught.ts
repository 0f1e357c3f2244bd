import { useSyncExternalStore } from "react";
import { NOTHING_TAUGHT, type Taught, taughtFrom } from "./keyDoes.ts";

const KEY = "chockside.remote";
const listeners = new Set<() => void>();
let taught = stored();

function stored(): Taught {
  try {
    return taughtFrom(JSON.parse(localStorage.getItem(KEY) ?? "null"));
  } catch {
    return NOTHING_TAUGHT;
  }
}

/** Stores the taught keys for every window of this device. Without storage they last until a reload. */
export function keepTaught(next: Taught): void {
  taught = next;
  try {
    if (next.answer === null && next.hold === null) localStorage.removeItem(KEY);
    else localStorage.setItem(KEY, JSON.stringify(next));
  } catch {}
  for (const listener of listeners) listener();
}

function subscribe(listener: () => void): () => void {
  const changed = (event: StorageEvent) => {
    if (event.key !== KEY) return;
    taught = stored();
    listener();
  };
  listeners.add(listener);
  addEventListener("storage", changed);
  return () => {
    listeners.delete(listener);
    removeEventListener("storage", changed);
  };
}

export const useTaught = (): Taught => useSyncExternalStore(subscribe, () => taught);
