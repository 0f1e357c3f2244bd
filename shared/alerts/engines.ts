import { choice } from "../asks/ask.ts";
import { send } from "../asks/send.ts";
import { type Engine, plain } from "../engine/life.ts";
import { isArcUnsafe, isRevoked } from "../engine/unsafe.ts";
import { POSTS } from "../protocol/posts.ts";
import type { SessionState } from "../session/state.ts";
import type { AlertDefinition } from "./definition.ts";

/** The cockpit disengages the starter, whether or not the engine caught. */
const releases: AlertDefinition["acts"] = {
  post: "cockpit",
  choices: (_state, n) => [
    choice("releasedAbandoned", "no", send("startAbandoned", n)),
    choice("releasedCaught", "plain", send("caught", n)),
  ],
};

/** The starter is held past the type's limit. */
export const starterLimit: AlertDefinition<"starterLimit"> = {
  to: ["cockpit"],
  priority: "warning",
  latching: false,
  shelvable: false,
  acts: releases,
  trigger: null,
  about: "engine",
  begins(_state, engine, now) {
    const life = plain(engine.life);
    return life.is === "cranking" && now > life.limitAt && !life.limitSaid;
  },
  lasts: (_state, engine) => plain(engine.life).is === "cranking",
  remember: (life) => (life.is === "cranking" ? { ...life, limitSaid: true } : life),
  fireSuppresses: true,
};

export const turningUncleared: AlertDefinition<"turningUncleared"> = {
  to: POSTS,
  priority: "alarm",
  latching: false,
  shelvable: false,
  acts: null,
  trigger: "alert:turningUncleared",
  about: "engine",
  begins: (_state, engine) => engine.life.is !== "fire" && cranksUncleared(engine),
  lasts: (_state, engine) => cranksUncleared(engine),
  remember: null,
  fireSuppresses: false,
};

/** An engine between starter and stable with no guard reported at it. */
export const guardMissing: AlertDefinition<"guardMissing"> = {
  to: POSTS,
  priority: "alarm",
  latching: false,
  shelvable: false,
  acts: null,
  trigger: "alert:guardMissing",
  about: "engine",
  begins: isUnguarded,
  lasts: isUnguarded,
  remember: null,
  fireSuppresses: false,
};

/**
 * The arc of an engine that turns is reported not clear. An emergency: somebody may be at the propeller, and only the
 * cockpit can stop it.
 */
export const arcUnsafe: AlertDefinition<"arcUnsafe"> = {
  to: POSTS,
  priority: "emergency",
  latching: false,
  shelvable: false,
  // The cockpit is asked to stop it by an ask of its own, which outlasts "Seen".
  acts: null,
  trigger: "alert:arcUnsafe",
  about: "engine",
  begins: isArcUnsafe,
  lasts: isArcUnsafe,
  remember: null,
  fireSuppresses: false,
};

/** The clearance was taken back too late. An alarm, as for an engine that turns uncleared: somebody wanted it not to turn. */
export const revokedTurning: AlertDefinition<"revokedTurning"> = {
  to: POSTS,
  priority: "alarm",
  latching: false,
  shelvable: false,
  // The cockpit is asked to stop it by an ask of its own, which outlasts "Seen".
  acts: null,
  trigger: "alert:revokedTurning",
  about: "engine",
  begins: (_state, engine) => isRevoked(engine),
  lasts: (_state, engine) => isRevoked(engine),
  remember: null,
  fireSuppresses: false,
};

function cranksUncleared(engine: Engine): boolean {
  const life = plain(engine.life);
  return life.is === "cranking" && !life.cleared;
}

function isUnguarded(state: SessionState, engine: Engine): boolean {
  const is = plain(engine.life).is;
  return (is === "cranking" || is === "caught" || is === "running") && state.guard?.engine !== engine.n;
}
