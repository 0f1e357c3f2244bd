import { createHash, createSign, generateKeyPairSync, type KeyObject, randomBytes } from "node:crypto";

interface Made {
  id: Buffer;
  key: KeyObject;
  /** COSE (RFC 9053), ES256. */
  cose: Buffer;
  userHandle: string;
  counter: number;
}

/** Changes to what a browser and its authenticator send. */
export interface Over {
  origin?: string;
  rpId?: string;
  type?: string;
  challenge?: string;
  /** Flags of authenticator data: 1 present, 4 verified. */
  flags?: number;
  counter?: number;
  userHandle?: string;
}

const PRESENT_AND_VERIFIED = 1 | 4;
const WITH_CREDENTIAL = 64;
const b64 = (bytes: Buffer | string) => Buffer.from(bytes).toString("base64url");
const sha = (bytes: Buffer | string) => createHash("sha256").update(bytes).digest();

/**
 * An authenticator in software, by W3C Web Authentication level 3 sections 5.8.1 (client data), 6.1 (authenticator
 * data), 6.5.4 and 8.7 (attestation object without attestation) and RFC 8949 (CBOR).
 */
export class Authenticator {
  #made: Made | null = null;
  readonly #origin: string;

  constructor(origin: string) {
    this.#origin = origin;
  }

  create(options: { challenge: string; rp: { id: string }; user: { id: string } }, over: Over = {}) {
    const { publicKey, privateKey } = generateKeyPairSync("ec", { namedCurve: "P-256" });
    const { x = "", y = "" } = publicKey.export({ format: "jwk" });
    const cose = Buffer.concat([
      Buffer.from("a5010203262001215820", "hex"),
      Buffer.from(x, "base64url"),
      Buffer.from("225820", "hex"),
      Buffer.from(y, "base64url"),
    ]);
    const made = { id: randomBytes(32), key: privateKey, cose, userHandle: options.user.id, counter: 0 };
    this.#made = made;
    const length = Buffer.from([made.id.length >> 8, made.id.length & 255]);
    const credential = Buffer.concat([Buffer.alloc(16), length, made.id, cose]);
    const flags = (over.flags ?? PRESENT_AND_VERIFIED) | WITH_CREDENTIAL;
    const data = Buffer.concat([this.#data({ ...over, flags }, options.rp.id), credential]);
    const attestation = Buffer.concat([
      Buffer.from("a363666d74646e6f6e656761747453746d74a06861757468446174615900", "hex"),
      Buffer.from([data.length]),
      data,
    ]);
    const response = {
      clientDataJSON: b64(this.#client("webauthn.create", options.challenge, over)),
      attestationObject: b64(attestation),
    };
    return this.#said(response);
  }

  get(options: { challenge: string; rpId: string }, over: Over = {}) {
    const made = this.#mine();
    made.counter += 1;
    const client = this.#client("webauthn.get", options.challenge, over);
    const data = this.#data(over, options.rpId);
    const signature = createSign("sha256")
      .update(Buffer.concat([data, sha(client)]))
      .sign(made.key);
    return this.#said({
      clientDataJSON: b64(client),
      authenticatorData: b64(data),
      signature: b64(signature),
      userHandle: over.userHandle ?? made.userHandle,
    });
  }

  #mine(): Made {
    if (!this.#made) throw new Error("nothing was made yet");
    return this.#made;
  }

  #said<R>(response: R) {
    const id = b64(this.#mine().id);
    return { id, rawId: id, type: "public-key", clientExtensionResults: {}, response };
  }

  #client(type: string, challenge: string, over: Over): string {
    const { origin = this.#origin } = over;
    return JSON.stringify({
      type: over.type ?? type,
      challenge: over.challenge ?? challenge,
      origin,
      crossOrigin: false,
    });
  }

  #data(over: Over, rpId: string): Buffer {
    const counter = Buffer.alloc(4);
    counter.writeUInt32BE(over.counter ?? this.#mine().counter);
    return Buffer.concat([
      sha(over.rpId ?? rpId),
      Buffer.from([over.flags ?? PRESENT_AND_VERIFIED]),
      counter,
    ]);
  }
}
