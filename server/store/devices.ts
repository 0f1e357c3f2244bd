/** A device that made a key of its own and was let in. */
export interface DeviceRecord {
  id: string;
  name: string;
  /** JSON Web Key (RFC 7517) of the public half, as JSON. */
  publicKey: string;
  /** RFC 7638, SHA-256, base64url: no two devices have the same. */
  thumbprint: string;
  /** Id of who gave out the code; `console` for the server's own. */
  enrolledBy: string;
  enrolledAt: number;
  revokedBy: string | null;
  revokedAt: number | null;
}

export interface EnrolmentCode {
  /** SHA-256 of the code, lower-case hex. */
  codeHash: string;
  deviceName: string;
  issuedBy: string;
  expiresAt: number;
}

/** Enrolled devices and the codes that let one in. Every method may reject when the store does. */
export interface DeviceStore {
  /** In order of enrolment, the newest first. */
  all(): Promise<DeviceRecord[]>;
  one(id: string): Promise<DeviceRecord | null>;
  byThumbprint(thumbprint: string): Promise<DeviceRecord | null>;
  /** Rejects when the key is enrolled already. */
  add(device: DeviceRecord): Promise<void>;
  /** The first revocation stands. */
  revoke(id: string, by: string, at: number): Promise<void>;
  addCode(code: EnrolmentCode): Promise<void>;
  /** Uses up a code; null when there is none such, it was used before, or it has expired. */
  takeCode(codeHash: string, now: number): Promise<EnrolmentCode | null>;
  /** Forgets codes that expired before `before`. */
  forgetCodes(before: number): Promise<void>;
}
