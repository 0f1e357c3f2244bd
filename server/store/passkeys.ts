/** The public half of a person's passkey. */
export interface PasskeyRecord {
  /** Credential id, base64url. */
  id: string;
  personId: string;
  /** COSE key (RFC 9052), base64url. */
  publicKey: string;
  /** The authenticator's signature counter; always 0 when it does not count. */
  counter: number;
  /** The device it was created on. */
  deviceName: string;
  createdAt: number;
  usedAt: number | null;
}

/** Every method rejects when the database fails. */
export interface PasskeyStore {
  /** In order of creation. */
  of(personId: string): Promise<PasskeyRecord[]>;
  one(id: string): Promise<PasskeyRecord | null>;
  /** Rejects when the id exists. */
  add(passkey: PasskeyRecord): Promise<void>;
  /** Records a use. Returns false when a counter at least as high was recorded before. */
  used(id: string, counter: number, at: number): Promise<boolean>;
  /** Returns false when the person has no such passkey. */
  remove(id: string, personId: string): Promise<boolean>;
}
