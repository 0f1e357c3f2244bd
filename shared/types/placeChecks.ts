import type { Fault } from "./fault.ts";
import { faultText } from "./faultText.ts";
import type { AircraftType } from "./schema.ts";

/** Figures in a message are rounded to the centimetre. */
const cm = (metres: number) => Math.round(metres * 100) / 100;

/** Reports parts of the aircraft that stand where they cannot: propellers that overlap, engines off the wing. */
export function placeChecks(type: AircraftType, fault: Fault): void {
  const { plan, engines, propeller } = type;
  const { span, length, mainGearX, gearTrack, receptacle } = plan;
  const along = (x: number, path: string) => {
    if (x < 0) fault(path, faultText("aheadOfNose", cm(-x)));
    if (x > length) fault(path, faultText("aftOfTail", cm(x), length));
  };
  engines.forEach((engine, i) => {
    along(engine.x, `engines.${i}.x`);
    if (Math.abs(engine.y) > span / 2)
      fault(`engines.${i}.y`, faultText("offTheWing", engine.n, cm(Math.abs(engine.y)), span));
    const before = engines[i - 1];
    const apart = before && engine.y - before.y;
    // Discs that overlap seen from ahead are refused even where one is farther aft: no known aircraft is built so.
    if (apart !== undefined && apart > 0 && apart < propeller.diameter)
      fault(
        `engines.${i}.y`,
        faultText("propellersOverlap", before?.n ?? 0, engine.n, cm(apart), propeller.diameter),
      );
  });
  along(mainGearX, "plan.mainGearX");
  if (gearTrack > span) fault("plan.gearTrack", faultText("trackBeyondSpan", gearTrack, span));
  along(receptacle.x, "plan.receptacle.x");
  if (Math.abs(receptacle.y) > span / 2)
    fault("plan.receptacle.y", faultText("besideWing", cm(Math.abs(receptacle.y)), span));
}
