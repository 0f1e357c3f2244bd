import type { FastifyReply } from "fastify";
import type { FastifyPluginAsyncZod } from "fastify-type-provider-zod";
import { z } from "zod";
import { idSchema, line } from "../../shared/protocol/text.ts";
import { aircraftTypeJsonSchema } from "../../shared/types/jsonSchema.ts";
import { aircraftTypeSchema } from "../../shared/types/schema.ts";
import { writeTransfer } from "../../shared/types/transfer.ts";
import { auditTo } from "../audit.ts";
import type { SignIns } from "../auth/sign-ins.ts";
import type { Directory, TypeVersion } from "../store/directory.ts";
import type { DraftPlace, TypeDrafts } from "../types/drafts.ts";
import { TypeRefused } from "../types/refused.ts";
import type { TypeSeals } from "../types/seals.ts";
import { COMPRESSED } from "./compressed.ts";
import { download } from "./download.ts";
import { named } from "./named.ts";
import { pageOf, pageSchema } from "./pages.ts";
import { ifMatch, revisionOf, tagged } from "./revision.ts";
import { pinSchema, rightPin } from "./sign-in.ts";
import { identityOf } from "./signed-in.ts";
import { typeVersionView } from "./views.ts";

/** Largest aircraft type in bytes: three times the largest of the demo. */
export const TYPE_BYTES = 192 * 1024;

/** Reading a type takes longer than most requests. */
const config = { costly: true };

const versionNumber = z.coerce.number().int().min(1).max(1_000_000);
const place = z.strictObject({ id: idSchema, version: versionNumber });
const placed = named("TypePlace", z.object({ id: z.string(), version: z.number() }));
const anything = z.unknown().describe("An aircraft type, as GET /api/types/schema describes it");

const fault = named("Fault", z.object({ path: z.string(), message: z.string() }));

const tags = ["types"];

interface TypeRoutes {
  directory: Directory;
  types: TypeDrafts;
  seals: Pick<TypeSeals, "refuseChanged">;
  signIns: Pick<SignIns, "confirm">;
}

