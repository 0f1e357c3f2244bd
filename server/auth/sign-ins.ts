import type { Clock } from "../clock.ts";
import type { Named } from "../evidence/names.ts";
import type { Bus } from "../many/bus.ts";
import { sha256 } from "../sha256.ts";
import type { Directory, PersonRecord, SignInRecord } from "../store/directory.ts";
import type { Identity } from "./identity.ts";
import { countedDevice, countedPerson, Lockouts } from "./lockout.ts";
import { Permits, type Permitted } from "./permits.ts";
import { hashPin, isPin, type PinCost } from "./pin.ts";

/** What the settings say of sign-ins: how long one lasts, milliseconds, and what a PIN is. */
export interface SignInLimits {
  /** From its beginning: a long shift. */
  shiftMs: number;
  /** Without use. */
  idleMs: number;
  /** Characters a new PIN has at least. */
  pinLength: number;
}

/**
 * Which devices people sign in on: `enrolled` ones, `any`, or, by itself, enrolled ones for everybody but the people
 * invented for the demo.
 */
export type DeviceRule = "auto" | "enrolled" | "any";

/** How exactly the last use is noted. Milliseconds. */
const USE_MS = 60_000;

/** How long what the database says of a sign-in is taken as still so. Milliseconds. */
const BELIEVE_MS = 5_000;

type Locked = { is: "locked"; waitMs: number };

export type SignedIn = { is: "signedIn"; token: string; identity: Identity };

export type SignInResult =
  | SignedIn
  /** Unknown handle and wrong PIN are one answer. */
  | { is: "wrong" }
  /** Not from this device; whose handle it was or whether the PIN was right is not even looked at. */
  | { is: "deviceNeeded" }
  | Locked;

interface SignInsDeps {
  directory: Directory;
  clock: Clock;
  ids: { signIn(): string; token(): string };
  pinCost: PinCost;
  /** Whether people invented for the demo may sign in. */
  demo: boolean;
  devices: DeviceRule;
  limits: SignInLimits;
  /** Under which permits are made. */
  secret: Buffer;
  names: { know(people: readonly Named[]): Promise<void> };
  bus: Bus;
}

/** Where somebody signs in: on a device whose key has proved itself, or on one that merely says who it is. */
export type SignInPlace = { thumbprint: string } | { id: string; name: string };

/** Signs people in and out by handle and PIN, and knows whose a token is. Only the token's hash is ever kept. */
export class SignIns {
  readonly #deps: SignInsDeps;
  readonly #lockouts: Lockouts;
  readonly #permits: Permits;
  readonly #known = new Map<string, { identity: Identity; at: number }>();
  /** When each sign-in's use was last noted. */
  readonly #usedAt = new Map<string, number>();
  /** In use, and not written down yet. */
  readonly #toKeep = new Set<string>();
  readonly #listeners = new Set<(signIn: string) => void>();
  /** Rises with every sign-out: what was read before one is not remembered after it. */
  #signOuts = 0;
  #decoy: Promise<string> | null = null;

  constructor(deps: SignInsDeps) {
    this.#deps = deps;
    this.#lockouts = new Lockouts(deps.directory, deps.clock);
    this.#permits = new Permits(deps.secret, deps.clock);
  }

