import { z } from "zod";
import { inspectionSchema } from "../../shared/dues/inspection.ts";
import { startRowSchema } from "../../shared/history/row.ts";
import { houseAircraftSchema } from "../../shared/house/aircraft.ts";
import { channelMapSchema } from "../../shared/house/channels.ts";
import { currencySchema } from "../../shared/house/currency.ts";
import { houseEquipmentSchema } from "../../shared/house/equipment.ts";
import { overdueSchema } from "../../shared/house/house.ts";
import { scopeSchema } from "../../shared/house/serviceAccount.ts";
import { ALERT_KINDS } from "../../shared/protocol/alerts.ts";
import { crewSchema, standNeighboursSchema } from "../../shared/protocol/commands.ts";
import { conditionReportSchema } from "../../shared/protocol/conditionReport.ts";
import { CONDITION_IDS } from "../../shared/protocol/conditions.ts";
import {
  answerSchema,
  channelSchema,
  firePlaceSchema,
  postSchema,
  signalKindSchema,
  stageSchema,
} from "../../shared/protocol/enums.ts";
import { equipmentSchema } from "../../shared/protocol/equipment.ts";
import { actorSchema, eventSchema, factSchema } from "../../shared/protocol/events.ts";
import { fieldSchema } from "../../shared/protocol/field.ts";
import { fittedSchema } from "../../shared/protocol/fitted.ts";
import { quantitySchema, unitSchema } from "../../shared/protocol/quantity.ts";
import { recordActionSchema } from "../../shared/protocol/recordEvents.ts";
import { refusalSchema } from "../../shared/protocol/refusal.ts";
import { REFUSAL_REASONS } from "../../shared/protocol/refusals.ts";
import { FAULTS } from "../../shared/protocol/rehearsalFaults.ts";
import { controlsSchema } from "../../shared/protocol/rehearsedFact.ts";
import {
  attributionSchema,
  deferralSchema,
  engineHistorySchema,
  fireWordSchema,
  itemSchema,
  lastReportedSchema,
  mendedSchema,
  standingItemSchema,
  standingSchema,
} from "../../shared/protocol/standing.ts";
import { rehearsalScriptSchema } from "../../shared/rehearsal/script.ts";
import { bladeCountSchema } from "../../shared/types/blades.ts";
import { drillSchema } from "../../shared/types/drill.ts";
import { basisSchema, limitSchema, secondsSchema, sourceSchema } from "../../shared/types/limit.ts";
import { rampSchema } from "../../shared/types/ramp.ts";
import { aircraftTypeSchema } from "../../shared/types/schema.ts";
import { named } from "./named.ts";

const SHARED = {
  Post: postSchema,
  Stage: stageSchema,
  Unit: unitSchema,
  SignalKind: signalKindSchema,
  Channel: channelSchema,
  Answer: answerSchema,
  FirePlace: firePlaceSchema,
  ConditionId: z.enum(CONDITION_IDS),
  AlertKind: z.enum(ALERT_KINDS),
  RefusalReason: z.enum(REFUSAL_REASONS),
  RehearsalFault: z.enum(FAULTS),
  Quantity: quantitySchema,
  Attribution: attributionSchema,
  Crew: crewSchema,
  Neighbour: standNeighboursSchema.element,
  Field: fieldSchema,
  Controls: controlsSchema,
  Actor: actorSchema,
  SessionFact: factSchema,
  SessionEvent: eventSchema,
  Refusal: refusalSchema,
  ConditionReport: conditionReportSchema,
  RecordAction: recordActionSchema,
  Standing: standingSchema,
  StandingItem: standingItemSchema,
  ItemAtAircraft: itemSchema,
  FireWord: fireWordSchema,
  Deferral: deferralSchema,
  Mended: mendedSchema,
  EngineStanding: engineHistorySchema,
  LastReported: lastReportedSchema,
  Aircraft: houseAircraftSchema,
  FittedEngine: fittedSchema,
  Channels: channelMapSchema,
  Currency: currencySchema,
  CurrencyNeeds: currencySchema.shape.needs,
  Overdue: overdueSchema,
  Equipment: houseEquipmentSchema,
  EquipmentFacts: equipmentSchema,
  Inspection: inspectionSchema,
  InspectionInterval: inspectionSchema.shape.every,
  LastInspection: inspectionSchema.shape.last.unwrap(),
  Scope: scopeSchema,
  RehearsalScript: rehearsalScriptSchema,
  StartRow: startRowSchema,
  AircraftType: aircraftTypeSchema,
  NeighbourDistance: rampSchema.shape.distances.unwrap().shape.fuelling,
  CountAfterFailed: bladeCountSchema.options[0].shape.afterFailed.unwrap(),
  DrillStep: drillSchema.shape.cards.shape.cockpit.element,
  Basis: basisSchema,
  Source: sourceSchema,
  Limit: limitSchema,
  Seconds: secondsSchema,
} as const satisfies Record<string, z.ZodType>;

/** Names the schemas that the API shares with the rest of the program. */
export function nameShared(): void {
  for (const [name, schema] of Object.entries(SHARED)) named(name, schema);
}
