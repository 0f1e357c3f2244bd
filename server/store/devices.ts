/** A device that was enrolled with its own key. */
export interface DeviceRecord {
  id: string;
  name: string;
  /** The public key as JSON Web Key (RFC 7517). */
  publicKey: string;
  /** RFC 7638, SHA-256, base64url. Unique among devices. */
  thumbprint: string;
  /** Id of the person who issued the code; `console` for the server's console. */
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

/** Enrolled devices and enrolment codes. Every method rejects when the database fails. */
export interface DeviceStore {
  /** Newest enrolment first. */
  all(): Promise<DeviceRecord[]>;
  one(id: string): Promise<DeviceRecord | null>;
  byThumbprint(thumbprint: string): Promise<DeviceRecord | null>;
  /** Rejects when the key is enrolled already. */
  add(device: DeviceRecord): Promise<void>;
  /** Has no effect on a revoked device. */
  revoke(id: string, by: string, at: number): Promise<void>;
  addCode(code: EnrolmentCode): Promise<void>;
  /** Uses up a code. Returns null when it is unknown, used or expired. */
  takeCode(codeHash: string, now: number): Promise<EnrolmentCode | null>;
  /** Deletes the unused codes of one issuer. */
  withdrawCodes(issuedBy: string): Promise<void>;
  /** Deletes codes that expired before `before`. */
  forgetCodes(before: number): Promise<void>;
}
