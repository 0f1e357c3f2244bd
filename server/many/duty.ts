/** A piece of work that is under way. */
export interface Job {
  close(): Promise<void>;
}

/** Lets one of several servers do a piece of work, and another one once it is gone. */
export interface Duty {
  /**
   * Begins the work whenever it is this server's turn, and closes it when it no longer is. Returns a function that gives
   * it up.
   */
  share(name: string, begin: () => Promise<Job>): () => Promise<void>;
}

/** The duty of a single server: every work is its own. */
export const ALONE: Duty = {
  share(_name, begin) {
    const job = begin();
    return async () => (await job).close();
  },
};
