import { z } from "zod";
import { aircraftTypeSchema } from "../types/schema.ts";
import { ALERT_KINDS } from "./alerts.ts";
import {
  actionSchema,
  engineSchema,
  powerSourceSchema,
  RUN_UP_ITEMS,
  sendSchema,
  standNeighboursSchema,
  traceCrankingSchema,
  traceSamplesSchema,
} from "./commands.ts";
import { conditionReportSchema } from "./conditionReport.ts";
import { CONDITION_IDS } from "./conditions.ts";
import { coolDownShortSchema } from "./coolDown.ts";
import { answerSchema, channelSchema, postSchema, stageSchema } from "./enums.ts";
import { equipmentSchema } from "./equipment.ts";
import { fieldSchema } from "./field.ts";
import { fittedSchema } from "./fitted.ts";
import { INSTRUMENT_READINGS, instrumentReadingSchema, rawSamplesSchema } from "./instruments.ts";
import { refusalSchema } from "./refusal.ts";
import { rehearsalSchema } from "./rehearsalSchema.ts";
import { rehearsedSchema } from "./rehearsedFact.ts";
import { seenAsideSchema } from "./seenAside.ts";
import { standingSchema } from "./standing.ts";

/**
 * Version of the form of an event. It is the only one so far: reading an older form has yet to be written, in
 * `evidence/read.ts`.
 */
export const EVENT_VERSION = 1;

const ms = z.number().int();
const ref = z.number().int().min(1);
const person = z.strictObject({ id: z.string(), name: z.string() });

/**
 * The order advised at that time, and how many points more the chosen order costs; null when the guard cannot walk it.
 */
const orderAdviceSchema = z.strictObject({ order: z.array(engineSchema), extra: z.number().nullable() });

export const VOID_CAUSES = [
  "expired",
  "epoch",
  "condition",
  "revoked",
  "readBackWrong",
  "stageLeft",
] as const;
export type VoidCause = (typeof VOID_CAUSES)[number];

