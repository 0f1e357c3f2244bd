import type { Equipment } from "../protocol/equipment.ts";
import type { Fact } from "../protocol/events.ts";
import type { Post } from "../protocol/posts.ts";
import type { Refusal } from "../protocol/refusal.ts";

export interface PostElsewhere {
  code: string;
  post: Post;
}

/** A piece of equipment as the house's register has it now. */
export interface ShownEquipment {
  facts: Equipment;
  /** True when it is out of service, or overdue by a date that bars. */
  barred: boolean;
}

/** Inputs of a decision besides the state: the server's clock and the person who asks. */
export interface Context {
  /** Server time, milliseconds since 1970. */
  now: number;
  person: {
    id: string;
    name: string;
    device: string;
    mayHold: readonly Post[];
    currentUntil?: number | null;
  };
  /** The post that the person holds in this session on this device; null for an observer. */
  post: Post | null;
  /** It came after the time until which its sender wanted it done. */
  late?: boolean;
  /** Code of another session of this aircraft that has left its brief and is not over. */
  elsewhere?: string | undefined;
  /** Name of the lapsed currency that bars this person from the post they would take. */
  lapsed?: string | undefined;
  /** The piece of equipment whose label was shown; absent when the register has none with it. */
  equipment?: ShownEquipment | undefined;
  /** A post this person holds in another open session, and that session's code. */
  postElsewhere?: PostElsewhere | undefined;
}

/** Facts to record, a refusal, or both: a wrong read-back is recorded and refused. */
export interface Verdict {
  facts: Fact[];
  refusal?: Refusal;
}

export function accept(...facts: Fact[]): Verdict {
  return { facts };
}

export function refuse(reason: Refusal["reason"], more: Omit<Refusal, "reason"> = {}): Verdict {
  return { facts: [], refusal: { reason, ...more } };
}
