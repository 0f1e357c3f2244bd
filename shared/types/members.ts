/** An object of unread JSON. */
export type Members = Readonly<Record<string, unknown>>;

export const isMembers = (v: unknown): v is Members =>
  typeof v === "object" && v !== null && !Array.isArray(v);
