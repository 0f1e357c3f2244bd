import type { Post } from "../../shared/protocol/posts.ts";
import type { Person } from "../../shared/session/step.ts";

/** A signed-in person, their device, and when the sign-in ends. */
export interface Identity {
  signIn: string;
  person: { id: string; name: string; handle: string; mayHold: Post[]; demo: boolean };
  device: { id: string; name: string };
  /** Thumbprint of the device's key, which must sign a proof for each request; null on a device without enrolment. */
  thumbprint: string | null;
  /** Server milliseconds. */
  expiresAt: number;
}

/** Returns the identity in the form that the session rules use. */
export function personOf({ person, device }: Identity): Person {
  return { id: person.id, name: person.name, device: device.id, mayHold: person.mayHold };
}
