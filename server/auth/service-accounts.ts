import {
  isOfUse,
  type Scope,
  type ScopeKind,
  type ServiceAccount,
} from "../../shared/house/serviceAccount.ts";
import type { Clock } from "../clock.ts";
import { asSupervisor, type By, Entries } from "../house/entries.ts";
import { Bucket } from "../live/bucket.ts";
import { networkOf } from "../peer.ts";
import { sha256 } from "../sha256.ts";
import type { Directory } from "../store/directory.ts";
import { hashPin, isPin, type PinCost } from "./pin.ts";

/** Each token begins with this, so that it is recognised in a log or a repository. */
const PREFIX = "chockside_";
const TOKEN = /^chockside_([0-9a-f]{16})_([A-Za-z0-9_-]{43})$/;

/** An account that was read is believed for this long. Milliseconds. */
const BELIEVE_MS = 5_000;
/** A verified secret is remembered for this long. Milliseconds. */
const VERIFIED_MS = 10 * 60_000;
/** Verified secrets that are remembered. */
const REMEMBERED = 500;

/**
 * Verifications of unknown secrets per network: at once, and how many are earned back per second. Each one costs 19 MiB
 * and some ten milliseconds, and a system that works needs one in ten minutes.
 */
const TRIES = { burst: 20, perSecond: 0.5 };
/** Verifications at one time, over all networks. */
const AT_ONCE = 4;
/** Networks whose tries are counted. When there are more, all begin anew. */
const NETWORKS = 2_000;

/** A service account that gave its secret. */
export interface Account {
  id: string;
  name: string;
  scopes: readonly Scope[];
}

export type Known = { is: "known"; account: Account } | { is: "unknown" } | { is: "tooMany" };

interface Remembered {
  id: string;
  /** The hash that the secret was verified against. */
  secretHash: string;
  verifiedAt: number;
  readAt: number;
  account: Account;
}

interface ServiceAccountsDeps {
  directory: Directory;
  clock: Clock;
  ids: { serviceAccount(): string; token(): string };
  pinCost: PinCost;
}

/** Returns true for a token of this form, whether or not there is such an account. */
export const isServiceToken = (token: string): boolean => token.startsWith(PREFIX);

/** The accounts of other systems, in the house's register. Methods that change something may throw HouseRefused. */
export class ServiceAccounts {
  readonly #deps: ServiceAccountsDeps;
  readonly #entries: Entries<"serviceAccount">;
  /** By the hash of the token, the longest unread first. */
  readonly #remembered = new Map<string, Remembered>();
  /** Accounts of the operator's file. */
  readonly #read = new Map<string, { at: number; body: ServiceAccount; account: Account }>();
  readonly #tries = new Map<string, Bucket>();
  readonly #listeners = new Set<(id: string) => void>();
  #verifying = 0;

  constructor(deps: ServiceAccountsDeps) {
    this.#deps = deps;
    this.#entries = new Entries("serviceAccount", "service account", deps.directory, deps.clock);
  }

