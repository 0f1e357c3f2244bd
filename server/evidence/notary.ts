import { signCheckpoint } from "../../shared/evidence/checkpoint.ts";
import { GrowingTree } from "../../shared/evidence/merkle.ts";
import { utf8 } from "../../shared/evidence/note.ts";
import type { Clock } from "../clock.ts";
import type { CheckpointRecord, EventStore } from "../store/events.ts";
import { firstOf } from "./leaves.ts";
import { noteTools } from "./note-tools.ts";
import type { EvidenceSigner } from "./signer.ts";

interface NotaryDeps {
  store: EventStore;
  signer: EvidenceSigner;
  clock: Clock;
  log: { error(detail: object, message: string): void };
}

/**
 * Signs checkpoints of sessions' records from what is stored, one at a time and beside everything else: nothing that
 * records an event waits for it, and what it cannot sign now is covered by the next checkpoint.
 */
export class Notary {
  readonly #deps: NotaryDeps;
  #last: Promise<unknown> = Promise.resolve();

  constructor(deps: NotaryDeps) {
    this.#deps = deps;
  }

  get signer(): EvidenceSigner {
    return this.#deps.signer;
  }

  /** A stage was reached at event `size`: vouch for the record so far when there is time. */
  due(session: string, size: number): void {
    this.at(session, size).catch((error) =>
      this.#deps.log.error({ err: error, session }, "a checkpoint could not be signed"),
    );
  }

  /**
   * The checkpoint of the session's first `size` events, signed now unless it was before.
   * @throws StoreFailure
   */
  at(session: string, size: number): Promise<CheckpointRecord> {
    const turn = this.#last.then(() => this.#sign(session, size));
    this.#last = turn.catch(() => {});
    return turn;
  }

  /** Resolves once nothing is waiting to be signed. */
  async idle(): Promise<void> {
    await this.#last;
  }

  async #sign(session: string, size: number): Promise<CheckpointRecord> {
    const { store, signer, clock, log } = this.#deps;
    const known = (await store.checkpoints(session)).find((c) => c.size === size);
    if (known) return known;
    const tree = new GrowingTree(noteTools.hash);
    for await (const { body } of firstOf(store, session, size)) tree.add(utf8(body));
    const at = clock.now();
    const note = signCheckpoint({ session, size, root: tree.root(), at }, signer, noteTools.hash);
    const record = { session, size, at, note, publicKey: signer.publicHex };
    // A disk that takes nothing more must not keep anybody from exporting what there is.
    await store.addCheckpoint(record).catch((error) => log.error({ err: error, session }, "not kept"));
    return record;
  }
}
