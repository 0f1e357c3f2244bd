/** A person on the device they used, as kept with what they said. */
export interface Observer {
  person: string;
  device: string;
}

/** Returns true if it is another person on another device. Two people on one device do not count as two observers. */
export function isAnother(second: { id: string; device: string }, first: Observer): boolean {
  return second.id !== first.person && second.device !== first.device;
}
