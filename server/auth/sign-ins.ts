import type { Clock } from "../clock.ts";
import { sha256 } from "../sha256.ts";
import type { Directory, PersonRecord, SignInRecord } from "../store/directory.ts";
import type { Identity } from "./identity.ts";
import { countedDevice, countedPerson, Lockouts } from "./lockout.ts";
import { hashPin, isPin, type PinCost } from "./pin.ts";

/** A sign-in ends by itself after a long shift. Milliseconds. */
export const SIGN_IN_MS = 12 * 3_600_000;

/** How long what the database says of a sign-in is taken as still so. Milliseconds. */
const BELIEVE_MS = 5_000;

export type SignInResult =
  | { is: "signedIn"; token: string; identity: Identity }
  /** Unknown handle and wrong PIN are one answer. */
  | { is: "wrong" }
  | { is: "locked"; waitMs: number };

interface SignInsDeps {
  directory: Directory;
  clock: Clock;
  ids: { signIn(): string; token(): string };
  pinCost: PinCost;
  /** Whether people invented for the demo may sign in. */
  demo: boolean;
}

/** Signs people in and out by handle and PIN, and knows whose a token is. Only the token's hash is ever kept. */
export class SignIns {
  readonly #deps: SignInsDeps;
  readonly #lockouts: Lockouts;
  readonly #known = new Map<string, { identity: Identity; at: number }>();
  readonly #listeners = new Set<(signIn: string) => void>();
  /** Rises with every sign-out: what was read before one is not remembered after it. */
  #signOuts = 0;
  #decoy: Promise<string> | null = null;

  constructor(deps: SignInsDeps) {
    this.#deps = deps;
    this.#lockouts = new Lockouts(deps.directory, deps.clock);
  }

  async signIn(handle: string, pin: string, device: { id: string; name: string }): Promise<SignInResult> {
    const { directory, clock, ids } = this.#deps;
    const keys = [countedPerson(handle), countedDevice(device.id)];
    const person = await directory.personByHandle(handle);
    const judged = await this.#lockouts.judge(keys, async () => {
      // An unknown handle costs the same work as a known one, so the time taken tells nobody which it was.
      const right = await isPin(person?.pinHash ?? (await this.#decoyHash()), pin);
      return right && person?.active === true && (!person.demo || this.#deps.demo);
    });
    if (judged.is !== "right" || !person) return judged.is === "locked" ? judged : { is: "wrong" };
    await this.#lockouts.forgetOld();

    const token = ids.token();
    const now = clock.now();
    const signIn: SignInRecord = {
      id: ids.signIn(),
      personId: person.id,
      deviceId: device.id,
      deviceName: device.name,
      tokenHash: sha256(token),
      createdAt: now,
      expiresAt: now + SIGN_IN_MS,
      revokedAt: null,
    };
    await directory.addSignIn(signIn);
    return { is: "signedIn", token, identity: identityOf(signIn, person) };
  }

  /** Whose token this is, null when it is nobody's any more. */
  async who(token: string): Promise<Identity | null> {
    const { directory, clock, demo } = this.#deps;
    const tokenHash = sha256(token);
    const now = clock.now();
    const known = this.#known.get(tokenHash);
    if (known && now - known.at < BELIEVE_MS) return now < known.identity.expiresAt ? known.identity : null;
    this.#known.delete(tokenHash);
    const before = this.#signOuts;
    const found = await directory.signInByToken(tokenHash);
    if (!found) return null;
    const { signIn, person } = found;
    const stands = signIn.revokedAt === null && now < signIn.expiresAt && person.active;
    if (!stands || (person.demo && !demo)) return null;
    const identity = identityOf(signIn, person);
    if (this.#known.size > 5_000) this.#known.clear();
    if (before === this.#signOuts) this.#known.set(tokenHash, { identity, at: now });
    return identity;
  }

  /** Ends the sign-in at once, wherever it is in use. */
  async signOut({ signIn }: Identity): Promise<void> {
    await this.#deps.directory.revokeSignIn(signIn, this.#deps.clock.now());
    this.#signOuts += 1;
    for (const [hash, { identity }] of this.#known) if (identity.signIn === signIn) this.#known.delete(hash);
    for (const ended of this.#listeners) ended(signIn);
  }

  /** Calls `ended` with the id of every sign-in that is signed out. Returns how to stop that. */
  onEnded(ended: (signIn: string) => void): () => void {
    this.#listeners.add(ended);
    return () => this.#listeners.delete(ended);
  }

  /** Those of these sign-ins that the database still lets stand: another process may have ended the rest. */
  standing(ids: readonly string[]): Promise<Set<string>> {
    return this.#deps.directory.standing(ids, this.#deps.clock.now());
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
    currentUntil: person.currentUntil,
    expiresAt: signIn.expiresAt,
  };
}
