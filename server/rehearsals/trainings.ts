import { readSealed } from "../../shared/evidence/read.ts";
import type { Compared, Comparison } from "../../shared/rehearsal/measures.ts";
import { type Trained, type Training, trainedIn } from "../../shared/rehearsal/training.ts";
import { firstOf } from "../evidence/leaves.ts";
import { OneAtATime } from "../one-at-a-time.ts";
import type { Directory, PersonRecord } from "../store/directory.ts";
import type { EventStore, SessionRow } from "../store/events.ts";

/** Newest rehearsals that are looked at: an older one is a record still, and no training line. */
export const LOOKED_AT = 1_000;
/** Earlier runs that stand beside one. */
const BESIDE = 3;

/** One line of a person's training. */
export interface TrainingLine
  extends Omit<Training, "personId">,
    Pick<Trained, "script" | "title" | "takenBack" | "aircraft" | "typeName"> {
  /** Id of the rehearsal: its debrief stands on its record. */
  session: string;
  /** Who stood at the instructor's desk, without the person; null for one who was erased. */
  watchedBy: (string | null)[];
}

/** People's training, worked out from the records of the rehearsals that are over. Nothing of it is stored. */
export class Trainings {
  readonly #store: EventStore;
  readonly #directory: Directory;
  /** What was worked out of each rehearsal, and up to which event. It holds ids, and no name. */
  readonly #known = new Map<string, { head: number; trained: Trained | null }>();
  readonly #reading = new OneAtATime();

  constructor(store: EventStore, directory: Directory) {
    this.#store = store;
    this.#directory = directory;
  }

  /** Returns a person's training, and whether older rehearsals were not looked at. */
  async of(personId: string): Promise<{ lines: TrainingLine[]; more: boolean }> {
    const names = new Map((await this.#directory.people()).map(({ id, name }) => [id, name]));
    const read = await this.#all();
    const lines = [...read.all].flatMap(
      ([session, { desk, of, like: _like, measures: _measures, ...about }]) =>
        of
          .filter((row) => row.personId === personId)
          .map(({ personId: _own, ...row }): TrainingLine => {
            const watchers = desk.filter((id) => id !== personId);
            return { session, ...about, ...row, watchedBy: watchers.map((id) => names.get(id) ?? null) };
          }),
    );
    return { lines, more: read.more };
  }

  /** Returns the rehearsals that people finished at a post, the latest last. */
  async finished(): Promise<Pick<Training, "personId" | "post" | "at">[]> {
    const all = [...(await this.#all()).all.values()].flatMap(({ of }) =>
      of.flatMap(({ personId, post, finishedAt }) =>
        finishedAt === null ? [] : [{ personId, post, at: finishedAt }],
      ),
    );
    return all.sort((a, b) => a.at - b.at);
  }

  /**
   * Returns what each person in a rehearsal that is over did there before: the same script and type, at the same post.
   * @param may decides of whom the asker may read it
   */
  async compared(session: string, may: (personId: string) => boolean): Promise<Comparison | null> {
    const { all } = await this.#all();
    const own = all.get(session);
    if (!own) return null;
    const names = new Map((await this.#directory.people()).map(({ id, name }) => [id, name]));
    const like = [...all].filter(([id, o]) => id !== session && own.like === o.like && !o.takenBack);
    const people = own.of.flatMap(({ personId, post, at }): Compared[] => {
      const name = names.get(personId);
      if (name === undefined || !may(personId)) return [];
      const before = like.flatMap(([id, { of, measures }]) =>
        of.flatMap((row) =>
          row.personId === personId && row.post === post && row.at < at
            ? [{ session: id, at: row.at, measures }]
            : [],
        ),
      );
      const latest = before.sort((a, b) => b.at - a.at).slice(0, BESIDE);
      return [{ name, post, now: own.measures, before: own.like === null ? [] : latest }];
    });
    return { takenBack: own.takenBack, people: own.takenBack ? [] : people };
  }

  #all(): Promise<{ all: Map<string, Trained>; more: boolean }> {
    // One after another: two at once would read the same records twice.
    return this.#reading.run(() => this.#read());
  }

  async #read(): Promise<{ all: Map<string, Trained>; more: boolean }> {
    const newest = await this.#store.rehearsals(LOOKED_AT + 1);
    const rows = newest.slice(0, LOOKED_AT).filter(({ closedAt }) => closedAt !== null);
    const kept = new Set(rows.map(({ id }) => id));
    for (const id of this.#known.keys()) if (!kept.has(id)) this.#known.delete(id);
    const all = new Map<string, Trained>();
    for (const row of rows) {
      const trained = await this.#trained(row);
      if (trained) all.set(row.id, trained);
    }
    return { all, more: newest.length > LOOKED_AT };
  }

  async #trained({ id, headSeq }: SessionRow): Promise<Trained | null> {
    const known = this.#known.get(id);
    if (known?.head === headSeq) return known.trained;
    const events = [];
    for await (const { body } of firstOf(this.#store, id, headSeq)) events.push(readSealed(body).event);
    const trained = trainedIn(events);
    this.#known.set(id, { head: headSeq, trained });
    return trained;
  }
}

/** Returns whose earlier runs a person may read: their own, and a supervisor everybody's. */
export const mayRead =
  ({ id, mayHold }: Pick<PersonRecord, "id" | "mayHold">) =>
  (personId: string): boolean =>
    personId === id || mayHold.includes("supervisor");
