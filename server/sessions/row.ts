import { isOver, type SessionState } from "../../shared/session/state.ts";
import type { SessionRow } from "../store/events.ts";

/** The columns of a session's row that never change. */
export type RowBase = Pick<SessionRow, "code" | "planCommand" | "createdAt">;

/** Returns the session's row for its state. */
export function rowOf(base: RowBase, state: SessionState, headHash: string): SessionRow {
  return {
    id: state.id,
    code: base.code,
    planCommand: base.planCommand,
    createdAt: base.createdAt,
    aircraft: state.aircraft,
    typeId: state.type.id,
    typeVersion: state.type.version,
    typeName: state.type.name,
    place: state.place,
    stage: state.stage,
    needs:
      state.alerts.filter((a) => a.active).length +
      state.holds.length +
      state.cuts.length +
      state.fires.length,
    closedAt: isOver(state) ? state.stageSince : null,
    headSeq: state.seq,
    headHash,
    headAt: state.at,
  };
}
