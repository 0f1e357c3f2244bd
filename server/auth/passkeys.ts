import type { AuthenticationResponseJSON, RegistrationResponseJSON } from "@simplewebauthn/server";
import type { Clock } from "../clock.ts";
import type { Directory, PersonRecord } from "../store/directory.ts";
import type { Identity } from "./identity.ts";
import type { Nonces } from "./nonces.ts";
import type { SignIns } from "./sign-ins.ts";
import type { SingleUse } from "./single-use.ts";

/** Loaded on first use of a passkey: it would add one seventh to the server's start time. */
const library = () => import("@simplewebauthn/server");

/** Stands for the session in a permit to add a passkey. */
const ADDING = "passkey";

/** COSE algorithms (RFC 9053): ES256, which every device supports, and EdDSA. */
const ALGORITHMS = [-7, -8];

interface PasskeysDeps {
  directory: Directory;
  clock: Clock;
  nonces: Nonces;
  singleUse: SingleUse;
  signIns: Pick<SignIns, "permit" | "isPermitted">;
}

/**
 * Passkeys (W3C Web Authentication, level 3): keys that a device uses only after it verified the person by finger,
 * face or code. The server issues and dates each challenge, and accepts it once.
 */
export class Passkeys {
  readonly #deps: PasskeysDeps;

  constructor(deps: PasskeysDeps) {
    this.#deps = deps;
  }

  /** Returns the options by which the browser creates a passkey. Call it only after the person entered their PIN. */
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

  /** Stores the new passkey. Returns false when it does not answer our challenge, or is known already. */
  async add(identity: Identity, origin: string, response: RegistrationResponseJSON): Promise<boolean> {
    const { directory, clock, signIns, singleUse } = this.#deps;
    const { person, device } = identity;
    const what = { session: ADDING, command: person.id };
    const found = await (await library())
      .verifyRegistrationResponse({
        response,
        expectedChallenge: async (c) =>
          signIns.isPermitted(identity, what, c) && singleUse.take(`passkey ${c}`),
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

  /**
   * Returns the options by which the browser asks for a passkey. They name no person: the browser lets the person
   * choose.
   */
  async signInOptions(origin: string) {
    const challenge = new Uint8Array(Buffer.from(this.#deps.nonces.issue(), "base64url"));
    const rpID = new URL(origin).hostname;
    return (await library()).generateAuthenticationOptions({ rpID, challenge, userVerification: "required" });
  }

  /** Returns the owner of the passkey; null when nobody owns it, or when challenge or origin are wrong. */
  async who(origin: string, response: AuthenticationResponseJSON): Promise<PersonRecord | null> {
    const { directory, clock, nonces, singleUse } = this.#deps;
    const known = await directory.passkeys.one(response.id);
    if (!known) return null;
    const publicKey = new Uint8Array(Buffer.from(known.publicKey, "base64url"));
    const found = await (await library())
      .verifyAuthenticationResponse({
        response,
        expectedChallenge: async (c) => nonces.isGood(c) && singleUse.take(`passkey ${c}`),
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
