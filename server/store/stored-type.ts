import { canonical } from "../../shared/evidence/canonical.ts";

/** The signed note about an approved version, and the public key that signed it, hexadecimal. */
export interface Seal {
  note: string;
  key: string;
}

/** One version of a type exactly as it is stored. Nothing in it was read, so that damage can be told. */
export interface StoredType {
  id: string;
  version: number;
  name: string;
  /** Canonical JSON of the type. */
  body: string;
  /** `draft` or `approved`; anything else is damage. */
  status: string;
  author: string;
  /** JSON of the people who changed the draft. */
  authors: string;
  approvedBy: string | null;
  approvedById: string | null;
  approvedAt: number | null;
  revision: number;
  createdAt: number;
  changedAt: number;
  seal: Seal | null;
}

/** Returns the seal that two columns hold; null when both are empty. One without the other is damage, and stays to be told. */
export function sealIn(note: string | null, key: string | null): Seal | null {
  return note === null && key === null ? null : { note: note ?? "", key: key ?? "" };
}

/** Returns everything that a seal covers, as canonical JSON: the whole row but the seal itself. */
export function sealedText({ seal: _seal, ...row }: StoredType): string {
  return canonical(row);
}
