import { expect, it } from "vitest";
import { demo } from "../../seed/demo-data.ts";
import { simulatedChannels, simulatedSamples } from "../../seed/simulatedSamples.ts";
import { samplesIn } from "../../server/feeds/samples.ts";
import { channelFaults } from "../../shared/house/channels.ts";
import { sampleJudge } from "../../shared/readings/judgeSample.ts";

const START = Date.UTC(2026, 5, 1, 9);

it.each(demo.types)(
  "[INT-20] the simulated logger of $name sends what the server takes, each gauge of each engine",
  (type) => {
    const channels = simulatedChannels(type);
    expect(channelFaults({ id: "CH-TST", channels }, type)).toEqual([]);
    expect(channels.filter((c) => c.engine === 1).length).toBe(type.gauges.filter((g) => g.perEngine).length);
    for (let time = START; time < START + 60_000; time += 50) {
      const sent = simulatedSamples(type, time).map((s) => JSON.stringify(s));
      const read = samplesIn(sent.join("\n"), "ndjson") ?? [];
      expect(read).toHaveLength(channels.length);
      for (const { sample } of read)
        expect(sample && sampleJudge(channels, type)(sample, time)).toMatchObject({ ok: true });
    }
  },
);
