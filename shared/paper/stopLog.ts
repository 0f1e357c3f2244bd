import type { FireWord } from "../protocol/standing.ts";
import { briefWords } from "../words/brief.ts";
import { type Lookup, sayActor, sayEvent } from "../words/events.ts";
import type { Say } from "../words/say.ts";
import type { Moment } from "./moments.ts";

/** One hold, cut or fire: who raised it, and how it ended. */
export interface StopRow {
  id: number;
  is: "hold" | "cut" | "fire";
  at: number;
  words: string;
  by: string;
  /** Steps before its end: a cut reported done, the first of two people who saw the fire out. */
  meanwhile: { at: number; seq: number; words: string; by: string }[];
  /** Null while it is open. */
  ended: { at: number; seq: number; by: string } | null;
}

/** Returns every stop of the session in order of time. */
export function stopLog(moments: readonly Moment[], lookup: Lookup): StopRow[] {
  const rows = new Map<number, StopRow>();
  for (const { event, before, after } of moments) {
    const { at, seq } = event;
    const by = sayActor(event, lookup.say);
    for (const is of ["hold", "cut", "fire"] as const) {
      const list = `${is}s` as const;
      const now = new Set(after[list].map((s) => s.id));
      for (const id of now)
        if (!rows.has(id))
          rows.set(id, { id, is, at, words: sayEvent(event, lookup), by, meanwhile: [], ended: null });
      for (const { id } of before?.[list] ?? []) {
        const row = rows.get(id);
        if (row && !now.has(id)) row.ended = { at, seq, by };
      }
    }
    for (const cut of after.cuts) {
      const was = before?.cuts.find((c) => c.id === cut.id);
      if (was && was.doneAt === null && cut.doneAt !== null)
        rows.get(cut.id)?.meanwhile.push({ at, seq, by, words: lookup.say.choice("stopped") });
    }
    for (const fire of after.fires) {
      const was = before?.fires.find((f) => f.id === fire.id);
      if (was && was.outBy === null && fire.outBy !== null)
        rows.get(fire.id)?.meanwhile.push({ at, seq, by, words: briefWords(lookup.say.language).firstOut });
      for (const word of was === undefined ? [] : (fire.said ?? []).slice(was.said?.length ?? 0))
        rows.get(fire.id)?.meanwhile.push({ at: word.by.at, seq, ...whereSaid(word, lookup.say) });
    }
  }
  return [...rows.values()];
}

/** Returns a word of where a fire burns, and who gave it, here or in another session. */
function whereSaid({ by, engine, place }: FireWord, say: Say): { words: string; by: string } {
  const where = place === "notSaid" ? [] : [say.firePlace(place).toLowerCase()];
  const words = [say.signal("fireAt", engine), ...where].join(", ");
  return { words, by: `${by.name}, ${say.post(by.post).toLowerCase()}` };
}
