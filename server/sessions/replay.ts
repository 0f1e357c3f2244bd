import { genesis } from "../../shared/evidence/chain.ts";
import { readSealed } from "../../shared/evidence/read.ts";
import type { SessionEvent } from "../../shared/protocol/events.ts";
import { evolve } from "../../shared/session/evolve.ts";
import type { SessionState } from "../../shared/session/state.ts";
import { asStored, type NameVeil } from "../evidence/names.ts";
import { sha256 } from "../sha256.ts";
import { type EventStore, type SessionRow, StoreFailure } from "../store/events.ts";
import { type Answered, noteAnswers } from "./recorded.ts";

const PAGE = 1_000;

/** How many of a session's last events are kept at hand for panels that come back. */
export const TAIL = 400;

/** A session as its events make it. */
export interface Replayed {
  state: SessionState;
  headHash: string;
  answered: Map<string, Answered>;
  tail: SessionEvent[];
}

/**
 * Rebuilds a session from its stored events, and checks their chain while at it.
 * @throws StoreFailure when they cannot be read, or are not what was once recorded
 */
export async function replay(
  store: EventStore,
  row: SessionRow,
  names: NameVeil = asStored,
): Promise<Replayed> {
  let state: SessionState | null = null;
  let headHash = genesis(row.id, sha256);
  const answered = new Map<string, Answered>();
  let tail: SessionEvent[] = [];
  for (;;) {
    const page = await store.read(row.id, state?.seq ?? 0, PAGE);
    await names.meet(page.map((e) => e.body));
    const events: SessionEvent[] = [];
    for (const { seq, body, hash } of page) {
      try {
        const { event: sealed, prev } = readSealed(body);
        const event = names.reveal(sealed);
        if (prev !== headHash || hash !== sha256(body)) throw new Error("its chain is broken");
        state = evolve(state, event);
        events.push(event);
      } catch (error) {
        throw new StoreFailure(`session ${row.id}, event ${seq}: ${(error as Error).message}`, {
          cause: error,
        });
      }
      headHash = hash;
    }
    noteAnswers(answered, events);
    tail = [...tail, ...events].slice(-TAIL);
    if (page.length < PAGE) break;
  }
  if (state === null || state.seq !== row.headSeq || headHash !== row.headHash)
    throw new StoreFailure(`session ${row.id} holds ${state?.seq ?? 0} events, its row says ${row.headSeq}`);
  return { state, headHash, answered, tail };
}