/** Routes for aircraft types. Everybody may read them; supervisors draft and approve them. */
export const typeRoutes: FastifyPluginAsyncZod<TypeRoutes> = async (app, options) => {
  const { directory, types, seals, signIns } = options;
  const found = async (id: string, version: number): Promise<TypeVersion> => {
    await seals.refuseChanged(id, version);
    const one = await directory.type(id, version);
    if (!one) throw new TypeRefused("notFound", `There is no version ${version} of a type ${id}`);
    return one;
  };

  app.get(
    "/types",
    {
      schema: {
        operationId: "listTypes",
        tags,
        summary: "Every version of every type, by id, the oldest first",
        querystring: pageSchema,
        response: { 200: z.array(typeVersionView) },
      },
    },
    async (request, reply) =>
      pageOf(reply, request.query, await directory.types(), {
        // Digits of one length, so that version 10 comes after version 9.
        of: ({ id, version }) => [0, `${id} ${String(version).padStart(7, "0")}`],
      }),
  );

  const schema = aircraftTypeJsonSchema();
  app.get(
    "/types/schema",
    {
      schema: {
        operationId: "readTypeSchema",
        tags,
        summary: "The shape of a type: JSON Schema, draft 2020-12",
        response: { 200: z.record(z.string(), z.unknown()) },
      },
    },
    async (_request, reply) => reply.header("content-type", "application/schema+json").send(schema),
  );

  app.get(
    "/types/:id/:version",
    {
      ...COMPRESSED,
      config: { problems: ["notAsApproved", "notFound"] },
      schema: {
        operationId: "readType",
        tags,
        summary: "One version, with the source of every figure; its revision is the entity tag",
        params: place,
        response: { 200: aircraftTypeSchema },
      },
    },
    async (request, reply) => {
      const one = await found(request.params.id, request.params.version);
      return tagged(reply, one).send(one.type);
    },
  );

  app.get(
    "/types/:id/:version/export",
    {
      config: { problems: ["notAsApproved", "notFound"] },
      schema: {
        operationId: "exportType",
        tags,
        summary: "One version as a file for another installation: canonical JSON with a caution",
        params: place,
        response: { 200: download("The file") },
      },
      // Send the canonical bytes unchanged: a serializer would write them anew.
      serializerCompiler: () => String,
    },
    async (request, reply) => {
      const { id, version } = request.params;
      const one = await found(id, version);
      return reply
        .header("content-type", "application/json; charset=utf-8")
        .header("content-disposition", `attachment; filename="chockside-type-${id}-${version}.json"`)
        .send(writeTransfer(one.type));
    },
  );

  app.post(
    "/types/validate",
    {
      bodyLimit: TYPE_BYTES,
      config: { ...config, problems: ["notQualified"] },
      schema: {
        operationId: "validateType",
        tags,
        summary:
          "The first 200 things wrong with a type, and its figures far from every published one, each with its path and in words; for those qualified as supervisor",
        body: anything,
        response: { 200: z.object({ faults: z.array(fault), warnings: z.array(fault) }) },
      },
    },
    (request) => types.judge(identityOf(request).person, request.body),
  );

  app.post(
    "/types",
    {
      config: { problems: ["notFound", "notQualified", "taken"] },
      schema: {
        operationId: "copyType",
        tags,
        summary: "Begin a new type with the figures of another",
        body: z.strictObject({ id: idSchema, name: line(60), from: place }),
        response: { 201: placed },
      },
    },
    async (request, reply) => {
      const { from, ...to } = request.body;
      return created(reply, await types.begin(identityOf(request).person, to, from));
    },
  );

  app.post(
    "/types/import",
    {
      bodyLimit: TYPE_BYTES,
      config: { ...config, problems: ["faultyType", "notQualified"] },
      schema: {
        operationId: "importType",
        tags,
        summary: "Make a draft of an exported file; refused with every fault named",
        body: z.unknown().describe("What GET /api/types/:id/:version/export gave"),
        response: { 201: placed },
      },
    },
    async (request, reply) => created(reply, await types.import(identityOf(request).person, request.body)),
  );

  app.post(
    "/types/:id/drafts",
    {
      config: { problems: ["notAsApproved", "notFound", "notQualified"] },
      schema: {
        operationId: "draftNextVersion",
        tags,
        summary: "Make a draft: the next version, with the figures of an earlier one",
        params: z.strictObject({ id: idSchema }),
        body: z.strictObject({ from: versionNumber }),
        response: { 201: placed },
      },
    },
    async (request, reply) =>
      created(reply, await types.draft(identityOf(request).person, request.params.id, request.body.from)),
  );

  app.put(
    "/types/:id/:version",
    {
      bodyLimit: TYPE_BYTES,
      config: {
        ...config,
        problems: ["approved", "faultyType", "notFound", "notQualified", "revisionNeeded", "stale"],
      },
      schema: {
        operationId: "changeDraft",
        tags,
        summary: "Replace a draft's figures, if nobody changed it since it was read (If-Match)",
        params: place,
        headers: ifMatch,
        body: anything,
        response: { 200: placed },
      },
    },
    async (request, reply) => {
      const { id, version } = request.params;
      const revision = revisionOf(request.headers["if-match"]);
      const now = await types.change(identityOf(request).person, id, version, revision, request.body);
      return tagged(reply, now).send({ id, version });
    },
  );

  app.delete(
    "/types/:id/:version",
    {
      config: {
        problems: ["approved", "notFound", "notQualified", "revisionNeeded", "stale", "wrongMediaType"],
      },
      schema: {
        operationId: "discardDraft",
        tags,
        summary: "Discard a draft as it was read (If-Match); its number is not used again",
        params: place,
        headers: ifMatch,
        response: { 204: z.null() },
      },
    },
    async (request, reply) => {
      const { id, version } = request.params;
      const revision = revisionOf(request.headers["if-match"]);
      const { person, device } = identityOf(request);
      await types.discard(person, id, version, revision);
      const path = `${id}/${version}`;
      auditTo(request.log).done("draftDiscarded", { person: person.id, device: device.id, path });
      return reply.code(204).send(null);
    },
  );

  app.post(
    "/types/:id/:version/approval",
    {
      config: {
        problems: [
          "approved",
          "faultyType",
          "locked",
          "notFound",
          "notQualified",
          "overtaken",
          "ownWork",
          "revisionNeeded",
          "stale",
          "wrongPin",
        ],
      },
      schema: {
        operationId: "approveDraft",
        tags,
        summary:
          "Approve a draft as it was read (If-Match), with one's PIN again; never by one who had a hand in it",
        params: place,
        headers: ifMatch,
        body: z.strictObject({ pin: pinSchema }),
        response: { 200: placed },
      },
    },
    async (request, reply) => {
      const { id, version } = request.params;
      const revision = revisionOf(request.headers["if-match"]);
      const identity = identityOf(request);
      const detail = `That is not ${identity.person.name}'s PIN: nothing was approved`;
      rightPin(await signIns.confirm(identity, request.body.pin), detail);
      const now = await types.approve(identity.person, id, version, revision);
      const path = `${id}/${version}`;
      auditTo(request.log).done("typeApproved", { person: identity.person.id, path });
      return tagged(reply, now).send({ id, version });
    },
  );
};

function created<R extends FastifyReply>(reply: R, made: DraftPlace) {
  return tagged(reply, made).code(201).send({ id: made.id, version: made.version });
}
