export interface FileCheck {
  ok: boolean;
  /** True when it was held against a key or a checkpoint kept elsewhere: only then nobody can have written it anew. */
  vouched: boolean;
  /** A few lines for a person. */
  says: string;
}

/** Keys and checkpoints kept elsewhere. They reveal a record that was rewritten as a whole. */
export interface Kept {
  /** Public keys, hexadecimal. Signatures by any other key are refused. */
  keys?: readonly string[];
  /** Checkpoints (signed notes) that the record must continue. */
  checkpoints?: readonly string[];
}
