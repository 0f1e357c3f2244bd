import type { ServiceAccounts } from "../auth/service-accounts.ts";
import type { SignIns } from "../auth/sign-ins.ts";
import type { Timers } from "../clock.ts";
import { networkOf } from "../peer.ts";
import type { Sessions } from "../sessions/sessions.ts";
import { every } from "./every.ts";
import { LIMITS } from "./limits.ts";
import type { LiveReader } from "./live-reader.ts";

/** Streams of server-sent events: of one person or account, of one network, and in all. */
export const STREAMS = { perAsker: 8, perNetwork: 40, all: 400 } as const;

/** A sign of life is sent this often. Milliseconds. */
const BEAT_MS = 10_000;

/** The reader: a person with a sign-in, or a service account. */
export type Asker = { is: "person"; id: string; signIn: string } | { is: "account"; id: string };

interface Open {
  reader: LiveReader;
  asker: Asker;
  network: string;
}

interface ReadersDeps {
  sessions: Sessions;
  signIns: SignIns;
  accounts: ServiceAccounts;
  timers: Timers;
  log: { error(detail: object, message: string): void };
}

/** The open streams: tells each what moved, and ends it with its sign-in, its account or the server. */
export class Readers {
  readonly #deps: ReadersDeps;
  readonly #open = new Set<Open>();
  readonly #stops: (() => void)[];
  #closed = false;

  constructor(deps: ReadersDeps) {
    this.#deps = deps;
    const { sessions, signIns, accounts, timers } = deps;
    this.#stops = [
      sessions.tell({
        recorded: (session) => this.#each(({ reader }) => reader.moved(session)),
        unrecorded() {},
        ramp() {},
      }),
      signIns.onEnded((signIn) => this.#end(({ asker }) => asker.is === "person" && asker.signIn === signIn)),
      accounts.onEnded((id) => this.#end(({ asker }) => asker.is === "account" && asker.id === id)),
      every(timers, BEAT_MS, () => this.#each(({ reader }) => reader.beat())),
      every(timers, LIMITS.recheckMs, () => void this.#recheck()),
    ];
  }

  /** Streams that are open. */
  get size(): number {
    return this.#open.size;
  }

  /** Returns true when one more stream may be opened. */
  mayOpen({ id }: Asker, address: string): boolean {
    const network = networkOf(address);
    const all = [...this.#open];
    return (
      !this.#closed &&
      all.length < STREAMS.all &&
      all.filter((o) => o.asker.id === id).length < STREAMS.perAsker &&
      all.filter((o) => o.network === network).length < STREAMS.perNetwork
    );
  }

  /** Keeps a stream. Returns a function to call when its other end is gone. */
  keep(reader: LiveReader, asker: Asker, address: string): () => void {
    const open = { reader, asker, network: networkOf(address) };
    this.#open.add(open);
    if (this.#closed) reader.close();
    return () => {
      this.#open.delete(open);
      reader.close();
    };
  }

  /** Ends every stream. */
  close(): void {
    this.#closed = true;
    for (const stop of this.#stops) stop();
    this.#end(() => true);
  }

  #each(run: (open: Open) => void): void {
    for (const open of this.#open) run(open);
  }

  #end(which: (open: Open) => boolean): void {
    this.#each((open) => {
      if (which(open)) open.reader.close();
    });
  }

  /** Ends the streams whose sign-in or account has ended elsewhere or by its time. */
  async #recheck(): Promise<void> {
    const { signIns, accounts, log } = this.#deps;
    const askers = [...this.#open].map((o) => o.asker);
    if (askers.length === 0) return;
    try {
      const ids = [...new Set(askers.flatMap((a) => (a.is === "person" ? a.signIn : [])))];
      const standing = await signIns.standing(ids);
      this.#end(({ asker }) => asker.is === "person" && !standing.has(asker.signIn));
      for (const id of new Set(askers.flatMap((a) => (a.is === "account" ? a.id : []))))
        if (!(await accounts.stands(id))) this.#end(({ asker }) => asker.is === "account" && asker.id === id);
    } catch (error) {
      log.error({ err: error }, "the sign-ins of streams could not be looked up");
    }
  }
}
