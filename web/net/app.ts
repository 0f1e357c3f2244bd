import { useEffect, useSyncExternalStore } from "react";
import { AS_READ, type UnitChoice } from "../../shared/models/unitChoice.ts";
import type { Light } from "../words/light.ts";
import { Api } from "./api.ts";
import { calmed, type Watched } from "./calm.ts";
import { Connection } from "./connection.ts";
import type { ConnectionView } from "./connectionView.ts";
import { openBook } from "./idbOutbox.ts";
import {
  device,
  keepLight,
  keepSignIn,
  keepUnits,
  keptLight,
  keptSignIn,
  keptUnits,
  type Me,
  type SignedIn,
} from "./keep.ts";
import { type Turn, takeTurn } from "./oneSender.ts";

/** The HTTP client. The socket connection exists only while somebody is signed in. */
export const api = new Api();

/** The person signed in at this window, and whether this window sends for them. */
export interface ActiveSignIn {
  signedIn: SignedIn;
  where: "opening" | "here" | "elsewhere";
  /** Null unless this is the window that sends. */
  connection: Connection | null;
  turn: Turn | null;
}

let active: ActiveSignIn | null = null;
let light: Light = keptLight();
let units: UnitChoice = AS_READ;
const listeners = new Set<() => void>();
const announce = () => {
  for (const listener of listeners) listener();
};
const subscribe = (listener: () => void) => {
  listeners.add(listener);
  return () => listeners.delete(listener);
};

function connect(signedIn: SignedIn): void {
  api.token = signedIn.token;
  units = keptUnits(signedIn.person.id);
  const mine: ActiveSignIn = { signedIn, where: "opening", connection: null, turn: null };
  active = mine;
  const change = (to: Partial<ActiveSignIn>) => {
    Object.assign(mine, to);
    if (active?.signedIn !== signedIn) return;
    active = { ...mine };
    announce();
  };
  let turns = 0;
  mine.turn = takeTurn(signedIn.person.id, {
    here() {
      turns += 1;
      const turn = turns;
      void openBook(signedIn.person.id).then(async (book) => {
        const outbox = await book.read();
        // The person signed out, or another window took over, while the outbox was being read.
        if (turn !== turns || active?.signedIn !== signedIn) return;
        change({
          where: "here",
          connection: new Connection(() => api.handshake(signedIn.token), book, outbox),
        });
      });
    },
    elsewhere() {
      turns += 1;
      mine.connection?.close();
      change({ where: "elsewhere", connection: null });
    },
  });
}

function disconnect(): void {
  active?.connection?.close();
  active?.turn?.end();
  active = null;
}

/** Restores the sign-in kept from before a reload. */
export function begin(): void {
  tintBrowser();
  const kept = keptSignIn();
  if (kept) connect(kept);
  api.onSignedOut = forgetSignIn;
}

export async function signIn(handle: string, pin: string): Promise<Me> {
  return enterAs(await api.signIn(handle, pin, device()));
}

/** Continues as a person whom the server has just signed in. */
export function enterAs(signedIn: SignedIn): Me {
  keepSignIn(signedIn);
  disconnect();
  connect(signedIn);
  // Asks the browser not to evict stored data when space runs short. The browser may refuse.
  void navigator.storage?.persist?.();
  announce();
  return signedIn.person;
}

export async function signOut(): Promise<void> {
  await api.signOut().catch(() => undefined);
  await active?.connection?.forgetUnsent();
  forgetSignIn();
}

/** Ends the sign-in. Unsent messages stay stored for the same person. */
export function forgetSignIn(): void {
  keepSignIn(null);
  api.token = null;
  disconnect();
  announce();
}

export function useActiveSignIn(): ActiveSignIn | null {
  return useSyncExternalStore(subscribe, () => active);
}

const calmConnections = new WeakMap<Connection, Watched>();

/** Returns the connection's view as panels draw it; see `calmed`. */
export function useConnectionView(connection: Connection): ConnectionView {
  let calm = calmConnections.get(connection);
  if (!calm) {
    calm = calmed(connection, () => Date.now());
    calmConnections.set(connection, calm);
  }
  return useSyncExternalStore(calm.subscribe, calm.view);
}

export function useLight(): [Light, (next: Light) => void] {
  const now = useSyncExternalStore(subscribe, () => light);
  return [
    now,
    (next) => {
      light = next;
      keepLight(next);
      document.documentElement.dataset.mode = next;
      tintBrowser();
      announce();
    },
  ];
}

/** Colours the browser's own toolbar like the page. */
function tintBrowser(): void {
  const paper = getComputedStyle(document.documentElement).getPropertyValue("--paper");
  document.querySelector('meta[name="theme-color"]')?.setAttribute("content", paper.trim());
}

/** Returns the unit choice of the signed-in person, and a function that changes it. */
export function useUnitChoice(): [UnitChoice, (next: UnitChoice) => void] {
  const now = useSyncExternalStore(subscribe, () => units);
  return [
    now,
    (next) => {
      units = next;
      if (active) keepUnits(active.signedIn.person.id, next);
      announce();
    },
  ];
}

/** Watches one session while the component is mounted. */
export function useWatch(connection: Connection, session: string): void {
  useEffect(() => {
    connection.watch(session);
    return () => connection.watch(null);
  }, [connection, session]);
}
