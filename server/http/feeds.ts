import type { FastifyPluginAsyncZod } from "fastify-type-provider-zod";
import { z } from "zod";
import { idSchema, line } from "../../shared/protocol/text.ts";
import { scopeOf } from "../auth/service-accounts.ts";
import type { Feeds } from "../feeds/feeds.ts";
import { MOST_SAMPLES, type SampleForm, samplesIn } from "../feeds/samples.ts";
import { ProblemError } from "./problem.ts";
import { accountOf } from "./signed-in.ts";

const tags = ["feeds"];

const BODY_BYTES = 512 * 1024;

const FORMS: Readonly<Record<string, SampleForm>> = { "application/x-ndjson": "ndjson", "text/csv": "csv" };

const description =
  "Each line is a sample: `channel`, `engine` (null or absent for a gauge of the aircraft), `time` (ISO 8601 with its " +
  "offset, or milliseconds since 1970), `value` and `unit`; as a JSON object, or as a row under the header " +
  `\`channel,engine,time,value,unit\`. At most ${MOST_SAMPLES} lines. A gauge has one sample of each moment: what is sent again is not taken again. A line with a fault ` +
  "is left out and counted, and the first 20 are named. The record gets the last value and the extremes of each gauge " +
  "in each second, and each crossing of a mark at once; the samples are kept beside it with their digest in the record.";

/** Routes by which instruments and weather stations send what they read. For service accounts alone. */
export const feedRoutes: FastifyPluginAsyncZod<{ feeds: Feeds }> = async (app, { feeds }) => {
  for (const type of Object.keys(FORMS))
    app.addContentTypeParser(type, { parseAs: "string", bodyLimit: BODY_BYTES }, (_request, body, done) =>
      done(null, { form: FORMS[type], text: body }),
    );

  app.post(
    "/feeds/:aircraft",
    {
      config: { systemsOnly: true, scopes: ["pushReadings"] },
      schema: {
        operationId: "pushSamples",
        tags,
        summary: "Samples of an aircraft's instruments, as application/x-ndjson or text/csv",
        description,
        consumes: Object.keys(FORMS),
        params: z.strictObject({ aircraft: idSchema }),
        body: z.strictObject({ form: z.enum(["ndjson", "csv"]), text: z.string() }),
        response: {
          200: z.object({
            session: z
              .string()
              .nullable()
              .describe("Null while no session of the aircraft has left its brief"),
            taken: z.number().int(),
            refused: z.number().int(),
            faults: z.array(z.object({ line: z.number().int(), fault: z.string() })),
          }),
        },
      },
    },
    async (request) => {
      const account = accountOf(request);
      const { aircraft } = request.params;
      if (!scopeOf(account, "pushReadings", (scope) => scope.aircraft === aircraft))
        throw new ProblemError("outOfScope", `The account ${account.name} sends no readings of ${aircraft}`);
      const { form, text } = request.body;
      const lines = samplesIn(text, form);
      if (!lines)
        throw new ProblemError(
          "malformed",
          `Send at most ${MOST_SAMPLES} lines, CSV with the header channel,engine,time,value,unit`,
        );
      return feeds.take(account, aircraft, lines);
    },
  );

  app.post(
    "/weather",
    {
      config: { systemsOnly: true, scopes: ["pushWeather"], problems: ["faultyEntry"] },
      schema: {
        operationId: "pushWeather",
        tags,
        summary: "The report of a field's own station, for every open session there",
        body: z.strictObject({ place: line(80), metar: line(500) }),
        response: { 200: z.object({ sessions: z.number().int().describe("Sessions to which it is news") }) },
      },
    },
    async (request) => {
      const account = accountOf(request);
      const { place, metar } = request.body;
      if (!scopeOf(account, "pushWeather", (scope) => scope.place === place))
        throw new ProblemError("outOfScope", `The account ${account.name} sends no weather of ${place}`);
      const { sessions, faulty } = await feeds.station(account, place, metar);
      if (faulty)
        throw new ProblemError(
          "faultyEntry",
          "The report cannot be read, is too old or has impossible figures",
        );
      return { sessions };
    },
  );
};
