import type { FastifyPluginAsyncZod } from "fastify-type-provider-zod";
import { z } from "zod";
import { type House, overdueSchema } from "../../shared/house/house.ts";
import { HOUSE_STEPS } from "../../shared/house/steps.ts";
import { POSTS } from "../../shared/protocol/posts.ts";
import { line } from "../../shared/protocol/text.ts";
import { auditTo } from "../audit.ts";
import { newPersonSchema } from "../auth/new-person.ts";
import type { Proofs } from "../auth/proofs.ts";
import type { Clock } from "../clock.ts";
import type { FirstRun } from "../house/first-run.ts";
import { changeHouse, houseOf } from "../house/settings.ts";
import { stepsOf } from "../house/steps.ts";
import type { Directory } from "../store/directory.ts";
import type { EventStore } from "../store/events.ts";
import { named } from "./named.ts";
import { ifMatch, revisionOf, tagged } from "./revision.ts";
import { identityOf, proofOf, unproven } from "./signed-in.ts";

const tags = ["house"];

interface FirstRunRoutes {
  firstRun: FirstRun;
  directory: Directory;
  proofs: Proofs;
  /** Fewest characters of a PIN. */
  pinLength: number;
  perMinute: number;
}

/** Routes of a house in which nobody can sign in yet. */
export const firstRunRoutes: FastifyPluginAsyncZod<FirstRunRoutes> = async (
  app,
  { firstRun, directory, proofs, pinLength, perMinute },
) => {
  app.get(
    "/house",
    {
      schema: {
        operationId: "readHouse",
        tags,
        summary: "The name of this house, and whether its first supervisor is still to be entered",
        response: {
          200: z.object({ name: z.string().nullable(), firstRun: z.boolean(), pinLength: z.number() }),
        },
      },
    },
    async () => {
      const house = await directory.register.one("house", "house");
      return { name: house?.body.name ?? null, firstRun: await firstRun.isOpen(), pinLength };
    },
  );

  app.post(
    "/first-run",
    {
      config: {
        rateLimit: { max: perMinute, timeWindow: 60_000 },
        problems: ["notQualified", "proofNeeded", "taken"],
      },
      schema: {
        operationId: "beginHouse",
        tags,
        summary:
          "Enter the house's name and its first supervisor, from a device that the console enrolled, with a DPoP proof",
        body: z.strictObject({ house: line(60), person: newPersonSchema(pinLength) }),
        response: { 201: z.object({ id: z.string(), handle: z.string() }) },
      },
    },
    async (request, reply) => {
      const proof = await proofOf(request, proofs, null);
      if (proof?.is !== "proven") throw unproven();
      const person = await firstRun.begin(request.body, proof.thumbprint);
      auditTo(request.log).done("firstSupervisor", { person: person.id, address: request.ip });
      return reply.code(201).send(person);
    },
  );
};

const settings = named(
  "HouseSettings",
  z.strictObject({
    name: line(60),
    overdue: overdueSchema,
    inspectsDefects: z
      .boolean()
      .optional()
      .describe("Another person than the one who mended a defect must inspect it; unchanged where absent"),
  }),
);

const settingsOf = ({ name, overdue, inspectsDefects }: House) => ({ name, overdue, inspectsDefects });

/** Routes of the house's name and rules. Everybody may read them; supervisors change them. */
export const houseSettingsRoutes: FastifyPluginAsyncZod<{ directory: Directory; clock: Clock }> = async (
  app,
  deps,
) => {
  app.get(
    "/house/settings",
    {
      schema: {
        operationId: "readHouseSettings",
        tags,
        summary: "The house's name and rules; the revision is the entity tag",
        response: { 200: settings.extend({ revision: z.number().int() }) },
      },
    },
    async (_request, reply) => {
      const { body, revision } = await houseOf(deps.directory);
      return tagged(reply, { revision }).send({ ...settingsOf(body), revision });
    },
  );

  app.put(
    "/house/settings",
    {
      config: { problems: ["notQualified", "revisionNeeded", "stale"] },
      schema: {
        operationId: "changeHouseSettings",
        tags,
        summary: "Change the house's name and rules as they were read (If-Match)",
        headers: ifMatch,
        body: settings,
        response: { 200: z.object({ revision: z.number().int() }) },
      },
    },
    async (request, reply) => {
      const { person } = identityOf(request);
      const revision = revisionOf(request.headers["if-match"]);
      const entry = await changeHouse(deps, person, request.body, revision);
      auditTo(request.log).done("houseChanged", { person: person.id, path: "house/settings" });
      return tagged(reply, entry).send(entry);
    },
  );
};

/** Route that lists what a house still lacks before its first start, for everybody who is signed in. */
export const houseRoutes: FastifyPluginAsyncZod<{ directory: Directory; store: EventStore }> = async (
  app,
  { directory, store },
) => {
  app.get(
    "/house/steps",
    {
      schema: {
        operationId: "listHouseSteps",
        tags,
        summary: "The steps to the first start of this house, in order, and what each still lacks",
        response: {
          200: z
            .array(
              z.object({
                step: z.enum(HOUSE_STEPS),
                done: z.boolean(),
                lacks: z.array(z.enum(POSTS)),
                second: z.boolean(),
                draft: z.boolean(),
              }),
            )
            .max(HOUSE_STEPS.length),
        },
      },
    },
    () => stepsOf(directory, async () => (await store.sessions(1)).length),
  );
};
