import { Readable } from "node:stream";
import type { FastifyPluginAsyncZod } from "fastify-type-provider-zod";
import { z } from "zod";
import {
  PICTURE_MEDIA,
  type PictureMedia,
  pictureSchema,
  sha256Schema,
} from "../../shared/protocol/pictures.ts";
import { idSchema, line } from "../../shared/protocol/text.ts";
import { auditTo } from "../audit.ts";
import { personOf } from "../auth/identity.ts";
import type { Clock } from "../clock.ts";
import type { PictureFault } from "../pictures/cleaned.ts";
import type { DefectPictures } from "../pictures/defect-pictures.ts";
import { PICTURE_BYTES } from "../pictures/limits.ts";
import { tarOf } from "../pictures/tar.ts";
import type { Directory } from "../store/directory.ts";
import { download } from "./download.ts";
import { engineCount } from "./engine-count.ts";
import { ProblemError } from "./problem.ts";
import { identityOf } from "./signed-in.ts";

const tags = ["aircraft"];
const of = z.strictObject({ id: idSchema, defect: idSchema });
const one = of.extend({ sha256: sha256Schema });
const NO_PICTURE = "The defect has no such picture, or it is no longer kept";
const NO_DEFECT = "The aircraft has no open defect with this id";

export const ENDING: Readonly<Record<PictureMedia, string>> = {
  "image/jpeg": "jpg",
  "image/png": "png",
  "image/webp": "webp",
};

const FAULTS: Readonly<Record<PictureFault, string>> = {
  notPicture: "The file is no picture in JPEG, PNG or WebP: send one of these",
  truncated: "The picture is cut off: send the whole file",
  damaged: "The picture is damaged: take it again",
  animated: "The picture moves: send a still one",
  unusual: "The picture is in an unusual form of JPEG or PNG: save it as an ordinary one",
  tooManyPixels: "The picture has too many pixels: at most 8192 on a side and 16 million in all",
};

const FULL = {
  defect: "The defect has as many pictures as the house takes: a supervisor removes one first",
  person: "You have sent as many pictures as the house takes in a day: go on tomorrow",
  all: "The house keeps as many pictures as it takes: a supervisor removes some first",
} as const;

export interface PictureRoutes {
  directory: Directory;
  pictures: DefectPictures;
  clock: Clock;
}

/** Routes of the pictures of an aircraft's defects. */
export const pictureRoutes: FastifyPluginAsyncZod<PictureRoutes> = async (
  app,
  { directory, pictures, clock },
) => {
  app.get(
    "/aircraft/:id/pictures",
    {
      config: { costly: true, problems: ["notFound"], scopes: ["readRecords"] },
      schema: {
        tags,
        operationId: "downloadDefectPictures",
        summary: "The pictures of the aircraft's defects as one archive (tar), each under its SHA-256",
        params: z.strictObject({ id: idSchema }),
        response: { 200: download("A download (application/x-tar)") },
      },
    },
    async (request, reply) => {
      const { id } = await engineCount(directory, request.params.id);
      const name = `chockside-${id}-pictures-${new Date(clock.now()).toISOString().slice(0, 10)}.tar`;
      return reply
        .headers(guarded("application/x-tar", `attachment; filename="${name}"`))
        .send(Readable.from(tarOf(files(id))));
    },
  );

  app.get(
    "/aircraft/:id/defects/:defect/pictures/:sha256",
    {
      config: { problems: ["notFound"], scopes: ["readRecords"] },
      schema: {
        tags,
        operationId: "readDefectPicture",
        summary: "A picture of a defect: the very bytes that the evidence names",
        params: one,
        response: { 200: download("image/jpeg, image/png or image/webp") },
      },
    },
    async ({ params: { id, defect, sha256 } }, reply) => {
      const picture = await pictures.read(id, defect, sha256);
      if (!picture) throw new ProblemError("notFound", NO_PICTURE);
      const name = `${sha256}.${ENDING[picture.media]}`;
      return reply
        .headers(guarded(picture.media, `inline; filename="${name}"`))
        .send(Buffer.from(picture.bytes));
    },
  );

  app.post(
    "/aircraft/:id/defects/:defect/pictures/:sha256/removal",
    {
      config: { problems: ["notFound", "notQualified"] },
      schema: {
        tags,
        operationId: "removeDefectPicture",
        summary: "Remove a picture's bytes for a reason; the evidence keeps its digest",
        params: one,
        body: z.strictObject({ commandId: z.uuid(), reason: line(280) }),
        response: { 200: z.object({ removed: z.literal(true) }) },
      },
    },
    async (request) => {
      const { id, defect, sha256 } = request.params;
      const { commandId, reason } = request.body;
      const person = personOf(identityOf(request));
      if (!person.mayHold.includes("supervisor"))
        throw new ProblemError("notQualified", "A supervisor removes pictures");
      const aircraft = await engineCount(directory, id);
      if (!(await pictures.remove(aircraft, defect, sha256, reason, person, commandId)))
        throw new ProblemError("notFound", NO_PICTURE);
      auditTo(request.log).done("pictureRemoved", { person: person.id, path: `aircraft/${id}` });
      return { removed: true as const };
    },
  );

  await app.register(async (inner) => {
    // Whatever a file calls itself, its bytes decide.
    inner.removeAllContentTypeParsers();
    inner.addContentTypeParser("*", { parseAs: "buffer", bodyLimit: PICTURE_BYTES }, (_request, body, done) =>
      done(null, { file: body }),
    );
    (inner as typeof app).post(
      "/aircraft/:id/defects/:defect/pictures",
      {
        config: { problems: ["notFound", "faultyEntry", "noRoom"] },
        schema: {
          tags,
          operationId: "addDefectPicture",
          summary: "Add a picture to an open defect; it is kept without place, time and camera",
          description:
            "The body is the file: JPEG, PNG or WebP, known by its bytes, at most 4 MiB. What is kept has pixels, " +
            "palette and tables alone, so send it upright: a note that it is turned is removed too.",
          consumes: [...PICTURE_MEDIA],
          params: of,
          querystring: z.strictObject({ commandId: z.uuid() }),
          body: z.strictObject({ file: download("The picture") }),
          response: { 201: pictureSchema },
        },
      },
      async (request, reply) => {
        const { id, defect } = request.params;
        const aircraft = await engineCount(directory, id);
        const person = personOf(identityOf(request));
        const { commandId } = request.query;
        const taken = await pictures.add(aircraft, defect, request.body.file as Buffer, person, commandId);
        switch (taken.is) {
          case "kept":
            return reply.code(201).send(taken.picture);
          case "faulty":
            throw new ProblemError("faultyEntry", FAULTS[taken.fault]);
          case "noDefect":
            throw new ProblemError("notFound", NO_DEFECT);
          case "full":
            throw new ProblemError("noRoom", FULL[taken.of]);
        }
      },
    );
  });

  async function* files(aircraft: string) {
    for await (const { sha256, media, at, bytes } of pictures.all(aircraft))
      yield { name: `${sha256}.${ENDING[media]}`, at, bytes };
  }
};

/** Headers of bytes that somebody sent: a browser shows them as what they are named, runs nothing in them and keeps none. */
const guarded = (type: string, disposition: string) => ({
  "content-type": type,
  "content-disposition": disposition,
  "cache-control": "private, no-store",
  "content-security-policy": "default-src 'none'; sandbox",
  "x-content-type-options": "nosniff",
});
