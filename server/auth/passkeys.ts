import type { AuthenticationResponseJSON, RegistrationResponseJSON } from "@simplewebauthn/server";
import type { Clock } from "../clock.ts";
import type { Directory, PersonRecord } from "../store/directory.ts";
import type { Identity } from "./identity.ts";
import type { Nonces } from "./nonces.ts";
import type { SignIns } from "./sign-ins.ts";
import type { Taken } from "./taken.ts";

/** Read when somebody uses a passkey: it would take a seventh of the time a server needs to start. */
const library = () => import("@simplewebauthn/server");

/** For what a permit to add a passkey is, in the place of a session. */
const ADDING = "passkey";

/** COSE algorithm (RFC 9053): ECDSA with SHA-256, which every device has, and EdDSA. */
const ALGORITHMS = [-7, -8];

interface PasskeysDeps {
  directory: Directory;
  clock: Clock;
  nonces: Nonces;
  taken: Taken;
  signIns: Pick<SignIns, "permit" | "isPermitted">;
}

/**
 * Passkeys (W3C Web Authentication, level 3): a key the device keeps for a person, which it uses only after it made
 * sure of them by finger, face or code. Challenges are the server's own, dated, and taken once.
 */
export class Passkeys {
  readonly #deps: PasskeysDeps;

  constructor(deps: PasskeysDeps) {
    this.#deps = deps;
  }

  /** What the browser makes a new one by. For somebody who has just entered their PIN. */
  async addOptions({ person, ...identity }: Identity, origin: string) {
    const { directory, signIns } = this.#deps;
    const { permit } = signIns.permit({ ...identity, person }, { session: ADDING, command: person.id });
    return (await library()).generateRegistrationOptions({
      rpName: "Chockside",
      rpID: new URL(origin).hostname,
      userID: new TextEncoder().encode(person.id),
      userName: person.handle,
      userDisplayName: person.name,
      challenge: new Uint8Array(Buffer.from(permit, "base64url")),
      attestationType: "none",
      supportedAlgorithmIDs: ALGORITHMS,
      excludeCredentials: (await directory.passkeys.of(person.id)).map(({ id }) => ({ id })),
      authenticatorSelection: { residentKey: "required", userVerification: "required" },
    });
  }

  /** Keeps the new one; false when it is not what was asked for. */
  async add(identity: Identity, origin: string, response: RegistrationResponseJSON): Promise<boolean> {
    const { directory, clock, signIns, taken } = this.#deps;
    const { person, device } = identity;
    const what = { session: ADDING, command: person.id };
    const found = await (await library())
      .verifyRegistrationResponse({
        response,
        expectedChallenge: async (c) => signIns.isPermitted(identity, what, c) && taken.take(`passkey ${c}`),
        expectedOrigin: origin,
        expectedRPID: new URL(origin).hostname,
        requireUserVerification: true,
        supportedAlgorithmIDs: ALGORITHMS,
      })
      .catch(() => null);
    if (!found?.verified || (await directory.passkeys.one(found.registrationInfo.credential.id)))
      return false;
    const { id, publicKey, counter } = found.registrationInfo.credential;
    await directory.passkeys.add({
      ...{ id, counter, personId: person.id, publicKey: Buffer.from(publicKey).toString("base64url") },
      ...{ deviceName: device.name, createdAt: clock.now(), usedAt: null },
    });
    return true;
  }

  /** What the browser asks for one by; it lets the person choose whose, and names nobody before. */
  async signInOptions(origin: string) {
    const challenge = new Uint8Array(Buffer.from(this.#deps.nonces.issue(), "base64url"));
    const rpID = new URL(origin).hostname;
    return (await library()).generateAuthenticationOptions({ rpID, challenge, userVerification: "required" });
  }

  /** Who has just shown theirs; null when it is nobody's, or was not made for this moment and place. */
  async who(origin: string, response: AuthenticationResponseJSON): Promise<PersonRecord | null> {
    const { directory, clock, nonces, taken } = this.#deps;
    const known = await directory.passkeys.one(response.id);
    if (!known) return null;
    const publicKey = new Uint8Array(Buffer.from(known.publicKey, "base64url"));
    const found = await (await library())
      .verifyAuthenticationResponse({
        response,
        expectedChallenge: async (c) => nonces.isGood(c) && taken.take(`passkey ${c}`),
        expectedOrigin: origin,
        expectedRPID: new URL(origin).hostname,
        credential: { id: known.id, publicKey, counter: known.counter },
        requireUserVerification: true,
      })
      .catch(() => null);
    const whose = Buffer.from(response.response.userHandle ?? "", "base64url").toString();
    if (!found?.verified || whose !== known.personId) return null;
    if (!(await directory.passkeys.used(known.id, found.authenticationInfo.newCounter, clock.now())))
      return null;
    return directory.person(known.personId);
  }
}
