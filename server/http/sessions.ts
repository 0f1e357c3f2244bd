import type { FastifyPluginAsyncZod } from "fastify-type-provider-zod";
import { z } from "zod";
import { readSealed } from "../../shared/evidence/read.ts";
import {
  crewSchema,
  engineSchema,
  powerSourceSchema,
  standNeighboursSchema,
} from "../../shared/protocol/commands.ts";
import { postSchema } from "../../shared/protocol/enums.ts";
import { labelSchema } from "../../shared/protocol/equipment.ts";
import { eventSchema } from "../../shared/protocol/events.ts";
import { isRehearsalId } from "../../shared/protocol/rehearsal.ts";
import { PURPOSES } from "../../shared/protocol/stages.ts";
import { idSchema, line } from "../../shared/protocol/text.ts";
import type { SessionState } from "../../shared/session/state.ts";
import { personOf } from "../auth/identity.ts";
import type { Clock } from "../clock.ts";
import type { Pseudonyms } from "../evidence/names.ts";
import { CODE_PATTERN } from "../ids.ts";
import type { Bounds } from "../live/person-bounds.ts";
import { NoSuchSession } from "../sessions/errors.ts";
import type { Planning } from "../sessions/planning.ts";
import type { Sessions } from "../sessions/sessions.ts";
import type { EventStore, SessionRow } from "../store/events.ts";
import { COMPRESSED } from "./compressed.ts";
import { named } from "./named.ts";
import { PAGE_ROWS } from "./pages.ts";
import { ProblemError } from "./problem.ts";
import { NEWEST_FIRST, newestPage, newestSchema } from "./session-pages.ts";
import { askerOf, identityOf } from "./signed-in.ts";

export interface SessionRoutesOptions {
  store: EventStore;
  sessions: Sessions;
  planning: Planning;
  names: Pseudonyms;
  clock: Clock;
  bounds: Bounds;
}

const idParams = z.strictObject({ id: idSchema });
const planned = named("PlannedSession", z.object({ id: z.string(), code: z.string() }));

/** A session in a list. */
export const listedSchema = named(
  "Session",
  z.object({
    id: z.string(),
    code: z.string(),
    aircraft: z.string(),
    typeName: z.string(),
    place: z.string(),
    stage: z.string(),
    createdAt: z.number(),
    closedAt: z.number().nullable().describe("Null while it is open"),
    headSeq: z.number(),
    needs: z.number(),
    offered: z.array(postSchema).describe("Posts that are offered to who asks"),
  }),
);

