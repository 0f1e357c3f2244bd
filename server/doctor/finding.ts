/** The result of one check of the installation. */
export interface Finding {
  /** The checked part, in one or two words. */
  at: string;
  is: "ok" | "watch" | "bad";
  /** The result in words. */
  says: string;
  /** The remedy; absent when all is well. */
  todo?: string;
}

export const ok = (at: string, says: string): Finding => ({ at, is: "ok", says });
export const watch = (at: string, says: string, todo: string): Finding => ({ at, is: "watch", says, todo });
export const bad = (at: string, says: string, todo: string): Finding => ({ at, is: "bad", says, todo });
