import { AS_READ, choiceFrom, type UnitChoice } from "../../shared/models/unitChoice.ts";
import type { Post } from "../../shared/protocol/posts.ts";
import type { Light } from "../words/light.ts";

/**
 * Keys of the data that one browser window keeps over a reload. Session storage belongs to one window, so four
 * windows of one browser can be four people on four devices.
 */
const SIGN_IN = "chockside.signIn";
const DEVICE = "chockside.device";
const LIGHT = "chockside.light";

export interface Me {
  id: string;
  name: string;
  handle: string;
  mayHold: Post[];
  demo: boolean;
}

export interface SignedIn {
  token: string;
  person: Me;
  /** The device as the server knows it. Absent in a sign-in that an earlier version kept. */
  device?: Device;
}

export interface Device {
  id: string;
  name: string;
}

function read<T>(key: string): T | null {
  try {
    const text = sessionStorage.getItem(key);
    return text === null ? null : (JSON.parse(text) as T);
  } catch {
    return null;
  }
}

export const keptSignIn = (): SignedIn | null => read<SignedIn>(SIGN_IN);

export function keepSignIn(signedIn: SignedIn | null): void {
  if (signedIn) sessionStorage.setItem(SIGN_IN, JSON.stringify(signedIn));
  else sessionStorage.removeItem(SIGN_IN);
}

/** Returns the device of the sign-in; without one this window's own, which the first call creates. */
export function device(): Device {
  const kept = keptSignIn()?.device ?? read<Device>(DEVICE);
  if (kept) return kept;
  const id = crypto.randomUUID();
  const made = { id, name: `Panel ${id.slice(0, 4)}` };
  sessionStorage.setItem(DEVICE, JSON.stringify(made));
  return made;
}

/** Returns the light that /first.js set before the first paint. */
export function keptLight(): Light {
  return document.documentElement.dataset.mode as Light;
}

/** Stores the light for every window of this device. */
export function keepLight(light: Light): void {
  try {
    localStorage.setItem(LIGHT, light);
  } catch {
    // Without storage the choice lasts until the page closes.
  }
}

/** Units are kept per person on the device, not per window: the person's next window uses them too. */
const unitsKey = (person: string) => `chockside.units.${person}`;

export function keptUnits(person: string): UnitChoice {
  try {
    return choiceFrom(JSON.parse(localStorage.getItem(unitsKey(person)) ?? "null"));
  } catch {
    return AS_READ;
  }
}

/** Stores the choice. Without storage it lasts until a reload. */
export function keepUnits(person: string, choice: UnitChoice): void {
  try {
    localStorage.setItem(unitsKey(person), JSON.stringify(choice));
  } catch {}
}
