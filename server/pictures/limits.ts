/** Bounds on the pictures of defects that a server takes. */
export interface PictureLimits {
  perDefect: number;
  /** In the last 24 hours. */
  perPersonADay: number;
  /** All pictures together, in 1,000,000 bytes. */
  megabytes: number;
}

export const PICTURE_LIMITS: PictureLimits = { perDefect: 8, perPersonADay: 60, megabytes: 2_000 };

/** Largest file that is taken as a picture: several times what the panels send. */
export const PICTURE_BYTES = 4 * 1024 * 1024;