  /** Returns every account that was ever made, by id. */
  async all(by: By): Promise<ServiceAccount[]> {
    asSupervisor(by);
    return (await this.#entries.all()).map(({ body }) => body);
  }

  /** Makes an account. Its token is returned here and nowhere else: the register holds a hash. */
  async add(
    by: By,
    made: Pick<ServiceAccount, "name" | "scopes" | "until">,
  ): Promise<{ id: string; token: string }> {
    asSupervisor(by);
    const { ids, pinCost } = this.#deps;
    const id = ids.serviceAccount();
    const secret = ids.token();
    const secretHash = await hashPin(secret, pinCost);
    await this.#entries.add(by, { id, ...made, secretHash, revoked: false });
    return { id, token: `${PREFIX}${id}_${secret}` };
  }

  /** Ends an account for good: at once on this server, within seconds on the others. */
  async revoke(by: By, id: string): Promise<void> {
    asSupervisor(by);
    const now = await this.#entries.one(id);
    if (!now.body.revoked) await this.#entries.put(now, by, { ...now.body, revoked: true }, null);
    this.#read.delete(id);
    for (const [token, known] of this.#remembered) if (known.id === id) this.#remembered.delete(token);
    for (const ended of this.#listeners) ended(id);
  }

  /** Calls `ended` with the id of each account that is revoked here. Returns a function that stops this. */
  onEnded(ended: (id: string) => void): () => void {
    this.#listeners.add(ended);
    return () => this.#listeners.delete(ended);
  }

  /** Returns true while the account may be used: another server may have revoked it. */
  async stands(id: string): Promise<boolean> {
    const entry = await this.#deps.directory.register.one("serviceAccount", id);
    return entry !== null && isOfUse(entry.body, this.#deps.clock.now());
  }

  /** Returns an account that may be used now; null otherwise. For what the operator set up: no secret is asked for. */
  async ofUse(id: string): Promise<Account | null> {
    const now = this.#deps.clock.now();
    const read = this.#read.get(id);
    if (read && now - read.at < BELIEVE_MS) return isOfUse(read.body, now) ? read.account : null;
    const body = (await this.#deps.directory.register.one("serviceAccount", id))?.body;
    if (!body) return null;
    const account = { id, name: body.name, scopes: body.scopes };
    // The operator's file names few.
    this.#read.set(id, { at: now, body, account });
    return isOfUse(body, now) ? account : null;
  }

  /** Returns the account of a token. @param address that the request came from */
  async who(token: string, address: string): Promise<Known> {
    const [, id, secret] = TOKEN.exec(token) ?? [];
    if (id === undefined || secret === undefined) return { is: "unknown" };
    const now = this.#deps.clock.now();
    const key = sha256(token);
    const known = this.#remembered.get(key);
    if (known && now - known.readAt < BELIEVE_MS) return { is: "known", account: known.account };
    this.#remembered.delete(key);
    const body = (await this.#deps.directory.register.one("serviceAccount", id))?.body;
    const verified =
      known !== undefined && now - known.verifiedAt < VERIFIED_MS && known.secretHash === body?.secretHash;
    if (!verified) {
      const right = await this.#verify(body?.secretHash ?? null, secret, networkOf(address));
      if (right === null) return { is: "tooMany" };
      if (!right) return { is: "unknown" };
    }
    if (!body || !isOfUse(body, now)) return { is: "unknown" };
    const account = { id, name: body.name, scopes: body.scopes };
    const verifiedAt = verified ? known.verifiedAt : now;
    this.#remembered.set(key, { id, secretHash: body.secretHash, verifiedAt, readAt: now, account });
    const [oldest] = this.#remembered.keys();
    if (this.#remembered.size > REMEMBERED && oldest !== undefined) this.#remembered.delete(oldest);
    return { is: "known", account };
  }

  /** Returns whether the secret is right; null when too many are being tried. */
  async #verify(secretHash: string | null, secret: string, network: string): Promise<boolean | null> {
    const now = this.#deps.clock.now();
    if (this.#tries.size > NETWORKS) this.#tries.clear();
    const tries = this.#tries.get(network) ?? new Bucket(TRIES.burst, TRIES.perSecond, now);
    this.#tries.set(network, tries);
    if (this.#verifying >= AT_ONCE || !tries.take(now)) return null;
    // An id that does not exist is no secret: ids stand in lists, and the secret alone has 256 bits.
    if (secretHash === null) return false;
    this.#verifying += 1;
    try {
      return await isPin(secretHash, secret);
    } finally {
      this.#verifying -= 1;
    }
  }
}

/** Returns the account's scope of this kind; undefined when it has none. */
export function scopeOf<K extends ScopeKind>(
  { scopes }: Account,
  kind: K,
  fits: (scope: Extract<Scope, { is: K }>) => boolean = () => true,
): Extract<Scope, { is: K }> | undefined {
  return scopes.find((s): s is Extract<Scope, { is: K }> => s.is === kind && fits(s as never));
}
