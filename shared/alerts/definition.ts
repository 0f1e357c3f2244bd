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
  /** Returns true while its cause stands. */
  lasts(state: SessionState, engine: Engine): boolean;
  /**
   * For an alert that is raised once per attempt: returns the engine's life with a mark that `begins` reads. Null for
   * an alert that is raised whenever it begins and is not active.
   */
  remember: ((life: PlainLife) => PlainLife) | null;
  /** Under a fire it is recorded but shown to nobody, because the fire's drill comes first. */
  fireSuppresses: boolean;
}

/** An alert of the whole aircraft: raised when it is true and not active. */
export interface AircraftAlert {
  about: "aircraft";
  lasts(state: SessionState, now: number): boolean;
}

/** An alert of one stop or signal, raised once for each. */
export interface MessageAlert {
  about: "message";
  /** Returns the stops or signals for which it is raised. */
  begun(state: SessionState): readonly { ref: number; engine?: number }[];
  /** Returns the numbers of those that are still open. */
  lasting(state: SessionState): readonly number[];
}

/** One kind of alert. */
export type AlertDefinition<Kind extends AlertKind = AlertKind> = {
  to: readonly Post[];
  priority: Priority;
  /** It stays after its cause is gone until it is acknowledged and reset. It is never shelved or suppressed. */
  latching: boolean;
  /** False for an alert on which a person must act now. A latching alert is never shelved either. */
  shelvable: boolean;
  /**
   * The post that can end it and the choices with which it does, offered instead of "Seen" while it lasts; null for
   * none.
   */
  acts: { post: Post; choices(state: SessionState, engine: number): Choice[] } | null;
  /** The trigger by which a type ties a drill to it; null where no drill can be. */
  trigger: Kind extends DrillAlert ? `alert:${Kind}` : null;
} & (EngineAlert | AircraftAlert | MessageAlert);
