import { choice } from "../asks/ask.ts";
import { send } from "../asks/send.ts";
import { plain } from "../engine/life.ts";
import { oilLost as isOilLost } from "../engine/oilLost.ts";
import { reading } from "../readings/ask.ts";
import type { AlertDefinition } from "./definition.ts";

/** The cockpit shuts the engine down, or reads the pressure that came. */
const oilActs: AlertDefinition["acts"] = {
  post: "cockpit",
  choices: (state, n) => [
    choice("shutDown", "no", send("shutDown", n)),
    { ...reading(state, "oilPressure", n), word: "pressureUp", tone: "plain" },
  ],
};

/** No oil pressure at all within the type's time. */
export const oilFirstLate: AlertDefinition<"oilFirstLate"> = {
  to: ["cockpit", "supervisor"],
  priority: "alarm",
  latching: false,
  shelvable: false,
  acts: oilActs,
  trigger: "alert:oilFirstLate",
  about: "engine",
  begins(_state, engine, now) {
    const life = plain(engine.life);
    return life.is === "caught" && life.firstOilAt === null && now > life.firstDueAt && !life.firstLateSaid;
  },
  lasts(_state, engine) {
    const life = plain(engine.life);
    return life.is === "caught" && life.firstOilAt === null;
  },
  remember: (life) => (life.is === "caught" ? { ...life, firstLateSaid: true } : life),
  fireSuppresses: false,
};

/** Oil pressure not normal within the type's time. */
export const oilNormalLate: AlertDefinition<"oilNormalLate"> = {
  to: ["cockpit", "supervisor"],
  priority: "alarm",
  latching: false,
  shelvable: false,
  acts: oilActs,
  trigger: "alert:oilNormalLate",
  about: "engine",
  begins(_state, engine, now) {
    const life = plain(engine.life);
    return life.is === "caught" && now > life.normalDueAt && !life.normalLateSaid;
  },
  lasts: (_state, engine) => plain(engine.life).is === "caught",
  remember: (life) => (life.is === "caught" ? { ...life, normalLateSaid: true } : life),
  fireSuppresses: false,
};

/** Oil pressure that had come and is gone. An alarm as for pressure that never comes: the engine wrecks itself as fast. */
export const oilLost: AlertDefinition<"oilLost"> = {
  to: ["cockpit", "supervisor"],
  priority: "alarm",
  latching: false,
  shelvable: false,
  // The cockpit is asked to stop it by an ask of its own, which outlasts "Seen".
  acts: null,
  trigger: "alert:oilLost",
  about: "engine",
  begins: (state, engine) => isOilLost(state, engine) !== null,
  lasts: (state, engine) => isOilLost(state, engine) !== null,
  remember: null,
  fireSuppresses: false,
};
