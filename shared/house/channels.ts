import { z } from "zod";
import { engineSchema } from "../protocol/commands.ts";
import { INSTRUMENT_READINGS } from "../protocol/instruments.ts";
import { unitSchema } from "../protocol/quantity.ts";
import { idSchema, line } from "../protocol/text.ts";
import type { AircraftType } from "../types/schema.ts";
import type { EntryFault } from "./faults.ts";

/** One channel of an aircraft's instruments, and the gauge that it reads. */
export const channelMapSchema = z.strictObject({
  /** The name that the instrument gives it. */
  channel: line(40),
  gauge: idSchema,
  /** Null for a gauge of the aircraft. */
  engine: engineSchema.nullable(),
  /** The unit that it is sent in: another one is refused. */
  unit: unitSchema,
  /** Notes about it, such as the accuracy and the day of its calibration. */
  quality: line(80).nullable(),
});

/** The channels of one aircraft's instruments. The id is the registration. */
export const channelsSchema = z.strictObject({
  id: idSchema,
  channels: z.array(channelMapSchema).max(INSTRUMENT_READINGS),
});
export type Channels = z.infer<typeof channelsSchema>;
export type ChannelMap = Channels["channels"][number];

/** Returns what is wrong with an aircraft's channels: a gauge, engine or unit that its type does not have, or two of one. */
export function channelFaults({ channels }: Channels, type: AircraftType): EntryFault[] {
  return channels.flatMap((map, i): EntryFault[] => {
    const fault = (field: string, message: string) => [{ path: `channels.${i}.${field}`, message }];
    const gauge = type.gauges.find((g) => g.id === map.gauge);
    if (!gauge) return fault("gauge", `the type has no gauge ${map.gauge}`);
    if (gauge.unit !== map.unit) return fault("unit", `the gauge ${gauge.id} reads ${gauge.unit}`);
    if (gauge.perEngine !== (map.engine !== null))
      return fault("engine", gauge.perEngine ? "name the engine" : "this gauge belongs to no engine");
    if (map.engine !== null && map.engine > type.engines.length)
      return fault("engine", `the type has engines 1 to ${type.engines.length} only`);
    const same = channels.findIndex(
      (other) =>
        (other.channel === map.channel && other.engine === map.engine) ||
        (other.gauge === map.gauge && other.engine === map.engine),
    );
    return same < i ? fault("channel", `line ${same + 1} has this channel or gauge already`) : [];
  });
}
