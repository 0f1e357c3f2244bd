/** `short`: what a reader looks for first, with the digest. `full`: every reading, hand-over and event too. */
export type RecordForm = "short" | "full";