export const sessionRoutes: FastifyPluginAsyncZod<SessionRoutesOptions> = async (app, options) => {
  const { store, sessions, planning, names, clock, bounds } = options;

  app.get(
    "/sessions",
    {
      config: { scopes: ["readRecords", "readLive"] },
      schema: {
        operationId: "listSessions",
        tags: ["sessions"],
        summary: `Start sessions: those that run, then those planned, then those over, each newest first; ${PAGE_ROWS} at most`,
        description: NEWEST_FIRST,
        querystring: newestSchema,
        response: { 200: z.array(listedSchema).max(PAGE_ROWS) },
      },
    },
    async (request, reply) => {
      const offers = sessions.offersTo(askerOf(request));
      const shown = (row: SessionRow) => ({ ...row, offered: offers.get(row.id) ?? [] });
      const page = await newestPage(reply, request.query, (most, before) => store.sessions(most, before));
      if (page) return page.map(shown);
      // A start that runs must never fall off the list, however many are planned after it.
      const open = (await store.openSessions())
        .filter((row) => !isRehearsalId(row.id))
        .sort((a, b) => rank(a) - rank(b) || b.createdAt - a.createdAt);
      const rows = [...open, ...(await store.sessions(PAGE_ROWS))];
      const listed = [...new Map(rows.map((row) => [row.id, row])).values()].slice(0, PAGE_ROWS);
      return listed.map(shown);
    },
  );

  app.post(
    "/sessions",
    {
      config: { problems: ["faultyPlan", "idReused", "notQualified"] },
      schema: {
        operationId: "planSession",
        tags: ["sessions"],
        summary:
          "Plan a session, a start or a return; the same commandId again answers with the same session",
        body: z.strictObject({
          commandId: z.uuid(),
          aircraft: idSchema,
          typeVersion: z.number().int().min(1).optional(),
          place: line(80),
          purpose: z.enum(PURPOSES).optional(),
          order: z.array(engineSchema).min(1).max(8).optional(),
          orderReason: line(280).optional(),
          headingDeg: z.number().min(0).max(360).optional(),
          elevationFt: z.number().min(-1500).max(20_000).optional(),
          neighbours: standNeighboursSchema.optional(),
          equipment: z.array(labelSchema).max(20).optional().describe("Labels of the register"),
          powerSource: powerSourceSchema,
          crew: crewSchema,
        }),
        response: { 201: planned },
      },
    },
    async (request, reply) => {
      const result = await planning.plan(personOf(identityOf(request)), request.body);
      if (result.is === "idReused")
        throw new ProblemError("idReused", "This commandId planned another session: use a new one");
      if (result.is === "notQualified")
        throw new ProblemError("notQualified", "Those qualified for cockpit or supervisor plan a session");
      if (result.is === "tooMany") {
        const detail = `You planned ${result.open} sessions that are not over: end one first`;
        throw new ProblemError("tooMany", detail);
      }
      if (result.is === "faulty") {
        const detail = result.faults.map((f) => `${f.path}: ${f.message}`).join("; ");
        throw new ProblemError("faultyPlan", detail, { errors: result.faults });
      }
      return reply.code(201).send({ id: result.id, code: result.code });
    },
  );

  app.get(
    "/sessions/:id",
    {
      ...COMPRESSED,
      config: { problems: ["notFound"], scopes: ["readRecords", "readLive"] },
      schema: {
        operationId: "readSession",
        tags: ["sessions"],
        summary: "The session's state now, as every panel holds it",
        params: idParams,
        response: {
          200: z.object({
            head: z.number(),
            serverNow: z.number(),
            state: z.record(z.string(), z.unknown()).describe("SessionState"),
          }),
        },
      },
    },
    async (request) => {
      const { id } = request.params;
      const { readings } = bounds.of(askerOf(request), clock.now());
      if ((await sessions.isPutAway(id)) && !readings.take(clock.now()))
        throw new ProblemError("tooMany", "You opened many sessions that are over: wait a moment");
      const { state } = await sessions.get(id);
      return { head: state.seq, serverNow: clock.now(), state: plainRecord(state) };
    },
  );

  app.get(
    "/sessions/:id/events",
    {
      ...COMPRESSED,
      config: { problems: ["notFound"], scopes: ["readRecords", "readLive"] },
      schema: {
        operationId: "listEvents",
        tags: ["sessions"],
        summary: "Recorded events, in order",
        params: idParams,
        querystring: z.strictObject({
          since: z.coerce.number().int().nonnegative().default(0),
          limit: z.coerce.number().int().min(1).max(1000).default(500),
        }),
        response: { 200: z.object({ head: z.number(), events: z.array(eventSchema) }) },
      },
    },
    async (request) => {
      const { id } = request.params;
      const row = await store.session(id);
      if (!row) throw new NoSuchSession(`there is no session ${id}`);
      const stored = await store.read(id, request.query.since, request.query.limit);
      await names.loadFor(stored.map((e) => e.body));
      return { head: row.headSeq, events: stored.map((e) => readSealed(names.reveal(e.body)).event) };
    },
  );

  app.get(
    "/join/:code",
    {
      config: { problems: ["notFound"] },
      schema: {
        operationId: "findByCode",
        tags: ["sessions"],
        summary: "The session behind a join code",
        params: z.strictObject({
          code: z
            .string()
            .trim()
            .toUpperCase()
            .regex(CODE_PATTERN, "must be the six characters shown with the session"),
        }),
        response: { 200: z.object({ id: z.string(), aircraft: z.string() }) },
      },
    },
    async (request) => {
      const row = await store.sessionByCode(request.params.code);
      if (!row) throw new ProblemError("notFound", "No session has this code");
      return { id: row.id, aircraft: row.aircraft };
    },
  );
};

/** Those past their brief come first. */
const rank = ({ stage }: SessionRow): number => (stage === "plan" || stage === "brief" ? 1 : 0);

function plainRecord(state: SessionState): Record<string, unknown> {
  return { ...state };
}
