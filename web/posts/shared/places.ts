import type { AircraftType } from "../../../shared/types/schema.ts";

const WITHIN = { 1: [""], 2: [" outer", " inner"], 3: [" outer", " middle", " inner"] } as const;

/** Where an engine stands, never as a bare left or right: "port outer", "centre", "starboard inner". */
export function enginePlace(type: AircraftType, n: number): string | null {
  const engine = type.engines.find((e) => e.n === n);
  if (!engine) return null;
  if (engine.y === 0) return "centre";
  const side = engine.y < 0 ? "port" : "starboard";
  const same = type.engines
    .filter((e) => e.y !== 0 && e.y < 0 === engine.y < 0)
    .sort((a, b) => Math.abs(b.y) - Math.abs(a.y));
  const words = WITHIN[same.length as 1 | 2 | 3];
  const i = same.findIndex((e) => e.n === n);
  return words ? `${side}${words[i]}` : `${side}, ${i + 1} from the tip`;
}
