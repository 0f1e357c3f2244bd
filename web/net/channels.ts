import type { ChannelMap } from "../../shared/house/channels.ts";
import { api } from "./app.ts";

const at = (aircraft: string) => `/api/aircraft/${encodeURIComponent(aircraft)}/channels`;

/** Requests about the channels of an aircraft's instruments. A change names the revision that was read. */
export const channelRequests = {
  of: (aircraft: string) => api.json<{ channels: ChannelMap[]; revision: number }>("GET", at(aircraft)),
  change: (aircraft: string, channels: readonly ChannelMap[], revision: number) =>
    api.send("PUT", at(aircraft), { channels }, { "if-match": `"${revision}"` }),
};
