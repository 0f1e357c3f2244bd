import { readSealed } from "../../shared/evidence/read.ts";
import type { Currency } from "../../shared/house/currency.ts";
import { barredFrom, type Kept, type Lapse, lapsesOf } from "../../shared/house/lapses.ts";
import type { RegisterEntry } from "../../shared/house/register.ts";
import { type StartAt, startsIn } from "../../shared/house/starts.ts";
import type { Post } from "../../shared/protocol/posts.ts";
import { isRehearsalId } from "../../shared/protocol/rehearsal.ts";
import type { Clock } from "../clock.ts";
import { firstOf } from "../evidence/leaves.ts";
import type { Trainings } from "../rehearsals/trainings.ts";
import type { Directory, PersonRecord } from "../store/directory.ts";
import type { EventStore, SessionRow } from "../store/events.ts";
import { asSupervisor, type By, Entries } from "./entries.ts";
import { HouseRefused } from "./refused.ts";

/** A person's lapses now. */
export interface PersonLapses {
  person: PersonRecord;
  lapses: Lapse[];
}

/** A person's currencies at one post. */
export interface PostCurrency {
  /** Name of the lapsed currency that bars them; null when none does. */
  lapsed: string | null;
  /** Server milliseconds until which none will; null where the house asks none of them there. */
  until: number | null;
}

/** Keeps the house's kinds of currency, and judges whose currency has lapsed. */
export class Currencies {
  readonly #directory: Directory;
  readonly #store: EventStore;
  readonly #clock: Clock;
  readonly #trainings: Pick<Trainings, "finished">;
  readonly #entries: Entries<"currency">;

  constructor(directory: Directory, store: EventStore, clock: Clock, trainings: Pick<Trainings, "finished">) {
    this.#directory = directory;
    this.#store = store;
    this.#clock = clock;
    this.#trainings = trainings;
    this.#entries = new Entries("currency", "currency", directory, clock);
  }

  /** Returns every kind of the house, retired ones too. */
  kinds(): Promise<RegisterEntry<"currency">[]> {
    return this.#entries.all();
  }

  add(by: By, kind: Currency): Promise<RegisterEntry<"currency">> {
    asSupervisor(by);
    return this.#entries.add(by, kind);
  }

  async change(by: By, kind: Currency, revision: number): Promise<RegisterEntry<"currency">> {
    asSupervisor(by);
    return this.#entries.put(await this.#entries.at(kind.id, revision), by, kind, null);
  }

  /** Returns every active person with their lapses, by name. */
  async lapses(): Promise<PersonLapses[]> {
    return this.#lapsesOf((await this.kinds()).map((e) => e.body));
  }

  async #lapsesOf(kinds: readonly Currency[]): Promise<PersonLapses[]> {
    const now = this.#clock.now();
    return (await this.kept()).map(({ person, kept }) => ({ person, lapses: lapsesOf(kinds, kept, now) }));
  }

  /** Returns every active person with what lapses are judged by. */
  async kept(): Promise<{ person: PersonRecord; kept: Kept }[]> {
    const dates = await this.#directory.currencies.dates();
    const starts = await this.#directory.currencies.lastStarts();
    const counted = (await this.kinds()).some(
      ({ body }) => !body.retired && body.rehearsalDays !== undefined,
    );
    // A house that counts none reads none.
    const rehearsed = counted ? await this.#trainings.finished() : [];
    return (await this.#directory.people())
      .filter((p) => p.active)
      .map((person) => {
        const { id, mayHold } = person;
        const days = dates.filter((d) => d.personId === id).map((d) => [d.kind, d.until]);
        const last = starts.filter((s) => s.personId === id).map((s) => [s.post, s.at]);
        const own = rehearsed.filter((r) => r.personId === id).map((r) => [r.post, r.at]);
        const kept = {
          ...{ mayHold, dates: Object.fromEntries(days) },
          ...{ starts: Object.fromEntries(last), rehearsals: Object.fromEntries(own) },
        };
        return { person, kept };
      });
  }

  /** Returns how a person's currencies stand at a post. */
  async standing(personId: string, post: Post): Promise<PostCurrency> {
    const barring = (await this.kinds()).map((e) => e.body).filter((k) => k.needs[post] === "bars");
    // Most claims end here and do not read the other tables.
    if (barring.length === 0) return { lapsed: null, until: null };
    const own = (await this.kept()).find(({ person }) => person.id === personId);
    if (!own) return { lapsed: null, until: null };
    const lapses = lapsesOf(barring, own.kept, this.#clock.now());
    const lapsed = lapses.find((l) => l.post === post && l.bars)?.name ?? null;
    return { lapsed, until: barredFrom(barring, post, own.kept) };
  }

  /** Replaces a person's end dates. A kind that the house does not have is refused. */
  async setDates(personId: string, dates: Readonly<Record<string, string>>): Promise<void> {
    const kinds = new Set((await this.kinds()).map((e) => e.id));
    const unknown = Object.keys(dates).find((kind) => !kinds.has(kind));
    if (unknown !== undefined) throw this.#entries.none(unknown);
    await this.#directory.currencies.setDates(personId, dates);
  }

  /** Notes who made a start at which post in a session that is closed. A rehearsal is no start. */
  async closed(session: string): Promise<void> {
    if (isRehearsalId(session)) return;
    const row = await this.#store.session(session);
    if (row?.stage === "closed") await this.#directory.currencies.noteStarts(await this.#startsOf(row));
  }

  /**
   * Notes the starts of every closed session, in a database that knows none yet. All are noted at once, so that a
   * server that was killed meanwhile begins again.
   */
  async catchUp(): Promise<void> {
    if ((await this.#directory.currencies.lastStarts()).length > 0) return;
    const latest = new Map<string, StartAt>();
    for (const row of await this.#store.sessions(Number.MAX_SAFE_INTEGER)) {
      if (row.stage !== "closed") continue;
      for (const start of await this.#startsOf(row)) {
        const key = `${start.personId} ${start.post}`;
        if (start.at > (latest.get(key)?.at ?? 0)) latest.set(key, start);
      }
    }
    await this.#directory.currencies.noteStarts([...latest.values()]);
  }

  async #startsOf({ id, headSeq }: SessionRow): Promise<StartAt[]> {
    const events = [];
    for await (const { body } of firstOf(this.#store, id, headSeq)) events.push(readSealed(body).event);
    return startsIn(events);
  }
}

/** @throws HouseRefused unless the person plans or supervises */
export function asPlanner({ name, mayHold }: By): void {
  if (!mayHold.includes("supervisor") && !mayHold.includes("cockpit"))
    throw new HouseRefused("notQualified", `${name} is not qualified as cockpit or supervisor`);
}
