export interface SignInRecord {
  id: string;
  personId: string;
  deviceId: string;
  deviceName: string;
  /** SHA-256 of the token, lower-case hex. */
  tokenHash: string;
  /** RFC 7638 thumbprint of the key that must sign a proof with the token; null on a device without enrolment. */
  thumbprint: string | null;
  createdAt: number;
  expiresAt: number;
  usedAt: number;
  revokedAt: number | null;
}
