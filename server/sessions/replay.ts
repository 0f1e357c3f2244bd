import { setImmediate } from "node:timers/promises";
import { genesis, type Sealed } from "../../shared/evidence/chain.ts";
import { readSealed } from "../../shared/evidence/read.ts";
import type { SessionEvent } from "../../shared/protocol/events.ts";
import { evolve } from "../../shared/session/evolve.ts";
import type { SessionState } from "../../shared/session/state.ts";
import { noPseudonyms, type Pseudonyms } from "../evidence/names.ts";
import { sha256 } from "../sha256.ts";
import { type EventStore, type SessionRow, StoreFailure } from "../store/events.ts";
import { type Answered, forgetOldAnswers, noteAnswers } from "./recorded.ts";
import { withSharedType } from "./shared-type.ts";

const PAGE = 250;

/** Latest events per session that stay in memory, for panels that reconnect. */
export const TAIL = 400;

/** A session rebuilt from its events. */
export interface Replayed {
  state: SessionState;
  headHash: string;
  answered: Map<string, Answered>;
  tail: SessionEvent[];
}

/**
 * Rebuilds a session from its stored events, and checks their hash chain.
 * @throws StoreFailure when they cannot be read, or are not what was recorded
 */
export async function replay(
  store: EventStore,
  row: SessionRow,
  names: Pseudonyms = noPseudonyms,
): Promise<Replayed> {
  const { id } = row;
  let expected = row;
  let held: Held = { state: null, headHash: genesis(id, sha256), answered: new Map(), tail: [] };
  for (;;) {
    ({ held } = await readOn(store, id, held, names));
    const { state, headHash } = held;
    if (state !== null && state.seq === expected.headSeq && headHash === expected.headHash)
      return { ...held, state };
    // Another server may have recorded more since the row was read. If the row is unchanged, events are missing.
    const now = await store.session(id);
    if (now === null || now.headSeq === expected.headSeq)
      throw new StoreFailure(
        `session ${id} holds ${state?.seq ?? 0} events, its row says ${expected.headSeq}`,
      );
    expected = now;
  }
}

type Held = Omit<Replayed, "state"> & { state: SessionState | null };

/** A source of events: the store, or another server's announcement. */
export interface EventSource {
  read(session: string, since: number, limit: number): Promise<readonly Sealed[]>;
}

/**
 * Reads the events recorded after those held. Returns them and the session after them. `answered` is updated in place
 * once all are read.
 * @throws StoreFailure when they cannot be read, or do not continue what is held
 */
export async function readOn<H extends Held>(
  store: EventSource,
  id: string,
  held: H,
  names: Pseudonyms,
): Promise<{ held: H; events: SessionEvent[] }> {
  let { state, headHash } = held as Held;
  const all: SessionEvent[] = [];
  for (;;) {
    const page = await store.read(id, state?.seq ?? 0, PAGE);
    await names.loadFor(page.map((e) => e.body));
    for (const { seq, body, hash } of page) {
      try {
        const { event: read, prev } = readSealed(names.reveal(body));
        if (prev !== headHash || hash !== sha256(body)) throw new Error("its chain is broken");
        const event = withSharedType(read);
        state = evolve(state, event);
        all.push(event);
      } catch (error) {
        throw new StoreFailure(`session ${id}, event ${seq}: ${(error as Error).message}`, { cause: error });
      }
      headHash = hash;
    }
    if (page.length < PAGE) break;
    // A long record must not keep a signal waiting.
    await setImmediate();
  }
  noteAnswers(held.answered, all);
  forgetOldAnswers(held.answered);
  return { held: { ...held, state, headHash, tail: [...held.tail, ...all].slice(-TAIL) }, events: all };
}
