import { engineStands } from "../../../shared/models/facing.ts";

/** Where an engine stands, never as a bare left or right: "port outboard", "centre". */
export function enginePlace(n: number, count: number): string {
  const { side, span } = engineStands(n, count);
  return span === null ? side : `${side} ${span}`;
}
