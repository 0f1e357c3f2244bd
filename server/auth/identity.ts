import type { Post } from "../../shared/protocol/posts.ts";
import type { Person } from "../../shared/session/step.ts";

/** Who is signed in, on which device, until when. */
export interface Identity {
  signIn: string;
  person: { id: string; name: string; handle: string; mayHold: Post[]; demo: boolean };
  device: { id: string; name: string };
  /** The device's key, which must prove itself beside the token; null on a device that is not enrolled. */
  thumbprint: string | null;
  /** Until when the person is current for duty, null where no date is kept. Server milliseconds. */
  currentUntil: number | null;
  /** Server milliseconds. */
  expiresAt: number;
}

/** The identity as the rules know it. */
export function personOf({ person, device, currentUntil }: Identity): Person {
  return { id: person.id, name: person.name, device: device.id, mayHold: person.mayHold, currentUntil };
}
