import type { Hash } from "./merkle.ts";

// A signed note (C2SP signed-note 1.0): text, a blank line, and one line of its signature by Ed25519 (RFC 8032).

/** Name of every key of this program. The id beside the name tells the keys apart. */
const KEY_NAME = "chockside";
/** Signature type of Ed25519 over the text itself (C2SP signed-note, signature types). */
const ED25519 = 1;
const ID_BYTES = 4;
const SIGNATURE_BYTES = 64;
const LINE = /^— ([^ +]+) ([A-Za-z0-9+/]+={0,2})$/;

/** Signs text with one key and holds that key's 32 public bytes. */
export interface Signer {
  publicKey: Uint8Array;
  sign(text: Uint8Array): Uint8Array;
}

/** Returns whether the key signed the text (RFC 8032 section 5.1.7). */
export type CheckSignature = (publicKey: Uint8Array, text: Uint8Array, signature: Uint8Array) => boolean;

/** Cryptographic functions for notes. The server or the browser supplies them. */
export interface NoteTools {
  hash: Hash;
  checkSignature: CheckSignature;
}

/** @param text whole lines, each with its line feed */
export function signNote(text: string, signer: Signer, hash: Hash): string {
  const signature = signer.sign(utf8(text));
  const bytes = new Uint8Array(ID_BYTES + signature.length);
  bytes.set(keyId(signer.publicKey, hash));
  bytes.set(signature, ID_BYTES);
  return `${text}\n— ${KEY_NAME} ${toBase64(bytes)}\n`;
}

/**
 * Returns the note's text if one of the keys signed it; null for anything else, even one changed bit of the signature.
 */
export function openNote(note: string, keys: readonly Uint8Array[], tools: NoteTools): string | null {
  const end = note.lastIndexOf("\n\n");
  if (end < 0 || !note.endsWith("\n")) return null;
  const text = note.slice(0, end + 1);
  const [, name, letters] = LINE.exec(note.slice(end + 2, -1)) ?? [];
  const bytes = letters === undefined ? null : fromBase64(letters);
  if (name !== KEY_NAME || bytes?.length !== ID_BYTES + SIGNATURE_BYTES) return null;
  const signature = bytes.slice(ID_BYTES);
  const signed = keys.some((key) => {
    const id = keyId(key, tools.hash);
    return id.every((byte, i) => byte === bytes[i]) && tools.checkSignature(key, utf8(text), signature);
  });
  return signed ? text : null;
}

function keyId(publicKey: Uint8Array, hash: Hash): Uint8Array {
  const head = utf8(`${KEY_NAME}\n`);
  const bytes = new Uint8Array(head.length + 1 + publicKey.length);
  bytes.set(head);
  bytes[head.length] = ED25519;
  bytes.set(publicKey, head.length + 1);
  return hash(bytes).slice(0, ID_BYTES);
}

export function utf8(text: string): Uint8Array {
  return new TextEncoder().encode(text);
}

export function toBase64(bytes: Uint8Array): string {
  return btoa(String.fromCharCode(...bytes));
}

/**
 * Returns the bytes; null unless the letters are exactly those that `toBase64` writes. Unused bits at the end would let
 * a note be changed without breaking its signature.
 */
export function fromBase64(letters: string): Uint8Array | null {
  try {
    const bytes = Uint8Array.from(atob(letters), (c) => c.charCodeAt(0));
    return toBase64(bytes) === letters ? bytes : null;
  } catch {
    return null;
  }
}

export function toHex(bytes: Uint8Array): string {
  return Array.from(bytes, (b) => b.toString(16).padStart(2, "0")).join("");
}

/** @param hex an even number of hexadecimal digits */
export function fromHex(hex: string): Uint8Array {
  return Uint8Array.from(hex.match(/../g) ?? [], (pair) => Number.parseInt(pair, 16));
}