/** A fact: something that happened. The envelope holds who did it, when and why. */
export const factSchema = z.discriminatedUnion("type", [
  z.strictObject({
    type: z.literal("planned"),
    aircraft: z.string(),
    place: z.string(),
    /** Set for a rehearsal: there is no real aircraft. */
    rehearsal: rehearsalSchema.optional(),
    /** Absent: a start. */
    purpose: z.literal("return").optional(),
    aircraftType: aircraftTypeSchema,
    /** SHA-256 of the seal of the type's version, hexadecimal. Absent in older records. */
    typeSeal: z
      .string()
      .regex(/^[0-9a-f]{64}$/)
      .optional(),
    /** The engines, propellers and starters fitted then, as the house's register had them. */
    fitted: z.array(fittedSchema).optional(),
    /** The equipment allocated to the start, as the house's register had it then. */
    equipment: z.array(equipmentSchema).optional(),
    order: z.array(engineSchema),
    powerSource: powerSourceSchema,
    /** Degrees true of the nose, and the field's elevation: wind and density altitude are worked out from them. */
    headingDeg: z.number().min(0).max(360).optional(),
    elevationFt: z.number().min(-1500).max(20_000).optional(),
    neighbours: standNeighboursSchema.optional(),
    orderAdvice: orderAdviceSchema.optional(),
    /** The reason given for an order other than the advised one. */
    orderReason: z.string().optional(),
    /** The aircraft's open defects, brought from its earlier sessions. */
    defects: z
      .array(
        z.strictObject({
          id: z.string(),
          words: z.string(),
          engine: engineSchema.nullable(),
          barsStart: z.boolean(),
          at: ms,
          name: z.string(),
        }),
      )
      .optional(),
    /** The last time each engine ran, server milliseconds; null when nobody knows. */
    lastRan: z.array(ms.nullable()).optional(),
    /** The things that stood at the aircraft when the session was planned. */
    standing: standingSchema.optional(),
    /** Lightning and weather that other sessions on this field had reported. */
    field: fieldSchema.optional(),
    /** The house asks that another person inspects a mended defect. */
    inspectsDefects: z.literal(true).optional(),
    crew: z.strictObject({
      cockpit: person.nullable(),
      fireGuard: person.nullable(),
      groundPower: person.nullable(),
      supervisor: person.nullable(),
    }),
  }),
  z.strictObject({
    type: z.literal("planAmended"),
    order: z.array(engineSchema).optional(),
    powerSource: powerSourceSchema.optional(),
    headingDeg: z.number().min(0).max(360).optional(),
    orderAdvice: orderAdviceSchema.optional(),
    reason: z.string().optional(),
  }),
  /** Somebody at the stand read this label: the piece is there, with the facts that the register had then. */
  z.strictObject({ type: z.literal("equipmentShown"), equipment: equipmentSchema }),
  z.strictObject({ type: z.literal("stageReached"), stage: stageSchema, reason: z.string().optional() }),
  z.strictObject({ type: z.literal("briefed"), post: postSchema }),
  z.strictObject({
    type: z.literal("postTaken"),
    post: postSchema,
    /** claimed: it was vacant. accepted: it was offered. moved: the same person on another device. */
    how: z.enum(["claimed", "accepted", "moved"]),
    /** Until when the person is current for duty; null where no date is kept. */
    currentUntil: ms.nullable().optional(),
  }),
  z.strictObject({ type: z.literal("postOffered"), post: postSchema, to: z.string() }),
  z.strictObject({ type: z.literal("postLeft"), post: postSchema, reason: z.string().optional() }),
  sendSchema.extend({
    type: z.literal("sent"),
    expiresAt: ms.optional(),
    /** For a cranking: the lowest volts expected of the power source in use, V. */
    expectedVolts: z.number().optional(),
    basis: z.array(conditionReportSchema).optional(),
  }),
  z.strictObject({
    type: z.literal("answered"),
    signal: ref,
    answer: answerSchema,
    channel: channelSchema,
    engine: engineSchema.optional(),
    /** False when a read-back named another engine than the clearance. */
    right: z.boolean().optional(),
    note: z.string().optional(),
  }),
  z.strictObject({ type: z.literal("late"), signal: ref, level: z.union([z.literal(1), z.literal(2)]) }),
  z.strictObject({
    type: z.literal("clearanceVoid"),
    engine: engineSchema,
    clearance: ref,
    cause: z.enum(VOID_CAUSES),
    unmet: z.array(conditionReportSchema).optional(),
    /** An alert says it. Absent in older records. */
    alerts: z.literal(true).optional(),
  }),
  z.strictObject({ type: z.literal("requestWithdrawn"), engine: engineSchema, signal: ref }),
  z.strictObject({ type: z.literal("starterCooled"), engine: engineSchema }),
  z.strictObject({
    type: z.literal("reading"),
    gauge: z.string(),
    engine: engineSchema.optional(),
    reading: z.strictObject({ value: z.number(), unit: z.string() }),
  }),
  z.strictObject({
    type: z.literal("voltTraceGiven"),
    samples: traceSamplesSchema,
    cranking: traceCrankingSchema,
    /** Server milliseconds of the last sample, as well as the person could tell. */
    endedAt: ms,
  }),
  z.strictObject({
    type: z.literal("checked"),
    check: z.string(),
    reading: z.strictObject({ value: z.number(), unit: z.string() }).optional(),
    good: z.boolean(),
    note: z.string().optional(),
  }),
  z.strictObject({
    type: z.literal("cardAnswered"),
    item: z.string(),
    engine: engineSchema.optional(),
    good: z.boolean(),
    reading: z.strictObject({ value: z.number(), unit: z.string() }).optional(),
    /** Of an instrument that comes alive: seconds from the catch to the answer. */
    afterS: z.number().int().nonnegative().optional(),
    note: z.string().optional(),
  }),
  z.strictObject({ type: z.literal("cardRead"), item: z.string(), engine: engineSchema.optional() }),
  z.strictObject({
    type: z.literal("alertRaised"),
    kind: z.enum(ALERT_KINDS),
    engine: engineSchema.optional(),
    ref: ref.optional(),
    to: z.array(postSchema),
    /** Set when an alert is suppressed by design: the cause. */
    suppressedBy: z.literal("fire").optional(),
  }),
  z.strictObject({ type: z.literal("alertAcknowledged"), alert: ref, post: postSchema }),
  z.strictObject({ type: z.literal("alertEnded"), alert: ref }),
  z.strictObject({ type: z.literal("alertReset"), alert: ref }),
  z.strictObject({ type: z.literal("alertShelved"), alert: ref, post: postSchema, until: ms }),
  z.strictObject({ type: z.literal("alertUnshelved"), alert: ref, post: postSchema }),
  z.strictObject({ type: z.literal("alertUnsuppressed"), alert: ref }),
  /** An alert stayed unacknowledged too long and sounds again. */
  z.strictObject({ type: z.literal("alertAgain"), alert: ref }),
  /** A post it was addressed to is vacant: it now goes to these posts too. */
  z.strictObject({ type: z.literal("alertWidened"), alert: ref, to: z.array(postSchema) }),
  z.strictObject({ type: z.literal("present"), post: postSchema }),
  z.strictObject({ type: z.literal("presenceLapsed"), post: postSchema }),
  z.strictObject({ type: z.literal("silenceHeld"), posts: z.array(postSchema) }),
  z.strictObject({ type: z.literal("delivered"), signals: z.array(ref), post: postSchema }),
  z.strictObject({ type: z.literal("abandonAsked"), reason: z.string() }),
  z.strictObject({
    type: z.literal("overrideAsked"),
    condition: z.enum(CONDITION_IDS),
    engine: engineSchema,
    reason: z.string(),
    seen: seenAsideSchema.optional(),
  }),
  z.strictObject({ type: z.literal("overrideGiven"), override: ref, reason: z.string() }),
  z.strictObject({
    type: z.literal("overrideEnded"),
    override: ref,
    why: z.enum(["late", "epoch", "used", "stageLeft", "changed"]),
  }),
  z.strictObject({
    type: z.literal("bladesCounted"),
    engine: engineSchema,
    blades: z.number().int(),
    resistance: z.boolean(),
  }),
  z.strictObject({
    type: z.literal("weatherRead"),
    windKt: z.number(),
    gustKt: z.number().optional(),
    fromDeg: z.number().optional(),
    temperatureC: z.number().optional(),
    qnhHpa: z.number().optional(),
    dewPointC: z.number().optional(),
    /** Clockwise limits of a direction that swings, degrees. */
    swing: z.tuple([z.number(), z.number()]).optional(),
    /** The report tells of a thunderstorm: it counts as a flash of unknown distance at this moment. */
    thunder: z.literal(true).optional(),
    /** The report as pasted, and when it was observed, server milliseconds. */
    metar: z.string().optional(),
    observedAt: z.number().optional(),
  }),
  z.strictObject({
    type: z.literal("flashSeen"),
    miles: z.number().nullable(),
    /** The flash whose distance this gives: it was reported without one. */
    of: ref.optional(),
  }),
  z.strictObject({
    type: z.literal("runUpRead"),
    engine: engineSchema,
    item: z.enum(RUN_UP_ITEMS),
    reading: z.strictObject({ value: z.number(), unit: z.string() }),
  }),
  z.strictObject({
    type: z.literal("defectWritten"),
    words: z.string(),
    engine: engineSchema.optional(),
    barsStart: z.boolean(),
  }),
  z.strictObject({ type: z.literal("defectClosed"), defect: z.string(), reason: z.string() }),
  /** A defect was mended, and another person must still inspect it. It stays open until then. */
  z.strictObject({ type: z.literal("defectMended"), defect: z.string(), reason: z.string() }),
  z.strictObject({
    type: z.literal("drillStarted"),
    drill: z.string(),
    engine: engineSchema.optional(),
    /** The fire or alert that opened it; absent when a person did. */
    ref: ref.optional(),
  }),
  z.strictObject({
    type: z.literal("drillStepped"),
    run: ref,
    post: postSchema,
    step: z.number().int(),
    done: z.boolean(),
    note: z.string().optional(),
  }),
  z.strictObject({ type: z.literal("drillEnded"), run: ref, outcome: z.string() }),
  /** A limit of the type was passed, for whatever reason. The record keeps it for the inspection that follows. */
  z.strictObject({
    type: z.literal("exceeded"),
    engine: engineSchema,
    limit: z.enum(["starterTime", "oilFirst", "oilNormal"]),
    allowed: z.number(),
    found: z.number(),
    unit: z.literal("s"),
  }),
  /** An engine was stopped before its cool-down was over. */
  z.strictObject({
    type: z.literal("coolDownCut"),
    engine: engineSchema,
    /** The limits that were not reached; `found` is null for a gauge that nobody read at idle. */
    short: z.array(coolDownShortSchema).min(1),
  }),
  z.strictObject({
    type: z.literal("refused"),
    action: actionSchema,
    refusal: refusalSchema,
  }),
  /**
   * The aircraft's record changed elsewhere: another session, the ramp page or a supervisor added or ended something.
   */
  z.strictObject({ type: z.literal("aircraftKnown"), standing: standingSchema }),
  /** Another session on this field reported lightning or weather. */
  z.strictObject({ type: z.literal("fieldKnown"), field: fieldSchema }),
  /** The other aircraft at which this session's supervisor holds that post now. */
  z.strictObject({ type: z.literal("supervisesAlso"), aircraft: z.array(z.string()) }),
  /** Nobody confirmed in time that a fire is out: the first word lapses. */
  z.strictObject({ type: z.literal("fireOutLapsed"), fire: ref }),
  /** A reading of an instrument of the aircraft, sent by a service account. */
  z.strictObject({
    type: z.literal("instrumentsRead"),
    account: z.string(),
    name: z.string(),
    /** The first and the last sample, by the instrument's clock. */
    from: ms,
    to: ms,
    /** Absent when the samples could not be kept. */
    raw: rawSamplesSchema.optional(),
    readings: z.array(instrumentReadingSchema).min(1).max(INSTRUMENT_READINGS),
  }),
  /** A weather report that the field's own station sent by a service account. */
  z.strictObject({
    type: z.literal("stationRead"),
    account: z.string(),
    name: z.string(),
    metar: z.string(),
    observedAt: ms,
    thunder: z.literal(true).optional(),
  }),
  /** In a rehearsal alone: what its server says of the simulated world. */
  z.strictObject({ type: z.literal("rehearsed"), said: rehearsedSchema }),
  z.strictObject({ type: z.literal("restarted") }),
  z.strictObject({ type: z.literal("clockStepped"), by: ms }),
]);
export type Fact = z.infer<typeof factSchema>;
export type FactType = Fact["type"];
export type FactOf<T extends FactType> = Extract<Fact, { type: T }>;

export const actorSchema = z.discriminatedUnion("kind", [
  z.strictObject({
    kind: z.literal("person"),
    id: z.string(),
    name: z.string(),
    /** The post held at that moment, null for an observer. */
    post: postSchema.nullable(),
    device: z.string(),
  }),
  z.strictObject({ kind: z.literal("system") }),
]);
export type Actor = z.infer<typeof actorSchema>;

/** One recorded event. Its canonical bytes, with `prev` added, are what is stored and exported. */
export const eventSchema = z.strictObject({
  v: z.literal(EVENT_VERSION),
  session: z.string(),
  seq: ref,
  /** Server time, milliseconds since 1970. */
  at: ms,
  actor: actorSchema,
  /** The command that caused it, and a digest of that command's bytes; null when time or the server caused it. */
  command: z.string().nullable(),
  digest: z.string().nullable(),
  /** The panel's clock; not trusted. */
  clientAt: ms.nullable(),
  /** The event that led to this one. */
  cause: ref.nullable(),
  fact: factSchema,
});
export type SessionEvent = z.infer<typeof eventSchema>;
