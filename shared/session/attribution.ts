import type { Post } from "../protocol/posts.ts";
import type { Quantity } from "../protocol/quantity.ts";

/** The reporter of something, and the time by the server's clock. `seq` is the number of the event that recorded it. */
export interface Attribution {
  at: number;
  seq: number;
  post: Post | null;
  name: string;
  /** Set when the reporter recorded another post's hand signal. */
  seenFrom: Post | null;
}

export interface Reading extends Quantity {
  at: number;
  name: string;
  /** Set when an instrument read it; `name` is then that of its service account. */
  byInstrument?: true;
}
