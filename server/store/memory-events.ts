import { isRehearsalId } from "../../shared/protocol/rehearsal.ts";
import {
  type Append,
  type CheckpointRecord,
  ConcurrencyError,
  type EventStore,
  RECORD_STAGE,
  type RemovalRecord,
  type SessionHead,
  type SessionRow,
  type StoredEvent,
  StoreFailure,
} from "./events.ts";
import { headOf, type Moved, Moves } from "./moves.ts";

/** An event store in memory, to try Chockside out and for tests. */
export class MemoryEventStore implements EventStore {
  readonly #events = new Map<string, StoredEvent[]>();
  readonly #checkpoints = new Map<string, CheckpointRecord[]>();
  readonly #removals: RemovalRecord[] = [];
  readonly #rows = new Map<string, SessionRow>();
  readonly #moves = new Moves("memory");

  async append({ expected, events, row }: Append): Promise<void> {
    const known = this.#events.get(row.id) ?? [];
    const clashes =
      expected === 0 &&
      [...this.#rows.values()].some((r) => r.code === row.code || r.planCommand === row.planCommand);
    if (known.length !== expected || events[0]?.seq !== expected + 1 || clashes)
      throw new ConcurrencyError(row.id, expected);
    this.#events.set(row.id, [...known, ...events]);
    this.#rows.set(row.id, { ...row });
    this.#moves.note(row.id, headOf(row));
  }

  async read(session: string, since: number, limit: number): Promise<StoredEvent[]> {
    return (this.#events.get(session) ?? []).slice(since, since + limit);
  }

  async ofCommand(session: string, command: string): Promise<StoredEvent[]> {
    return (this.#events.get(session) ?? []).filter((event) => event.command === command);
  }

  async session(id: string): Promise<SessionRow | null> {
    return this.#rows.get(id) ?? null;
  }

  async sessionByCode(code: string): Promise<SessionRow | null> {
    return this.#find((r) => r.code === code);
  }

  async sessionByPlan(command: string): Promise<SessionRow | null> {
    return this.#find((r) => r.planCommand === command);
  }

  async sessions(limit: number, before?: Pick<SessionRow, "createdAt" | "id">): Promise<SessionRow[]> {
    return this.#newest((r) => r.stage !== RECORD_STAGE && !isRehearsalId(r.id), before).slice(0, limit);
  }

  async rehearsals(limit: number, before?: Pick<SessionRow, "createdAt" | "id">): Promise<SessionRow[]> {
    return this.#newest((r) => isRehearsalId(r.id), before).slice(0, limit);
  }

  async records(): Promise<SessionRow[]> {
    const rows = [...this.#rows.values()].filter((r) => r.stage === RECORD_STAGE);
    return rows.sort((a, b) => (a.id < b.id ? -1 : 1));
  }

  async lastSessionOf(aircraft: string): Promise<SessionRow | null> {
    return this.#newest((r) => r.stage !== RECORD_STAGE && r.aircraft === aircraft)[0] ?? null;
  }

  async sessionsOf(aircraft: string, limit: number): Promise<SessionRow[]> {
    const own = (r: SessionRow) =>
      r.stage !== RECORD_STAGE && !isRehearsalId(r.id) && r.aircraft === aircraft;
    return this.#newest(own).slice(0, limit);
  }

  async moved(mark: string | null): Promise<Moved> {
    const since = this.#moves.since(mark);
    if (since) return { all: false, ...since };
    return { all: true, heads: [...this.#rows.values()].map(headOf), gone: [], mark: this.#moves.mark };
  }

  async openSessions(): Promise<SessionRow[]> {
    return [...this.#rows.values()].filter((r) => r.closedAt === null);
  }

  async openHeads(): Promise<SessionHead[]> {
    return (await this.openSessions()).map(({ id, headSeq }) => ({ id, headSeq }));
  }

  async newestAt(): Promise<number> {
    return Math.max(0, ...[...this.#rows.values()].map((r) => r.headAt));
  }

  async addCheckpoint(checkpoint: CheckpointRecord): Promise<void> {
    const known = await this.checkpoints(checkpoint.session);
    if (known.some((c) => c.size === checkpoint.size)) return;
    const all = [...known, checkpoint].sort((a, b) => a.size - b.size);
    this.#checkpoints.set(checkpoint.session, all);
  }

  async checkpoints(session: string): Promise<CheckpointRecord[]> {
    return this.#checkpoints.get(session) ?? [];
  }

  async remove(session: string, removal: RemovalRecord): Promise<void> {
    if ((this.#rows.get(session)?.closedAt ?? null) === null)
      throw new StoreFailure(`session ${session} is not over`);
    await this.addRemoval(removal);
    for (const kept of [this.#rows, this.#events, this.#checkpoints]) kept.delete(session);
    this.#moves.note(session, null);
  }

  async addRemoval(removal: RemovalRecord): Promise<void> {
    this.#removals.push(removal);
  }

  async removals(): Promise<RemovalRecord[]> {
    return [...this.#removals];
  }

  async probe(): Promise<void> {}

  async close(): Promise<void> {}

  #newest(is: (row: SessionRow) => boolean, before?: Pick<SessionRow, "createdAt" | "id">): SessionRow[] {
    const isAfter = (r: SessionRow) =>
      !before || r.createdAt < before.createdAt || (r.createdAt === before.createdAt && r.id < before.id);
    return [...this.#rows.values()]
      .filter((row) => is(row) && isAfter(row))
      .sort((a, b) => b.createdAt - a.createdAt || (a.id < b.id ? 1 : -1));
  }

  #find(is: (row: SessionRow) => boolean): SessionRow | null {
    return [...this.#rows.values()].find(is) ?? null;
  }
}
