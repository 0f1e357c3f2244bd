import type { HouseScript } from "../../shared/house/script.ts";
import type { Post } from "../../shared/protocol/posts.ts";
import type { Quantity } from "../../shared/protocol/quantity.ts";
import type { FaultKind } from "../../shared/protocol/rehearsalFaults.ts";
import type { Comparison } from "../../shared/rehearsal/measures.ts";
import type { RehearsalScript } from "../../shared/rehearsal/script.ts";
import type { Controls } from "../../shared/simulation/state.ts";
import type { SessionRow } from "./api.ts";
import { api } from "./app.ts";

/** The simulated aircraft as this person sees it. */
export interface SeenWorld {
  t: number;
  frozen: boolean;
  speed: number;
  /** It runs slower than that, because starts come first. */
  slowed: boolean;
  instruments: { gauge: string; engine: number | null; reading: Quantity }[];
  asked: { ask: string; reading: Quantity }[];
  sees: { fault: FaultKind; engine: number | null }[];
  /** The instructor's words to this post. They are no ask. */
  word: { words: string; by: string } | null;
  controls: Controls;
  /** False while good hands work the controls. */
  byHand: boolean;
}

/** One person's part at one post of one rehearsal. Times are server milliseconds. */
export interface TrainingRow {
  session: string;
  script: string;
  /** As it was played; null in older records. */
  title: RehearsalScript["title"] | null;
  /** It began at a moment of another rehearsal. */
  takenBack: boolean;
  aircraft: string;
  typeName: string;
  post: Post;
  at: number;
  seconds: number;
  finishedAt: number | null;
  /** Null for a person who was erased. */
  watchedBy: (string | null)[];
}

/** A script of the house as it is kept. */
export interface HouseScriptRow {
  body: HouseScript;
  revision: number;
  /** Server milliseconds. */
  at: number;
  /** The name of who kept it. */
  by: string;
}

type DeskAsks =
  | { do: "pace"; frozen: boolean; speed: number }
  | { do: "throw"; fault: FaultKind; engine: number; post?: Post }
  | { do: "mark"; words: string }
  | { do: "say"; post: Post; words: string };

const at = (id: string, what = "") => `/api/rehearsals/${encodeURIComponent(id)}${what}`;

/** Requests about rehearsals. */
export const rehearsals = {
  list: () => api.json<(SessionRow & { stage: string })[]>("GET", "/api/rehearsals"),
  scripts: () => api.pages<RehearsalScript>("/api/rehearsals/scripts"),
  houseScripts: () => api.pages<HouseScriptRow>("/api/rehearsals/house-scripts"),
  keepScript: (script: RehearsalScript) => api.send("POST", "/api/rehearsals/house-scripts", script),
  /** @param revision the one that was read */
  changeScript: ({ id, ...to }: HouseScript, revision: number) =>
    api.send("PUT", `/api/rehearsals/house-scripts/${encodeURIComponent(id)}`, to, {
      "if-match": `"${revision}"`,
    }),
  begin: (aircraft: string, script: string | RehearsalScript, post: Post | null) =>
    api.json<{ id: string; code: string }>("POST", "/api/rehearsals", { aircraft, script, post }),
  world: (id: string) => api.json<SeenWorld>("GET", at(id, "/world")),
  hands: (id: string, controls: Controls | null) => api.send("PUT", at(id, "/hands"), { controls }),
  desk: (id: string, asks: DeskAsks) => api.send("POST", at(id, "/desk"), asks),
  /** @param person null for one's own */
  async training(person: string | null): Promise<{ lines: TrainingRow[]; more: boolean }> {
    const whose = person === null ? "me" : `people/${encodeURIComponent(person)}`;
    const pages = await api.eachPage<{ lines: TrainingRow[]; more: boolean }>(`/api/${whose}/training`);
    return { lines: pages.flatMap(({ lines }) => lines), more: pages.some(({ more }) => more) };
  },
  compared: (id: string) => api.json<Comparison>("GET", at(id, "/compared")),
  back: (id: string, seq: number) => api.json<{ id: string; code: string }>("POST", at(id, "/back"), { seq }),
  end: (id: string) => api.send("DELETE", at(id)),
};
