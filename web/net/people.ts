import type { Post } from "../../shared/protocol/posts.ts";
import { api } from "./app.ts";
import { byName } from "./byName.ts";
import type { Sure } from "./sure.ts";

export interface OwnSignIn {
  id: string;
  deviceName: string;
  /** Server milliseconds. */
  createdAt: number;
  usedAt: number;
  /** True for the sign-in of this window. */
  here: boolean;
}

export interface Anybody {
  id: string;
  name: string;
  handle: string;
  mayHold: Post[];
  active: boolean;
}

/** A person as the office enters them. */
export interface PersonEntry {
  name: string;
  mayHold: Post[];
}

/** Requests of a person about themselves, and of the office about people. */
export const people = {
  changePin: (pin: string, next: string) => api.send("POST", "/api/me/pin", { pin, next }),
  me: () => api.json<{ pinLength: number }>("GET", "/api/me"),
  signIns: () => api.pages<OwnSignIn>("/api/me/sign-ins"),
  endSignIn: (id: string) => api.send("DELETE", `/api/me/sign-ins/${id}`),
  everybody: async () => byName(await api.pages<Anybody>("/api/people/everybody")),
  add: (entry: PersonEntry & { handle: string; pin: string }) => api.send("POST", "/api/people", entry),
  change: (id: string, entry: PersonEntry, sure?: Sure) =>
    api.send("PUT", `/api/people/${id}`, { ...entry, ...sure }),
  setPin: (id: string, to: { next: string; pin: string; confirm?: true }) =>
    api.send("PUT", `/api/people/${id}/pin`, to),
  setActive: (id: string, active: boolean, sure?: Sure) =>
    api.send("PUT", `/api/people/${id}/active`, { active, ...sure }),
};
