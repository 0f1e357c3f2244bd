import type { Inspection } from "../../shared/dues/inspection.ts";
import type { Currency } from "../../shared/house/currency.ts";
import type { HouseEquipment } from "../../shared/house/equipment.ts";
import type { Cart, Equipment } from "../../shared/protocol/equipment.ts";

/** A cart as a record has it: 28 V, one pair of 2/0 cables of 9.144 m, which is 60 ft out and back. */
export const CART: Cart = {
  ...{ id: "GPU-1", kind: "cart", name: "North cart", testedUntil: null },
  ...{ volts: 28, continuousA: 500, peakA: 1500 },
  cable: { size: "2/0", metres: 9.144, parallel: 1 },
  internalOhm: null,
};

export const BOTTLE: Extract<Equipment, { kind: "extinguisher" }> = {
  ...{ id: "EXT-3", kind: "extinguisher", name: "Wheeled bottle", agent: "CO2", chargeKg: 22.5 },
  ...{ weighedUntil: "2026-12-31", testedUntil: "2030-06-30" },
};

export const CHOCKS: Equipment = { id: "CHK-A", kind: "chocks", name: "Main wheels", testedUntil: null };

/** Returns the facts as the register keeps them, in service. */
export const keptAs = (facts: Equipment, over: object = {}): HouseEquipment => ({
  ...facts,
  ...{ place: null, notes: null, out: null },
  ...over,
});

const NOBODY = { cockpit: null, fireGuard: null, groundPower: null, supervisor: null };

/** Fire training: a date for each person; the guard needs it, and the cockpit is warned. */
export const FIRE: Currency = {
  ...{ id: "fire", name: "Fire training", recencyDays: null, retired: false },
  needs: { ...NOBODY, fireGuard: "bars", cockpit: "warns" },
};

/** Recency: a start at the post within 90 days. */
export const RECENT: Currency = {
  ...{ id: "recency", name: "Recency", recencyDays: 90, retired: false },
  needs: { ...NOBODY, fireGuard: "bars", cockpit: "bars" },
};

/** A yearly inspection of the whole aircraft, shown 30 days before. */
export const YEARLY: Inspection = {
  ...{ id: "yearly", aircraft: "CH-TST", engine: null, name: "Yearly inspection", source: "Manual, p. 5-1" },
  every: { by: "days", days: 365, ahead: 30 },
  last: { day: "2026-01-01", hours: null },
  retired: false,
};

/** An inspection of engine 2 each 50 hours, shown 5 hours before. */
export const FIFTY: Inspection = {
  ...{ id: "fifty", aircraft: "CH-TST", engine: 2, name: "50 hours", source: "Manual, p. 5-3" },
  every: { by: "hours", part: "engine", hours: 50, ahead: 5 },
  last: { day: "2026-10-01", hours: 400 },
  retired: false,
};