  async signIn(handle: string, pin: string, place: SignInPlace): Promise<SignInResult> {
    const { directory } = this.#deps;
    const person = await directory.personByHandle(handle);
    const device = await this.#deviceAt(place, person);
    if (!device) return { is: "deviceNeeded" };
    const keys = [countedPerson(handle), countedDevice(device.id)];
    const judged = await this.#lockouts.judge(keys, async () => {
      // An unknown handle costs the same work as a known one, so the time taken tells nobody which it was.
      const right = await isPin(person?.pinHash ?? (await this.#decoyHash()), pin);
      return right && person?.active === true && (!person.demo || this.#deps.demo);
    });
    if (judged.is !== "right" || !person) return judged.is === "locked" ? judged : { is: "wrong" };
    await this.#lockouts.forgetOld();
    return this.#letIn(person, place, device);
  }

  /** Signs in who has shown otherwise who they are, on an enrolled device. */
  async signInAs(person: PersonRecord, place: { thumbprint: string }): Promise<SignedIn | { is: "wrong" }> {
    const device = await this.#deviceAt(place, person);
    if (!device || !person.active || (person.demo && !this.#deps.demo)) return { is: "wrong" };
    return this.#letIn(person, place, device);
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
    // Revoked, made inactive or given another PIN while this one was being tried: what was just added stands no more.
    const still = await directory.person(person.id);
    const unchanged = still?.active === true && still.pinHash === person.pinHash;
    if (!unchanged || !(await this.#deviceAt(place, still))) {
      await directory.revokeSignIn(signIn.id, now);
      return { is: "wrong" };
    }
    return { is: "signedIn", token, identity: identityOf(signIn, person) };
  }

  /** Whether somebody signed in enters their own PIN again, before an act that is nobody else's. Wrong ones count. */
  async confirm({ person, device }: Identity, pin: string): Promise<{ is: "right" | "wrong" } | Locked> {
    const { directory } = this.#deps;
    const keys = [countedPerson(person.handle), countedDevice(device.id)];
    return this.#lockouts.judge(keys, async () => {
      const now = await directory.person(person.id);
      return (await isPin(now?.pinHash ?? (await this.#decoyHash()), pin)) && now?.active === true;
    });
  }

  /** How many characters a new PIN has at least. */
  get pinLength(): number {
    return this.#deps.limits.pinLength;
  }

  /** Gives the person another PIN, by their old one, and ends their sign-ins elsewhere: somebody may have had it. */
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

  /** The person's sign-ins that stand, the newest first. */
  async own({ person }: Identity): Promise<SignInRecord[]> {
    const { directory, clock, limits } = this.#deps;
    const now = clock.now();
    const all = await directory.personal.signIns(person.id);
    return all
      .filter((s) => s.revokedAt === null && now < s.expiresAt && now - s.usedAt < limits.idleMs)
      .sort((a, b) => b.createdAt - a.createdAt);
  }

  /** Ends one of the person's own sign-ins; false when it is none that stands. */
  async endOwn(identity: Identity, id: string): Promise<boolean> {
    const own = await this.own(identity);
    if (!own.some((s) => s.id === id)) return false;
    await this.#end(id);
    return true;
  }

  /** What lets one command through for which a PIN is asked again, once `confirm` found it right. */
  permit({ signIn }: Identity, what: Omit<Permitted, "signIn">): { permit: string; expiresAt: number } {
    return this.#permits.issue({ ...what, signIn });
  }

  isPermitted({ signIn }: Identity, what: Omit<Permitted, "signIn">, permit: string): boolean {
    return this.#permits.isGood(permit, { ...what, signIn });
  }

  /** Whose token this is, null when it is nobody's any more. */
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
    // A name that cannot be veiled now is no reason to keep anybody out.
    await names.know([{ personId: person.id, name: person.name }]).catch(() => undefined);
    const identity = identityOf(signIn, person);
    if (this.#known.size > 5_000) this.#known.clear();
    if (before === this.#signOuts) this.#known.set(tokenHash, { identity, at: now });
    return identity;
  }

  /** Notes that the sign-in is in use: what nobody uses ends. */
  used({ signIn }: Identity): void {
    const now = this.#deps.clock.now();
    if (now - (this.#usedAt.get(signIn) ?? 0) < USE_MS) return;
    if (this.#usedAt.size > 5_000) this.#usedAt.clear();
    this.#usedAt.set(signIn, now);
    this.#toKeep.add(signIn);
  }

  /** Writes down which sign-ins were in use: together, as each write of its own would make commands wait for the disk. */
  async keepUses(): Promise<void> {
    const used = [...this.#toKeep];
    this.#toKeep.clear();
    if (used.length > 0) await this.#deps.directory.usedSignIns(used, this.#deps.clock.now());
  }

  /** Ends every sign-in of a person or on a device at once. */
  async endAll(of: { personId: string } | { deviceId: string }): Promise<void> {
    const ended = await this.#deps.directory.revokeSignIns(of, this.#deps.clock.now());
    for (const signIn of ended) this.#ended(signIn);
  }

  /** Ends the sign-in at once, wherever it is in use. */
  signOut({ signIn }: Identity): Promise<void> {
    return this.#end(signIn);
  }

  async #end(signIn: string): Promise<void> {
    await this.#deps.directory.revokeSignIn(signIn, this.#deps.clock.now());
    this.#ended(signIn);
  }

  /** Calls `ended` with the id of every sign-in that is signed out. Returns how to stop that. */
  onEnded(ended: (signIn: string) => void): () => void {
    this.#listeners.add(ended);
    return () => this.#listeners.delete(ended);
  }

  /** Those of these sign-ins that the database still lets stand: another process may have ended the rest. */
  standing(ids: readonly string[]): Promise<Set<string>> {
    const { directory, clock, limits } = this.#deps;
    const now = clock.now();
    return directory.standing(ids, now, now - limits.idleMs);
  }

  /** The device somebody is at; null when this person may not sign in there. */
  async #deviceAt(place: SignInPlace, person: PersonRecord | null) {
    const { directory, devices, demo } = this.#deps;
    if ("thumbprint" in place) {
      const found = await directory.devices.byThumbprint(place.thumbprint);
      return found && found.revokedAt === null ? found : null;
    }
    // A handle nobody has is treated as one somebody has: nothing is learnt from a device that is not enrolled.
    const may = devices === "any" || (devices === "auto" && demo && person?.demo === true);
    // Nobody passes for an enrolled device by its name.
    if (!may || (await directory.devices.one(place.id))) return null;
    return { ...place, thumbprint: null };
  }

  #ended(signIn: string): void {
    this.endedElsewhere(signIn);
    this.#deps.bus.say({ is: "signedOut", signIn });
  }

  /** The sign-in was ended on another server: it is ended here too. */
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
    currentUntil: person.currentUntil,
    expiresAt: signIn.expiresAt,
  };
}
