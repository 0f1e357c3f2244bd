import { POSTS, type Post } from "../../../shared/protocol/posts.ts";
import type { FaultKind } from "../../../shared/protocol/rehearsalFaults.ts";
import { FAULT } from "../../../shared/rehearsal/faults.ts";
import {
  type Moment,
  type RehearsalScript,
  rehearsalScriptSchema,
} from "../../../shared/rehearsal/script.ts";
import { type ScriptFaultKind, scriptFaults } from "../../../shared/rehearsal/scriptFaults.ts";

/** One fault of a script as it is typed. */
export interface FaultText {
  fault: FaultKind;
  which: string;
  after: Moment;
  seconds: string;
  /** In percent. */
  chance: string;
  /** Empty: the usual post. */
  post: Post | "";
}

/** A script as it is typed. */
export interface ScriptText {
  id: string;
  title: RehearsalScript["title"];
  about: RehearsalScript["about"];
  airC: string;
  slower: string;
  faults: FaultText[];
}

/** The fields of which an editor says what fits. */
export const SCRIPT_FIELDS = [
  "title",
  "about",
  "airC",
  "slower",
  "which",
  "seconds",
  "chance",
  "id",
] as const;
export type ScriptField = (typeof SCRIPT_FIELDS)[number];

/** Something typed that does not fit: the field, or what cannot be meant; and the fault's place from 1, if it is one's. */
export interface ScriptTrouble {
  is: { field: ScriptField } | { wrong: ScriptFaultKind };
  no: number | null;
}

export const NEW_FAULT: FaultText = {
  ...{ fault: "hungStart", which: "1", after: "cranking", seconds: "2", chance: "100", post: "" },
};

export const newScript = (id: string): ScriptText => ({
  ...{ id, title: { en: "", es: "" }, about: { en: "", es: "" }, airC: "15", slower: "1", faults: [] },
});

const percent = (part: number): string => String(Number((100 * part).toFixed(1)));

/** Returns a script as its editor shows it. */
export const textOfScript = ({ id, title, about, airC, slower, faults }: RehearsalScript): ScriptText => ({
  ...{ id, title, about, airC: String(airC), slower: String(slower) },
  faults: faults.map(({ fault, which, after, seconds, chance, post }) => ({
    ...{ fault, which: String(which), after, seconds: String(seconds), chance: percent(chance) },
    post: post ?? "",
  })),
});

/** Returns a typed number; not a number for anything else, so that no empty field counts as 0. */
const numberOf = (text: string): number =>
  text.trim() === "" ? Number.NaN : Number(text.trim().replace(",", "."));

/** Returns the posts among which a fault may be given one; none for a fault that befalls no post. */
export const postsOf = (fault: FaultKind): readonly Post[] => (FAULT[fault].about === "post" ? POSTS : []);

/** Returns the script that was typed, or everything that does not fit. */
export function scriptOf(text: ScriptText): { script: RehearsalScript } | { troubles: ScriptTrouble[] } {
  const read = rehearsalScriptSchema.safeParse({
    ...{ id: text.id, title: text.title, about: text.about },
    ...{ airC: numberOf(text.airC), slower: numberOf(text.slower) },
    faults: text.faults.map(({ fault, which, after, seconds, chance, post }) => ({
      ...{ fault, which: numberOf(which), after, seconds: numberOf(seconds) },
      chance: numberOf(chance) / 100,
      ...(post !== "" && postsOf(fault).length > 0 ? { post } : {}),
    })),
  });
  if (!read.success) {
    const troubles = read.error.issues.map(({ path }) => troubleAt(path));
    const one = new Map(troubles.map((trouble) => [JSON.stringify(trouble), trouble]));
    return { troubles: [...one.values()] };
  }
  const wrong = scriptFaults(read.data);
  if (wrong.length === 0) return { script: read.data };
  return {
    troubles: wrong.map(({ path, is }) => ({ is: { wrong: is }, no: Number(path.split(".")[1]) + 1 })),
  };
}

function troubleAt(path: readonly PropertyKey[]): ScriptTrouble {
  const field = SCRIPT_FIELDS.find((name) => path.includes(name));
  if (!field) throw new Error(`no field of the editor is at ${path.join(".")}`);
  return { is: { field }, no: path[0] === "faults" ? Number(path[1]) + 1 : null };
}
