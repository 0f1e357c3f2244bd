import type { Quantity } from "../protocol/quantity.ts";
import type { Check } from "../types/schema.ts";

/** The instruments that a partner reads. On null, the partner pretends a good figure. */
export interface World {
  /** @param engine null for a gauge of the whole aircraft */
  gauge(engine: number | null, gauge: string): Quantity | null;
  check(check: Check): Quantity | null;
  /** Says whether an engine on its starter still turns, or has caught. */
  crank(engine: number): "turning" | "caught";
  cartVolts(): Quantity | null;
  /** The lowest volts while a starter turned last. */
  crankingVolts(): Quantity | null;
  brakePressure(): Quantity | null;
}
