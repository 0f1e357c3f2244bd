import type { Post } from "../../shared/protocol/posts.ts";
import { api } from "./app.ts";
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
  /** End of the currency for duty, server milliseconds; null when none is recorded. */
  currentUntil: number | null;
  /** Whole days until then; 0 and less once it has ended. */
  daysLeft: number | null;
}

/** A person as the office enters them. */
export interface PersonEntry {
  name: string;
  mayHold: Post[];
  currentUntil: number | null;
}

const DAY_MS = 24 * 3_600_000;

/** Requests of a person about themselves, and of the office about people. */
export const people = {
  changePin: (pin: string, next: string) => api.send("POST", "/api/me/pin", { pin, next }),
  me: () => api.json<{ pinLength: number }>("GET", "/api/me"),
  signIns: () => api.json<OwnSignIn[]>("GET", "/api/me/sign-ins"),
  endSignIn: (id: string) => api.send("DELETE", `/api/me/sign-ins/${id}`),
  async everybody(): Promise<Anybody[]> {
    const rows = await api.json<Omit<Anybody, "daysLeft">[]>("GET", "/api/people/everybody");
    const days = (until: number) => Math.ceil((until - Date.now()) / DAY_MS);
    return rows.map((p) => ({ ...p, daysLeft: p.currentUntil === null ? null : days(p.currentUntil) }));
  },
  add: (entry: PersonEntry & { handle: string; pin: string }) => api.send("POST", "/api/people", entry),
  change: (id: string, entry: PersonEntry, sure?: Sure) =>
    api.send("PUT", `/api/people/${id}`, { ...entry, ...sure }),
  setPin: (id: string, to: { next: string; pin: string; confirm?: true }) =>
    api.send("PUT", `/api/people/${id}/pin`, to),
  setActive: (id: string, active: boolean, sure?: Sure) =>
    api.send("PUT", `/api/people/${id}/active`, { active, ...sure }),
};
