import { pluralsOf } from "../../../shared/words/plural.ts";

const plural = pluralsOf("en");

/** Channels of an aircraft's instruments, and the operator's webhooks. */
export const inOut = {
  channels: "Instruments",
  lead: "A logger sends its channels by name. Say which gauge each one reads.",
  none: "No channel is mapped.",
  engine: (n: number) => `number ${n}`,
  change: "Map the channels",
  channel: "Channel",
  quality: "Quality",
  qualityOf: (of: string) => `Quality, ${of}`,
  channelOf: (of: string) => `Channel, ${of}`,
  hint: "Leave a channel empty where no instrument reads the gauge. Quality is what is known of it, such as its accuracy.",
  save: "Keep the channels",
  leave: "Leave it",
  webhooks: "Webhooks",
  webhooksLead: "Messages to addresses that the operator named on the server.",
  noWebhooks: "The operator has named none.",
  sends: "Nothing waits.",
  elsewhere: "Another server sends it.",
  waits: (why: string) => `Waits: ${why}`,
  givenUp: (count: number) =>
    `${count} ${plural(count, { one: "message was given up", other: "messages were given up" })}`,
  again: "Try again",
  stillNot: (why: string) => `Not taken: ${why}`,
};

export type InOutWords = typeof inOut;
