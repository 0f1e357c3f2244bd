import type { Clock } from "../clock.ts";
import type { Named } from "../evidence/names.ts";
import type { Bus } from "../many/bus.ts";
import { sha256 } from "../sha256.ts";
import type { Directory, PersonRecord } from "../store/directory.ts";
import type { SignInRecord } from "../store/sign-in.ts";
import type { Identity } from "./identity.ts";
import { deviceLockoutKey, Lockouts, personLockoutKey } from "./lockout.ts";
import { Permits, type Permitted } from "./permits.ts";
import { hashPin, isPin, type PinCost } from "./pin.ts";

/** Settings for sign-ins: their duration in milliseconds, and the length of a PIN. */
export interface SignInLimits {
  /** Longest duration of a sign-in: a long shift. */
  shiftMs: number;
  /** Longest time without use. */
  idleMs: number;
  /** Fewest characters in a new PIN. */
  pinLength: number;
}

/**
 * Devices that people may sign in on: `enrolled` ones, `any`, or `auto`: any for the demo's people, enrolled ones for
 * everybody else.
 */
export type DeviceRule = "auto" | "enrolled" | "any";

/** Resolution of the recorded time of last use. Milliseconds. */
const USE_MS = 60_000;

/** A sign-in read from the database is cached for this long. Milliseconds. */
const BELIEVE_MS = 5_000;

type Locked = { is: "locked"; waitMs: number };

export type SignedIn = { is: "signedIn"; token: string; identity: Identity };

export type SignInResult =
  | SignedIn
  /** The same result for an unknown handle and a wrong PIN. */
  | { is: "wrong" }
  /** The device is not enrolled. Neither the handle nor the PIN was checked. */
  | { is: "deviceNeeded" }
  /** Another person is signed in on a device of that id, and it is not enrolled. */
  | { is: "deviceInUse" }
  | Locked;

interface SignInsDeps {
  directory: Directory;
  clock: Clock;
  ids: { signIn(): string; token(): string };
  pinCost: PinCost;
  /** True when the demo's people may sign in. */
  demo: boolean;
  devices: DeviceRule;
  limits: SignInLimits;
  /** Key for the MAC of permits. */
  secret: Buffer;
  names: { know(people: readonly Named[]): Promise<void> };
  bus: Bus;
}

/** The device of a sign-in: one whose key signed a proof, or one that only states its id and name. */
export type SignInPlace = { thumbprint: string } | { id: string; name: string };

/** Signs people in and out by handle and PIN, and identifies them by token. Only the token's hash is stored. */
export class SignIns {
  readonly #deps: SignInsDeps;
  readonly #lockouts: Lockouts;
  readonly #permits: Permits;
  readonly #known = new Map<string, { identity: Identity; at: number }>();
  /** Time each sign-in was last marked as used. */
  readonly #usedAt = new Map<string, number>();
  /** Used sign-ins that are not yet saved. */
  readonly #toKeep = new Set<string>();
  readonly #listeners = new Set<(signIn: string) => void>();
  /** Rises with every sign-out, so that a read begun before a sign-out is not cached after it. */
  #signOuts = 0;
  #decoy: Promise<string> | null = null;

  constructor(deps: SignInsDeps) {
    this.#deps = deps;
    this.#lockouts = new Lockouts(deps.directory, deps.clock);
    this.#permits = new Permits(deps.secret, deps.clock);
  }

