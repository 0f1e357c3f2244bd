/** An answer of the generated client: the reply with its body read. */
export interface Answer<T> extends Response {
  data: T;
}

interface How {
  signal?: AbortSignal;
  format?: "json" | "text";
}

/**
 * The part of the generated client that a wall display and a maintenance program use. A test has the compiler hold it
 * to the client.
 */
export interface Client {
  listSessions(
    query?: { limit?: number; before?: string },
    how?: How,
  ): Promise<Answer<{ id: string; aircraft: string; closedAt: number | null; offered: string[] }[]>>;
  listEvents(
    id: string,
    query?: { since?: number; limit?: number },
    how?: How,
  ): Promise<Answer<{ head: number; events: { seq: number; fact: { type: string } }[] }>>;
  exportSession(id: string, query?: { as?: "ndjson" | "json" | "csv" }, how?: How): Promise<Answer<unknown>>;
  readEvidenceKey(how?: How): Promise<Answer<{ algorithm: "Ed25519"; publicKey: string }>>;
  followLive(query?: { session?: string; aircraft?: string }, how?: How): Promise<Answer<string>>;
}
