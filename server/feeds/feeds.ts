import { gaugeKey, type SampleFault } from "../../shared/readings/judgeSample.ts";
import { recordInstrument } from "../../shared/session/step.ts";
import { decideStation } from "../../shared/weather/station.ts";
import type { Account } from "../auth/service-accounts.ts";
import type { Clock, Timers } from "../clock.ts";
import { OneAtATime } from "../one-at-a-time.ts";
import type { LiveSession } from "../sessions/live-session.ts";
import type { Sessions } from "../sessions/sessions.ts";
import type { Directory } from "../store/directory.ts";
import { Judges } from "./judges.ts";
import type { RawSamples } from "./raw-samples.ts";
import type { SampleLine } from "./samples.ts";
import { type Stretch, Windows } from "./windows.ts";

/** A stretch that no later sample ended is recorded after this. Milliseconds. */
const LATEST_MS = 1_000;
/** Stretches that wait for a database that does not answer: ten minutes and more. The oldest are given up first. */
const WAITING = 1_000;
/** Faults that an answer names. */
const NAMED = 20;

export interface FeedsDeps {
  sessions: Sessions;
  directory: Directory;
  clock: Clock;
  timers: Timers;
  /** Null: the samples are not kept. */
  raw: RawSamples | null;
  log: { error(detail: object, message: string): void };
}

/** The result of one request. */
export interface Taken {
  /** The session that the samples belong to; null when none of the aircraft has left its brief. */
  session: string | null;
  taken: number;
  refused: number;
  faults: { line: number; fault: SampleFault | "malformed" | "takenAlready" }[];
}

type RawPiece = Awaited<ReturnType<RawSamples["keep"]>>;

interface Feed {
  session: string;
  windows: Windows;
  /** Stretches that are not recorded yet, the oldest first; `kept` once their samples are in the file. */
  waiting: (Stretch & { kept?: RawPiece })[];
  recording: OneAtATime;
  stop: (() => void) | null;
}

/** Takes what instruments and stations send into the sessions that are open. */
export class Feeds {
  readonly #deps: FeedsDeps;
  /** By account and aircraft. */
  readonly #feeds = new Map<string, Feed>();
  readonly #judges: Judges;

  #counts = { taken: 0, refused: 0 };

  constructor(deps: FeedsDeps) {
    this.#deps = deps;
    this.#judges = new Judges(deps);
  }

  /** The channels of an aircraft were changed here: its next sample is judged by them. */
  remapped(aircraft: string): void {
    this.#judges.forget(aircraft);
  }

  /** Returns how many samples were taken and refused since the start. */
  get counts(): { taken: number; refused: number } {
    return this.#counts;
  }

  /** Takes samples of an aircraft. Resolves once what they ended is recorded. */
  async take(account: Account, aircraft: string, lines: readonly SampleLine[]): Promise<Taken> {
    const { sessions, clock } = this.#deps;
    const live = sessions.underWay(aircraft);
    if (!live) return { session: null, taken: 0, refused: lines.length, faults: [] };
    const judge = await this.#judges.of(aircraft, live.state.type);
    const now = clock.now();
    const feed = this.#feedOf(account, live);
    const faults: Taken["faults"] = [];
    const ended: Stretch[] = [];
    let taken = 0;
    for (const { line, sample } of lines) {
      const judged = sample && judge(sample, now);
      if (!judged?.ok) {
        faults.push({ line, fault: judged ? judged.fault : "malformed" });
        continue;
      }
      const stretches = feed.windows.take(sample as NonNullable<typeof sample>, judged);
      if (stretches) {
        taken += 1;
        ended.push(...stretches);
      } else faults.push({ line, fault: "takenAlready" });
    }
    const { taken: before, refused } = this.#counts;
    this.#counts = { taken: before + taken, refused: refused + faults.length };
    await this.#record(feed, account, ended);
    feed.stop ??= this.#deps.timers.after(LATEST_MS, () => this.#late(feed, account));
    return { session: live.state.id, taken, refused: faults.length, faults: faults.slice(0, NAMED) };
  }

  /** Takes a report of a field's station into every open session there. Returns how many have news by it. */
  async station(
    account: Account,
    place: string,
    metar: string,
  ): Promise<{ sessions: number; faulty: boolean }> {
    const { sessions, clock } = this.#deps;
    const by = { account: account.id, name: account.name };
    let told = 0;
    let faulty = false;
    for (const live of sessions.openAtPlace(place)) {
      await live.run((draft) => {
        const verdict = decideStation(draft.state, metar, by, clock.now());
        if (verdict.is === "faulty") faulty = true;
        if (verdict.is !== "news") return;
        told += 1;
        draft.take(recordInstrument(draft.state, verdict.fact, clock.now()));
      });
    }
    return { sessions: told, faulty };
  }

  /** Returns the feed of an account. After a restart it goes on from what the record has of it. */
  #feedOf(account: Account, { state }: LiveSession): Feed {
    const key = `${account.id} ${state.aircraft}`;
    const known = this.#feeds.get(key);
    if (known?.session === state.id) return known;
    known?.stop?.();
    const read = Object.values(state.instruments ?? {}).filter((i) => i.name === account.name);
    const windows = new Windows(read.map((i) => [gaugeKey(i.gauge, i.engine ?? null), i.to]));
    const feed = { session: state.id, windows, waiting: [], recording: new OneAtATime(), stop: null };
    this.#feeds.set(key, feed);
    return feed;
  }

  #late(feed: Feed, account: Account): void {
    feed.stop = null;
    this.#record(feed, account, feed.windows.flush()).catch((error) =>
      this.#deps.log.error({ err: error, session: feed.session }, "readings could not be recorded"),
    );
  }

  #record(feed: Feed, account: Account, stretches: readonly Stretch[]): Promise<void> {
    feed.waiting.push(...stretches);
    const lost = feed.waiting.splice(0, Math.max(0, feed.waiting.length - WAITING)).length;
    if (lost > 0) this.#deps.log.error({ session: feed.session, lost }, "readings were given up");
    return feed.recording.run(() => this.#recordAll(feed, account));
  }

  /** Records what waits, in order. A stretch that cannot be recorded waits for the next turn. */
  async #recordAll(feed: Feed, account: Account): Promise<void> {
    const { sessions, clock, log, raw } = this.#deps;
    const by = { account: account.id, name: account.name };
    const live = feed.waiting.length === 0 ? null : await sessions.get(feed.session);
    for (let next = feed.waiting[0]; next; next = feed.waiting[0]) {
      const { from, to, readings, samples } = next;
      if (!next.kept) {
        const kept = await raw?.keep(feed.session, samples).catch((error) => {
          log.error({ err: error, session: feed.session }, "the samples could not be kept");
        });
        if (kept) next.kept = kept;
      }
      const sealed = next.kept ? { raw: next.kept } : {};
      const fact = { type: "instrumentsRead" as const, ...by, from, to, ...sealed, readings };
      await live?.run((draft) => draft.take(recordInstrument(draft.state, fact, clock.now())));
      if (feed.waiting[0] === next) feed.waiting.shift();
    }
  }
}
