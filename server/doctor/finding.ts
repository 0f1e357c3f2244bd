/** What one look at the installation found. */
export interface Finding {
  /** What was looked at, in a word or two. */
  at: string;
  is: "ok" | "watch" | "bad";
  /** What was found. */
  says: string;
  /** What to do about it; nothing where all is well. */
  todo?: string;
}

export const ok = (at: string, says: string): Finding => ({ at, is: "ok", says });
export const watch = (at: string, says: string, todo: string): Finding => ({ at, is: "watch", says, todo });
export const bad = (at: string, says: string, todo: string): Finding => ({ at, is: "bad", says, todo });
