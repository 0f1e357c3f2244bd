import { Stage } from "../../seed/crew/stage.ts";
import type { Script } from "../../shared/partners/script.ts";
import type { AircraftType } from "../../shared/types/schema.ts";
import { readAircraftType } from "../../shared/types/validate.ts";
import { playOut } from "../seed/stage.ts";
import { mutated } from "./mutate.ts";

/** A crew whose every engine fires at its first attempt, so that no rest of a starter is waited for. */
const SCRIPT: Script = { seed: 3, pace: 1, cart: "Bal Maiden" };

/** The judgement of one changed type: refused with places, played to its end, or wrong in words. */
export type Judged = "refused" | "started" | { wrong: string };

/** Changes a type in one place. A change must be refused with a place and words, or leave a type that can be started. */
export function judge(base: AircraftType, number: number): Judged {
  const { path, did, type } = mutated(base, number);
  const wrong = (why: string): Judged => ({ wrong: `${base.id} ${number}: ${path} ${did}: ${why}` });
  const read = readAircraftType(type);
  if ("faults" in read) {
    const unplaced = read.faults.find((f) => f.path === "" || f.message === "");
    return unplaced || read.faults.length === 0 ? wrong("refused without a place or words") : "refused";
  }
  const stage = new Stage(read.type, number % 2 === 0 ? "groundPower" : "batteries");
  stage.everyoneClaims();
  const stuck = playOut(stage, SCRIPT);
  return stuck === null ? "started" : wrong(stuck);
}
