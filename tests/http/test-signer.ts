import { createPrivateKey } from "node:crypto";
import { signerOf } from "../../server/evidence/signer.ts";

/** PKCS #8 around 32 secret bytes of Ed25519 (RFC 8410 section 7). */
const PKCS8 = "302e020100300506032b657004220420";

/** Returns a signer for a secret given in hexadecimal. */
export const signerFrom = (secret: string) =>
  signerOf(createPrivateKey({ key: Buffer.from(PKCS8 + secret, "hex"), format: "der", type: "pkcs8" }));

/** The secret key of RFC 8032 section 7.1, test 1. Everybody knows it, so it is for tests alone. */
export const testSigner = signerFrom("9d61b19deffd5a60ba844af492ec2cc44449c5697b326919703bac031cae7f60");
