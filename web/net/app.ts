import { useEffect, useSyncExternalStore } from "react";
import { Api } from "./api.ts";
import {
  device,
  keepMode,
  keepOutbox,
  keepSignIn,
  keptMode,
  keptSignIn,
  type Mode,
  type SignedIn,
} from "./keep.ts";
import { Link, type LinkView } from "./link.ts";

/** The panel's connections: HTTP, and the link while somebody is signed in. */
export const api = new Api();

interface Connected {
  signedIn: SignedIn;
  link: Link;
}

let connected: Connected | null = null;
let mode: Mode = keptMode();
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
  connected = { signedIn, link: new Link(signedIn.token) };
}

/** Takes up a sign-in kept from before a reload. */
export function begin(): void {
  document.documentElement.dataset.mode = mode;
  const kept = keptSignIn();
  if (kept) connect(kept);
  api.onSignedOut = forgetSignIn;
}

export async function signIn(handle: string, pin: string): Promise<void> {
  const { token, person } = await api.signIn(handle, pin, device());
  const signedIn = { token, person };
  keepSignIn(signedIn);
  connected?.link.close();
  connect(signedIn);
  announce();
}

export async function signOut(): Promise<void> {
  await api.signOut().catch(() => undefined);
  keepOutbox([]);
  forgetSignIn();
}

/** The sign-in is over; what was not sent stays written down for the same window. */
export function forgetSignIn(): void {
  keepSignIn(null);
  api.token = null;
  connected?.link.close();
  connected = null;
  announce();
}

export function useConnected(): Connected | null {
  return useSyncExternalStore(subscribe, () => connected);
}

export function useLinkView(link: Link): LinkView {
  return useSyncExternalStore(link.subscribe, link.view);
}

export function useMode(): [Mode, (next: Mode) => void] {
  const now = useSyncExternalStore(subscribe, () => mode);
  return [
    now,
    (next) => {
      mode = next;
      keepMode(next);
      document.documentElement.dataset.mode = next;
      announce();
    },
  ];
}

/** Watches one session while the page shows it. */
export function useWatch(link: Link, session: string): void {
  useEffect(() => {
    link.watch(session);
    return () => link.watch(null);
  }, [link, session]);
}
