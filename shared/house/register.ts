import type { z } from "zod";
import { inspectionSchema } from "../dues/inspection.ts";
import { houseAircraftSchema } from "./aircraft.ts";
import { begunTypeSchema } from "./begunType.ts";
import { channelsSchema } from "./channels.ts";
import { currencySchema } from "./currency.ts";
import { houseEquipmentSchema } from "./equipment.ts";
import { houseSchema } from "./house.ts";
import { houseScriptSchema } from "./script.ts";
import { serviceAccountSchema } from "./serviceAccount.ts";

/** The kinds of entries in the register, with the schema of each. Reading, writing and the stores follow this table. */
export const REGISTER = {
  house: houseSchema,
  aircraft: houseAircraftSchema,
  equipment: houseEquipmentSchema,
  currency: currencySchema,
  begunType: begunTypeSchema,
  inspection: inspectionSchema,
  serviceAccount: serviceAccountSchema,
  channels: channelsSchema,
  script: houseScriptSchema,
} as const satisfies Record<string, z.ZodType<{ id: string }>>;

export type RegisterKind = keyof typeof REGISTER;
export type Registered<K extends RegisterKind> = z.infer<(typeof REGISTER)[K]>;

/**
 * One state of something in the register. A change adds the next revision; no revision is ever changed or removed, so
 * that the register is its own history.
 */
export interface RegisterEntry<K extends RegisterKind = RegisterKind> {
  kind: K;
  id: string;
  /** Contiguous from 1. */
  revision: number;
  /** Server milliseconds. */
  at: number;
  /** Id of the person who made the change; `console` for the server's console, `program` for what came with it. */
  by: string;
  /** The reason, for a change that needs one. */
  reason: string | null;
  body: Registered<K>;
}

/** Returns the first entry of something. */
export function firstEntry<K extends RegisterKind>(
  kind: K,
  body: Registered<K>,
  by: string,
  at: number,
): RegisterEntry<K> {
  return { kind, id: body.id, revision: 1, at, by, reason: null, body };
}
