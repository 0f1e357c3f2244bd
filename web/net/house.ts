import type { HouseStep } from "../../shared/house/steps.ts";
import type { Post } from "../../shared/protocol/posts.ts";
import { api } from "./app.ts";

export interface HouseNow {
  name: string | null;
  /** True while the first supervisor is still to be entered. */
  firstRun: boolean;
  /** Fewest digits of a PIN. */
  pinLength: number;
}

export interface FirstEntry {
  house: string;
  person: { handle: string; name: string; mayHold: Post[]; pin: string };
}

/** Requests about the house itself. */
export const house = {
  now: () => api.json<HouseNow>("GET", "/api/house"),
  begin: (entry: FirstEntry) => api.json<{ handle: string }>("POST", "/api/first-run", entry),
  steps: () => api.json<HouseStep[]>("GET", "/api/house/steps"),
};
