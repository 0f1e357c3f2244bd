import type { Choice } from "../asks/ask.ts";
import type { Engine, PlainLife } from "../engine/life.ts";
import type { AlertKind, DrillAlert } from "../protocol/alerts.ts";
import type { Post } from "../protocol/posts.ts";
import type { SessionState } from "../session/state.ts";

/** Priorities after IMO MSC.302(87): emergency alarm, alarm, warning, caution. */
export type Priority = "emergency" | "alarm" | "warning" | "caution";

/** An alert of one engine. */
export interface EngineAlert {
  about: "engine";
  begins(state: SessionState, engine: Engine, now: number): boolean;
  /** Whether it is still true. */
  lasts(state: SessionState, engine: Engine): boolean;
  /**
   * For an alert that is raised once an attempt: the engine's life with that remembered; `begins` asks for it. Null for
   * one that is raised whenever it begins and is not active.
   */
  remember: ((life: PlainLife) => PlainLife) | null;
  /** Under a fire it is recorded and told to nobody, because the fire's drill comes first. */
  fireSuppresses: boolean;
}

/** An alert of the whole aircraft: raised when it is true and not active. */
export interface AircraftAlert {
  about: "aircraft";
  lasts(state: SessionState): boolean;
}

/** An alert of one stop or signal, raised once for each. */
export interface MessageAlert {
  about: "message";
  /** Those it is raised for. */
  begun(state: SessionState): readonly { ref: number; engine?: number }[];
  /** Numbers of those that still stand or are still open. */
  lasting(state: SessionState): readonly number[];
}

/** One kind of alert, whole. */
export type AlertDefinition<Kind extends AlertKind = AlertKind> = {
  to: readonly Post[];
  priority: Priority;
  /** Stays after its cause has gone until acknowledged and reset. Never shelved or suppressed. */
  latching: boolean;
  /** False for one that somebody must act on now. What latches is never shelved either. */
  shelvable: boolean;
  /** The post that can end it and what that post does, offered in place of "Seen" while it lasts; null for none. */
  acts: { post: Post; choices(state: SessionState, engine: number): Choice[] } | null;
  /** What a type's drill names to be opened by it; null where no drill can be. */
  trigger: Kind extends DrillAlert ? `alert:${Kind}` : null;
} & (EngineAlert | AircraftAlert | MessageAlert);
