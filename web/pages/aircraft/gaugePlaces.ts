import type { ChannelMap } from "../../../shared/house/channels.ts";
import type { AircraftType, Gauge } from "../../../shared/types/schema.ts";
import { unitWord } from "../../../shared/words/units.ts";
import type { InOutWords } from "../../words/en/inOut.ts";

/** A gauge of one engine, or of the aircraft, and the channel that reads it. */
export interface GaugePlace {
  key: string;
  /** Such as "Oil pressure, number 3 (psi)". */
  name: string;
  gauge: Gauge;
  engine: number | null;
  map: ChannelMap | null;
}

/** Returns every place that a channel can read, in the type's order. */
export function gaugePlaces(
  { gauges, engines }: AircraftType,
  channels: readonly ChannelMap[],
  words: Pick<InOutWords, "engine">,
): GaugePlace[] {
  return gauges.flatMap((gauge) =>
    (gauge.perEngine ? engines.map((e) => e.n) : [null]).map((engine): GaugePlace => {
      const where = engine === null ? gauge.name : `${gauge.name}, ${words.engine(engine)}`;
      return {
        key: `${gauge.id} ${engine ?? ""}`,
        name: `${where} (${unitWord(gauge.unit)})`,
        gauge,
        engine,
        map: channels.find((c) => c.gauge === gauge.id && c.engine === engine) ?? null,
      };
    }),
  );
}
