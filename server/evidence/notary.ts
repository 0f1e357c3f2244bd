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
 * Signs checkpoints of stored records, one at a time. Recording never waits for it. A checkpoint that cannot be
 * signed now is covered by the next one.
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

  /** Signs a checkpoint of the first `size` events in the background. */
  due(session: string, size: number): void {
    this.at(session, size).catch((error) =>
      this.#deps.log.error({ err: error, session }, "a checkpoint could not be signed"),
    );
  }

  /**
   * Returns the checkpoint of the session's first `size` events, signed now unless it exists.
   * @throws StoreFailure
   */
  at(session: string, size: number): Promise<CheckpointRecord> {
    const turn = this.#last.then(() => this.#sign(session, size));
    this.#last = turn.catch(() => {});
    return turn;
  }

  /** Resolves once no checkpoint is waiting. */
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
    // Return the checkpoint even when it cannot be stored, so that a full disk does not prevent an export.
    await store.addCheckpoint(record).catch((error) => log.error({ err: error, session }, "not kept"));
    return record;
  }
}
