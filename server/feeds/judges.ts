import { type SampleJudge, sampleJudge } from "../../shared/readings/judgeSample.ts";
import type { AircraftType } from "../../shared/types/schema.ts";
import type { Clock } from "../clock.ts";
import type { Directory } from "../store/directory.ts";

/** Channels that were read are believed for this long: another server may have changed them. Milliseconds. */
const BELIEVE_MS = 2_000;
/** Aircraft whose judges are kept. When there are more, all are made anew. */
const KEPT = 200;

interface Kept {
  readAt: number;
  /** The revision of the channels and the type by which it judges. */
  revision: number;
  type: AircraftType;
  judge: SampleJudge;
}

/** Keeps a judge of samples for each aircraft: samples come many times a second, and the register is read far less often. */
export class Judges {
  readonly #deps: { directory: Directory; clock: Clock };
  readonly #kept = new Map<string, Kept>();

  constructor(deps: { directory: Directory; clock: Clock }) {
    this.#deps = deps;
  }

  async of(aircraft: string, type: AircraftType): Promise<SampleJudge> {
    const now = this.#deps.clock.now();
    const known = this.#kept.get(aircraft);
    if (known?.type === type && now - known.readAt < BELIEVE_MS) return known.judge;
    const entry = await this.#deps.directory.register.one("channels", aircraft);
    const revision = entry?.revision ?? 0;
    const isSame = known?.type === type && known.revision === revision;
    const judge = isSame ? known.judge : sampleJudge(entry?.body.channels ?? [], type);
    if (this.#kept.size >= KEPT) this.#kept.clear();
    this.#kept.set(aircraft, { readAt: now, revision, type, judge });
    return judge;
  }

  forget(aircraft: string): void {
    this.#kept.delete(aircraft);
  }
}
