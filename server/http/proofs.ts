import type { FastifyPluginAsyncZod } from "fastify-type-provider-zod";
import { z } from "zod";
import { leafHash } from "../../shared/evidence/merkle.ts";
import { consistencyProof, inclusionProof } from "../../shared/evidence/merkleProof.ts";
import { toHex, utf8 } from "../../shared/evidence/note.ts";
import { idSchema } from "../../shared/protocol/text.ts";
import { leavesOf } from "../evidence/leaves.ts";
import type { Notary } from "../evidence/notary.ts";
import { noteTools } from "../evidence/note-tools.ts";
import { NoSuchSession } from "../sessions/errors.ts";
import type { EventStore, SessionRow } from "../store/events.ts";
import { text } from "./download.ts";
import { ProblemError } from "./problem.ts";

const params = z.strictObject({ id: idSchema });
const count = z.coerce.number().int().min(1);
const hex = z.string().regex(/^[0-9a-f]*$/);

/**
 * Routes by which anybody who trusts the public key can check a record against its signed checkpoints (RFC 9162
 * section 2.1).
 */
export const proofRoutes: FastifyPluginAsyncZod<{ store: EventStore; notary: Notary }> = async (
  app,
  { store, notary },
) => {
  async function rowOf(id: string): Promise<SessionRow> {
    const row = await store.session(id);
    if (!row) throw new NoSuchSession(`there is no session ${id}`);
    return row;
  }

  /**
   * Returns `size`.
   * @throws ProblemError when the session has fewer events
   */
  function within(size: number, { headSeq }: SessionRow): number {
    if (size <= headSeq) return size;
    throw new ProblemError("malformed", `The session has ${headSeq} events: ask for no more of them`);
  }

  app.get(
    "/evidence/key",
    {
      config: { scopes: ["readRecords"] },
      schema: {
        operationId: "readEvidenceKey",
        tags: ["evidence"],
        summary: "The public key that signs this server's checkpoints: note it down, and keep it elsewhere",
        response: {
          200: z.object({
            algorithm: z.literal("Ed25519"),
            publicKey: hex.describe("32 bytes, hexadecimal"),
          }),
        },
      },
    },
    async () => ({ algorithm: "Ed25519" as const, publicKey: notary.signer.publicHex }),
  );

  app.get(
    "/sessions/:id/checkpoint",
    {
      config: { costly: true, problems: ["notFound"], scopes: ["readRecords"] },
      schema: {
        operationId: "readCheckpoint",
        tags: ["evidence"],
        summary: "A signed checkpoint of the record as it is now (C2SP tlog-checkpoint), to keep elsewhere",
        params,
        produces: ["text/plain"],
        response: { 200: text("A signed note") },
      },
      serializerCompiler: () => String,
    },
    async (request, reply) => {
      const { id, headSeq } = await rowOf(request.params.id);
      const { note } = await notary.at(id, headSeq);
      return reply.header("content-type", "text/plain; charset=utf-8").send(note);
    },
  );

  app.get(
    "/sessions/:id/proofs/inclusion",
    {
      config: { costly: true, scopes: ["readRecords"] },
      schema: {
        operationId: "proveInclusion",
        tags: ["evidence"],
        summary: "Shows that an event stands in the record that a checkpoint signed",
        params,
        querystring: z.strictObject({ event: count, size: count }),
        response: {
          200: z.object({ event: z.number(), size: z.number(), leaf: hex, proof: z.array(hex) }),
        },
      },
    },
    async (request) => {
      const { event, size } = request.query;
      const row = await rowOf(request.params.id);
      if (within(size, row) < event)
        throw new ProblemError("malformed", `Event ${event} is not among the first ${size}`);
      const bodies = await leavesOf(store, row.id, size);
      const leaves = bodies.map((body) => leafHash(utf8(body), noteTools.hash));
      const proof = inclusionProof(leaves, event - 1, noteTools.hash);
      const leaf = toHex(leaves[event - 1] ?? new Uint8Array());
      return { event, size, leaf, proof: proof.map(toHex) };
    },
  );

  app.get(
    "/sessions/:id/proofs/consistency",
    {
      config: { costly: true, scopes: ["readRecords"] },
      schema: {
        operationId: "proveConsistency",
        tags: ["evidence"],
        summary: "Shows that the record of one checkpoint grew into that of a later one by adding alone",
        params,
        querystring: z.strictObject({ from: count, to: count }),
        response: { 200: z.object({ from: z.number(), to: z.number(), proof: z.array(hex) }) },
      },
    },
    async (request) => {
      const { from, to } = request.query;
      const row = await rowOf(request.params.id);
      if (within(to, row) < from)
        throw new ProblemError("malformed", `${from} events are no beginning of ${to}`);
      const bodies = await leavesOf(store, row.id, to);
      const leaves = bodies.map((body) => leafHash(utf8(body), noteTools.hash));
      return { from, to, proof: consistencyProof(leaves, from, noteTools.hash).map(toHex) };
    },
  );
};
