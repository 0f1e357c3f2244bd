import { AS_READ, choiceFrom, type UnitChoice } from "../../shared/models/unitChoice.ts";
import type { Post } from "../../shared/protocol/posts.ts";
import type { Light } from "../words/light.ts";

/**
 * What one browser window keeps over a reload. Session storage is the window's own, so four windows of one browser are
 * four people on four devices.
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

/** This window's device, made up the first time. */
export function device(): Device {
  const kept = read<Device>(DEVICE);
  if (kept) return kept;
  const id = crypto.randomUUID();
  const made = { id, name: `Panel ${id.slice(0, 4)}` };
  sessionStorage.setItem(DEVICE, JSON.stringify(made));
  return made;
}

/** What /first.js set before anything was drawn. */
export function keptLight(): Light {
  return document.documentElement.dataset.mode as Light;
}

/** The light is the device's, for every window and for good. */
export function keepLight(light: Light): void {
  try {
    localStorage.setItem(LIGHT, light);
  } catch {
    // Nothing can be kept here: it lasts as long as the page.
  }
}

/** A person's units on this device outlive the window, unlike the rest: the next one of theirs has them too. */
const unitsKey = (person: string) => `chockside.units.${person}`;

export function keptUnits(person: string): UnitChoice {
  try {
    return choiceFrom(JSON.parse(localStorage.getItem(unitsKey(person)) ?? "null"));
  } catch {
    return AS_READ;
  }
}

/** Where the device keeps nothing the choice holds until a reload. */
export function keepUnits(person: string, choice: UnitChoice): void {
  try {
    localStorage.setItem(unitsKey(person), JSON.stringify(choice));
  } catch {}
}
