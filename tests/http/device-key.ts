import { createHash, randomUUID, webcrypto } from "node:crypto";
import type { FastifyInstance } from "fastify";
import { exportJWK, type JWK, SignJWT } from "jose";

/** A device with a key of its own. jose signs as RFC 9449 requires, not the panels' code. */
export class TestDevice {
  readonly #pair: CryptoKeyPair;
  readonly jwk: JWK;

  private constructor(pair: CryptoKeyPair, jwk: JWK) {
    this.#pair = pair;
    this.jwk = jwk;
  }

  static async make(): Promise<TestDevice> {
    const how = { name: "ECDSA", namedCurve: "P-256" };
    const pair = (await webcrypto.subtle.generateKey(how, true, ["sign", "verify"])) as CryptoKeyPair;
    return new TestDevice(pair, await exportJWK(pair.publicKey));
  }

  /** @param over false claims to put into the proof */
  async proof(
    of: { method: string; url: string; nonce: string; token?: string },
    over: Record<string, unknown> = {},
    header: Record<string, unknown> = {},
  ): Promise<string> {
    const ath = of.token && createHash("sha256").update(of.token).digest("base64url");
    const claims = {
      jti: randomUUID(),
      htm: of.method,
      htu: of.url,
      nonce: of.nonce,
      ...(ath ? { ath } : {}),
    };
    return new SignJWT({ ...claims, ...over })
      .setIssuedAt()
      .setProtectedHeader({ alg: "ES256", typ: "dpop+jwt", jwk: this.jwk, ...header })
      .sign(this.#pair.privateKey);
  }

  /** Enrols itself with a code and returns the id it got. */
  async enrol(app: FastifyInstance, code: string): Promise<string> {
    const reply = await this.send(app, "POST", "/api/devices", { payload: { code } });
    if (reply.statusCode !== 201) throw new Error(reply.body);
    return reply.json().id;
  }

  async signIn(app: FastifyInstance, handle: string, pin: string): Promise<string> {
    const reply = await this.send(app, "POST", "/api/sign-in", { payload: { handle, pin } });
    if (reply.statusCode !== 200) throw new Error(reply.body);
    return reply.json().token;
  }

  async send(
    app: FastifyInstance,
    method: "GET" | "POST",
    url: string,
    { payload, token }: { payload?: object; token?: string } = {},
  ) {
    const dpop = await this.proof({
      method,
      url: `http://localhost:80${url}`,
      nonce: await nonceOf(app),
      ...(token ? { token } : {}),
    });
    const authorization = token ? { authorization: `DPoP ${token}` } : {};
    return app.inject({ method, url, headers: { dpop, ...authorization }, ...(payload ? { payload } : {}) });
  }
}

export async function nonceOf(app: FastifyInstance): Promise<string> {
  return (await app.inject({ url: "/api/nonce" })).json().nonce;
}