  /** @param network that the request came from: a device that only states its id is counted there alone */
  async signIn(handle: string, pin: string, place: SignInPlace, network = ""): Promise<SignInResult> {
    const { directory } = this.#deps;
    const person = await directory.personByHandle(handle);
    const device = await this.#deviceAt(place, person);
    if (!device) return { is: "deviceNeeded" };
    const counted = device.thumbprint === null ? `${device.id} ${network}` : device.id;
    const keys = [personLockoutKey(handle), deviceLockoutKey(counted)];
    const judged = await this.#lockouts.judge(keys, async () => {
      // Hash a decoy for an unknown handle: both cases take the same time, so the time reveals nothing.
      const right = await isPin(person?.pinHash ?? (await this.#decoyHash()), pin);
      return right && person?.active === true && (!person.demo || this.#deps.demo);
    });
    if (judged.is !== "right" || !person) return judged.is === "locked" ? judged : { is: "wrong" };
    await this.#lockouts.forgetOld();
    if (await this.#isOthers(person, device)) return { is: "deviceInUse" };
    return this.#letIn(person, place, device);
  }

  /** Signs in a person identified by other means than a PIN, on an enrolled device. */
  async signInAs(person: PersonRecord, place: { thumbprint: string }): Promise<SignedIn | { is: "wrong" }> {
    const device = await this.#deviceAt(place, person);
    if (!device || !person.active || (person.demo && !this.#deps.demo)) return { is: "wrong" };
    return this.#letIn(person, place, device);
  }

  /** Returns true when another person is signed in on this device and it has no key by which to tell it from others. */
  async #isOthers(person: PersonRecord, device: { id: string; thumbprint: string | null }): Promise<boolean> {
    if (device.thumbprint !== null) return false;
    const { directory, clock, limits } = this.#deps;
    const now = clock.now();
    const there = await directory.peopleOn(device.id, now, now - limits.idleMs);
    return [...there].some((id) => id !== person.id);
  }

  async #letIn(
    person: PersonRecord,
    place: SignInPlace,
    device: { id: string; name: string; thumbprint: string | null },
  ): Promise<SignedIn | { is: "wrong" }> {
    const { directory, clock, ids, limits } = this.#deps;
    const token = ids.token();
    const now = clock.now();
    const signIn: SignInRecord = {
      id: ids.signIn(),
      personId: person.id,
      deviceId: device.id,
      deviceName: device.name,
      tokenHash: sha256(token),
      thumbprint: device.thumbprint,
      createdAt: now,
      expiresAt: now + limits.shiftMs,
      usedAt: now,
      revokedAt: null,
    };
    await directory.addSignIn(signIn);
    // Check again: the device may have been revoked, or the person made inactive or given another PIN, during the
    // attempt.
    const still = await directory.person(person.id);
    const unchanged = still?.active === true && still.pinHash === person.pinHash;
    if (!unchanged || !(await this.#deviceAt(place, still)) || (await this.#isOthers(person, device))) {
      await directory.revokeSignIn(signIn.id, now);
      return { is: "wrong" };
    }
    return { is: "signedIn", token, identity: identityOf(signIn, person) };
  }

  /** Checks that a signed-in person enters their own PIN again. Wrong attempts count towards the lockout. */
  async confirm(identity: Identity, pin: string): Promise<{ is: "right" | "wrong" } | Locked> {
    const { directory } = this.#deps;
    const { person, device } = identity;
    const counted = identity.thumbprint === null ? identity.signIn : device.id;
    const keys = [personLockoutKey(person.handle), deviceLockoutKey(counted)];
    return this.#lockouts.judge(keys, async () => {
      const now = await directory.person(person.id);
      return (await isPin(now?.pinHash ?? (await this.#decoyHash()), pin)) && now?.active === true;
    });
  }

  /** Fewest characters in a new PIN. */
  get pinLength(): number {
    return this.#deps.limits.pinLength;
  }

  /** Changes the person's PIN, and ends their other sign-ins: somebody else may have known the old PIN. */
  async changePin(
    identity: Identity,
    pin: string,
    next: string,
  ): Promise<{ is: "right" | "wrong" } | Locked> {
    const { directory, pinCost } = this.#deps;
    const entered = await this.confirm(identity, pin);
    if (entered.is !== "right") return entered;
    await directory.setPin(identity.person.id, await hashPin(next, pinCost));
    for (const { id } of await this.own(identity)) if (id !== identity.signIn) await this.#end(id);
    return entered;
  }

  /** Returns the person's valid sign-ins, the newest first. */
  async own({ person }: Identity): Promise<SignInRecord[]> {
    const { directory, clock, limits } = this.#deps;
    const now = clock.now();
    const all = await directory.personal.signIns(person.id);
    return all
      .filter((s) => s.revokedAt === null && now < s.expiresAt && now - s.usedAt < limits.idleMs)
      .sort((a, b) => b.createdAt - a.createdAt);
  }

  /** Ends one of the person's own sign-ins. Returns false when it is not one of the valid ones. */
  async endOwn(identity: Identity, id: string): Promise<boolean> {
    const own = await this.own(identity);
    if (!own.some((s) => s.id === id)) return false;
    await this.#end(id);
    return true;
  }

  /** Returns the permit for one command that requires a PIN. Call it only after `confirm` found the PIN right. */
  permit({ signIn }: Identity, what: Omit<Permitted, "signIn">): { permit: string; expiresAt: number } {
    return this.#permits.issue({ ...what, signIn });
  }

  isPermitted({ signIn }: Identity, what: Omit<Permitted, "signIn">, permit: string): boolean {
    return this.#permits.isGood(permit, { ...what, signIn });
  }

  /** Returns the identity behind a token; null when the token is unknown or no longer valid. */
  async who(token: string): Promise<Identity | null> {
    const { directory, clock, demo, limits, names } = this.#deps;
    const tokenHash = sha256(token);
    const now = clock.now();
    const known = this.#known.get(tokenHash);
    if (known && now - known.at < BELIEVE_MS) return now < known.identity.expiresAt ? known.identity : null;
    this.#known.delete(tokenHash);
    const before = this.#signOuts;
    const found = await directory.signInByToken(tokenHash);
    if (!found) return null;
    const { signIn, person } = found;
    const inTime = now < signIn.expiresAt && now - signIn.usedAt < limits.idleMs;
    const stands = signIn.revokedAt === null && inTime && person.active;
    if (!stands || (person.demo && !demo)) return null;
    // A failure to store the pseudonym must not keep anybody out.
    await names.know([{ personId: person.id, name: person.name }]).catch(() => undefined);
    const identity = identityOf(signIn, person);
    if (this.#known.size > 5_000) this.#known.clear();
    if (before === this.#signOuts) this.#known.set(tokenHash, { identity, at: now });
    return identity;
  }

  /** Marks the sign-in as used: one that nobody uses ends. */
  used({ signIn }: Identity): void {
    const now = this.#deps.clock.now();
    if (now - (this.#usedAt.get(signIn) ?? 0) < USE_MS) return;
    if (this.#usedAt.size > 5_000) this.#usedAt.clear();
    this.#usedAt.set(signIn, now);
    this.#toKeep.add(signIn);
  }

  /** Saves which sign-ins were used, in one write: one write each would make commands wait for the disk. */
  async keepUses(): Promise<void> {
    const used = [...this.#toKeep];
    this.#toKeep.clear();
    if (used.length > 0) await this.#deps.directory.usedSignIns(used, this.#deps.clock.now());
  }

  /** Ends every sign-in of a person or of a device. */
  async endAll(of: { personId: string } | { deviceId: string }): Promise<void> {
    const ended = await this.#deps.directory.revokeSignIns(of, this.#deps.clock.now());
    for (const signIn of ended) this.#ended(signIn);
  }

  /** Ends the sign-in, on every server. */
  signOut({ signIn }: Identity): Promise<void> {
    return this.#end(signIn);
  }

  async #end(signIn: string): Promise<void> {
    await this.#deps.directory.revokeSignIn(signIn, this.#deps.clock.now());
    this.#ended(signIn);
  }

  /** Calls `ended` with the id of every sign-in that ends. Returns a function that stops this. */
  onEnded(ended: (signIn: string) => void): () => void {
    this.#listeners.add(ended);
    return () => this.#listeners.delete(ended);
  }

  /**
   * Returns those of the given sign-ins that are still valid in the database: another process may have ended the
   * others.
   */
  standing(ids: readonly string[]): Promise<Set<string>> {
    const { directory, clock, limits } = this.#deps;
    const now = clock.now();
    return directory.standing(ids, now, now - limits.idleMs);
  }

  /** Returns the device; null when this person may not sign in there. */
  async #deviceAt(place: SignInPlace, person: PersonRecord | null) {
    const { directory, devices, demo } = this.#deps;
    if ("thumbprint" in place) {
      const found = await directory.devices.byThumbprint(place.thumbprint);
      return found && found.revokedAt === null ? found : null;
    }
    // Treat an unknown handle as a known one, so that a device without enrolment learns nothing from the answer.
    const may = devices === "any" || (devices === "auto" && demo && person?.demo === true);
    // An enrolled device's id needs its key's proof.
    if (!may || (await directory.devices.one(place.id))) return null;
    return { ...place, thumbprint: null };
  }

  #ended(signIn: string): void {
    this.endedElsewhere(signIn);
    this.#deps.bus.send({ is: "signedOut", signIn });
  }

  /** Ends the sign-in here, after another server ended it. */
  endedElsewhere(signIn: string): void {
    this.#signOuts += 1;
    this.#usedAt.delete(signIn);
    for (const [hash, { identity }] of this.#known) if (identity.signIn === signIn) this.#known.delete(hash);
    for (const ended of this.#listeners) ended(signIn);
  }

  #decoyHash(): Promise<string> {
    this.#decoy ??= hashPin(this.#deps.ids.token(), this.#deps.pinCost);
    return this.#decoy;
  }
}

function identityOf(signIn: SignInRecord, person: PersonRecord): Identity {
  const { id, name, handle, mayHold, demo } = person;
  return {
    signIn: signIn.id,
    person: { id, name, handle, mayHold, demo },
    device: { id: signIn.deviceId, name: signIn.deviceName },
    thumbprint: signIn.thumbprint,
    expiresAt: signIn.expiresAt,
  };
}
