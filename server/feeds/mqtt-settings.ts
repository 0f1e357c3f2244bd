import { readFileSync } from "node:fs";
import { z } from "zod";
import { idSchema, line } from "../../shared/protocol/text.ts";
import { linkOf } from "../links.ts";
import { StartRefused } from "../start-refused.ts";

/** No wildcards: each topic belongs to one aircraft or one field. */
const topic = z.string().regex(/^[^#+\0]{1,200}$/, "must be a topic without # and +");
/** The id of a service account, as the page of the house shows it. */
const account = z.string().regex(/^[0-9a-f]{16}$/, "must be the id of a service account");

const mqttSchema = z.strictObject({
  url: z.url({ protocol: /^mqtts?$/ }),
  /** The broker keeps what comes while this server is away under this name. */
  clientId: z
    .string()
    .regex(/^[A-Za-z0-9-]{1,23}$/, "must be letters, digits and hyphens, 23 at most")
    .default("chockside"),
  username: line(200).optional(),
  password: z.string().min(1).max(200).optional(),
  /** Certificate of the broker's authority, PEM; the system's authorities without it. */
  ca: z.string().min(1).optional(),
  readings: z
    .array(
      z.strictObject({
        topic,
        account,
        aircraft: idSchema,
        form: z.enum(["ndjson", "csv"]).default("ndjson"),
      }),
    )
    .max(200)
    .default([]),
  weather: z
    .array(z.strictObject({ topic, account, place: line(80) }))
    .max(50)
    .default([]),
});
export type MqttSettings = z.infer<typeof mqttSchema>;

const settingsSchema = mqttSchema
  .refine(({ readings, weather }) => readings.length + weather.length > 0, "names no topic")
  .refine(({ readings, weather }) => {
    const topics = [...readings, ...weather].map((t) => t.topic);
    return new Set(topics).size === topics.length;
  }, "each topic is used once")
  .refine(({ url }) => new URL(url).username === "" && new URL(url).password === "", {
    path: ["url"],
    message: "must not hold a password",
  });

/**
 * Returns the operator's broker and topics.
 * @param plain true where the operator says that nobody else is on the network
 * @throws StartRefused names each fault, never a password
 */
export function readMqtt(file: string, plain: boolean): MqttSettings {
  let entered: unknown;
  try {
    entered = JSON.parse(readFileSync(file, "utf8"));
  } catch (error) {
    throw new StartRefused(`CHOCKSIDE_MQTT cannot be read: ${(error as Error).message}`);
  }
  const read = settingsSchema.safeParse(entered);
  if (!read.success) {
    const faults = read.error.issues.map((i) => `${i.path.join(".")} ${i.message}`.trim());
    throw new StartRefused(`CHOCKSIDE_MQTT is wrong: ${faults.join("; ")}`);
  }
  if (!plain && linkOf(read.data.url).is === "open")
    throw new StartRefused(
      "CHOCKSIDE_MQTT is wrong: the broker is reached without TLS: take mqtts://, or set CHOCKSIDE_LINKS=plain where nobody else is on that network",
    );
  return read.data;
}
