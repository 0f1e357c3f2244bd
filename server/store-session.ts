import { genesis, seal } from "../shared/evidence/chain.ts";
import type { SessionEvent } from "../shared/protocol/events.ts";
import type { SessionState } from "../shared/session/state.ts";
import type { Pseudonyms } from "./evidence/names.ts";
import { type RowBase, rowOf } from "./sessions/row.ts";
import { sha256 } from "./sha256.ts";
import type { EventStore } from "./store/events.ts";

/** A whole session that was played without this server. */
export interface PlayedSession {
  state: SessionState;
  events: readonly SessionEvent[];
}

/** Seals a played session and stores it, under the pseudonyms of its people. */
export async function storeSession(
  { store, names }: { store: Pick<EventStore, "append">; names: Pseudonyms },
  { state, events }: PlayedSession,
  base: RowBase,
): Promise<void> {
  let head = genesis(state.id, sha256);
  const sealed = events.map((event) => {
    const one = seal(names.pseudonymise(event), head, sha256);
    head = one.hash;
    return { ...one, at: event.at, command: event.command, type: event.fact.type };
  });
  await store.append({ expected: 0, events: sealed, row: rowOf(base, state, head) });
}
