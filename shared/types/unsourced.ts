import type { TypeFault } from "./fault.ts";
import { faultText } from "./faultText.ts";
import type { AircraftType } from "./schema.ts";

/**
 * Returns a fault for every measure that has no source. The schema lets these sources be absent, because types from
 * before they were asked for stay readable.
 */
export function unsourced({ plan, engines, propeller, ramp }: AircraftType): TypeFault[] {
  const waits = ramp?.guard?.waits;
  const measures = [
    { path: "plan", source: plan.source },
    ...engines.map((e, i) => ({ path: `engines.${i}`, source: e.source })),
    { path: "propeller", source: propeller.source },
    ...(waits ? [{ path: "ramp.guard.waits", source: waits.source }] : []),
  ];
  return measures.flatMap(({ path, source }) =>
    source === undefined ? [{ path: `${path}.source`, message: faultText("noSource") }] : [],
  );
}
