import { createHash, createPublicKey, verify } from "node:crypto";
import type { NoteTools } from "../../shared/evidence/note.ts";

/** Hash and signature check for signed notes, by Node's crypto. */
export const noteTools: NoteTools = {
  hash: (bytes) => createHash("sha256").update(bytes).digest(),
  checkSignature: (publicKey, text, signature) => verify(null, text, publicKeyOf(publicKey), signature),
};

/** @param raw 32 bytes as RFC 8032 encodes them */
function publicKeyOf(raw: Uint8Array) {
  const x = Buffer.from(raw).toString("base64url");
  return createPublicKey({ key: { kty: "OKP", crv: "Ed25519", x }, format: "jwk" });
}
