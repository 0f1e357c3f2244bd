import { hash } from "node:crypto";
import type { Digest } from "../shared/evidence/chain.ts";

/** Returns the SHA-256 of the text's UTF-8 bytes, in lower-case hex. */
export const sha256: Digest = (text) => hash("sha256", text, "hex");

/** Returns the SHA-256 of bytes, in lower-case hex. */
export const sha256OfBytes = (bytes: Uint8Array): string => hash("sha256", bytes, "hex");
