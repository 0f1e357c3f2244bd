import type { FastifyPluginAsyncZod } from "fastify-type-provider-zod";
import { z } from "zod";
import { channelsSchema } from "../../shared/house/channels.ts";
import { idSchema } from "../../shared/protocol/text.ts";
import { auditTo } from "../audit.ts";
import type { Feeds } from "../feeds/feeds.ts";
import type { ChannelRegister } from "../house/channels.ts";
import { savedSchema } from "./register-states.ts";
import { ifMatch, revisionOf, tagged } from "./revision.ts";
import { identityOf } from "./signed-in.ts";

const tags = ["feeds"];
const params = z.strictObject({ id: idSchema });
const { channels } = channelsSchema.shape;

/** Routes of the channels of an aircraft's instruments. Everybody may read them; supervisors change them. */
export const channelRoutes: FastifyPluginAsyncZod<{ register: ChannelRegister; feeds: Feeds }> = async (
  app,
  { register, feeds },
) => {
  app.get(
    "/aircraft/:id/channels",
    {
      config: { problems: ["notFound"] },
      schema: {
        operationId: "readChannels",
        tags,
        summary:
          "The channels of an aircraft's instruments, and the gauge of each; the revision is the entity tag",
        params,
        response: { 200: z.object({ channels, revision: z.number().int() }) },
      },
    },
    async (request, reply) => {
      const { body, revision } = await register.of(request.params.id);
      return tagged(reply, { revision }).send({ channels: body.channels, revision });
    },
  );

  app.put(
    "/aircraft/:id/channels",
    {
      config: { problems: ["faultyEntry", "notFound", "notQualified", "revisionNeeded", "stale"] },
      schema: {
        operationId: "changeChannels",
        tags,
        summary: "Replace the channels of an aircraft as they were read (If-Match)",
        params,
        headers: ifMatch,
        body: z.strictObject({ channels }),
        response: { 200: savedSchema },
      },
    },
    async (request, reply) => {
      const { person } = identityOf(request);
      const { id } = request.params;
      const revision = revisionOf(request.headers["if-match"]);
      const entry = await register.change(person, { id, channels: request.body.channels }, revision);
      feeds.remapped(id);
      auditTo(request.log).done("channelsChanged", { person: person.id, path: `aircraft/${id}/channels` });
      return tagged(reply, entry).send(entry);
    },
  );
};
