/** A key pair a person's device or account keeps for them; ours is the public half. */
export interface PasskeyRecord {
  /** Credential id, base64url. */
  id: string;
  personId: string;
  /** COSE key (RFC 9052), base64url. */
  publicKey: string;
  /** How often it says it was used; 0 for ever where it does not count. */
  counter: number;
  /** The device it was made on. */
  deviceName: string;
  createdAt: number;
  usedAt: number | null;
}

/** Every method may reject when the store does. */
export interface PasskeyStore {
  /** In the order they were made. */
  of(personId: string): Promise<PasskeyRecord[]>;
  one(id: string): Promise<PasskeyRecord | null>;
  /** Rejects when there is such a one already. */
  add(passkey: PasskeyRecord): Promise<void>;
  /** Notes a use; false when one that counts as many, or more, was noted before. */
  used(id: string, counter: number, at: number): Promise<boolean>;
  /** False when the person has no such one. */
  remove(id: string, personId: string): Promise<boolean>;
}
