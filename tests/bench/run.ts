// npm run bench                 a command to every panel, beside the bare broadcast (--rounds N, by default 3)
//               -- --starts     the same with whole recorded starts, their stops and their refusals
//               -- --growth     the same over more sessions and more panels
//               -- --highest    the highest rate of durable commands, beside better-sqlite3 alone
//               -- --rebuild [events]   verifying and rebuilding a record, and starting on one
//               -- --crowd      a thousand panels that come, press hold and vanish, each within one second
//               -- --joining    a late joiner, and panels that come back after an outage
//               -- --memory     what sessions and panels take
//               -- --servers    several servers on PostgreSQL, beside the bare Redis Streams adapter
//               -- --history [sessions] [file]   the history's pages and the search over that many sessions
//               -- --models     the engineering models
//               -- --panel      how soon a panel answers a touch
//               -- --rehearsal [seconds]  four people's rehearsal at full speed: from an event to its picture, beside bare pages
//               -- --pages [names]   what Lighthouse says of the pages, or of the named ones ("wall board" cockpit)
import { cpus } from "node:os";
import { parseArgs } from "node:util";
import { POSTS } from "../../shared/protocol/posts.ts";
import { benchDurable } from "./durable.ts";
import { benchGrowth } from "./growth.ts";
import { benchHighest } from "./highest.ts";
import { benchHistory } from "./history.ts";
import { benchJoining } from "./joining.ts";
import { judgePages } from "./lighthouse.ts";
import { benchMemory } from "./memory.ts";
import { benchModels } from "./models.ts";
import { benchPanel } from "./panel.ts";
import { benchRebuild } from "./rebuild.ts";
import { recordedStart } from "./recorded.ts";
import { benchRehearsal } from "./rehearsal.ts";
import { benchServers } from "./servers.ts";
import { benchSurge } from "./surge.ts";

const figure = (by: string) => ({ type: "string", default: by }) as const;
const flag = { type: "boolean", default: false } as const;
const { values, positionals } = parseArgs({
  options: {
    ...{
      sessions: figure("250"),
      panels: figure("4"),
      rate: figure("500"),
      seconds: figure("10"),
      rounds: figure("3"),
    },
    ...{ starts: flag, crowd: flag, growth: flag, highest: flag, rebuild: flag, joining: flag, memory: flag },
    ...{ history: flag, servers: flag, models: flag, panel: flag, pages: flag, rehearsal: flag },
  },
  allowPositionals: true,
});
/** With ten sessions, no more than the server takes of ten people. Commands a second. */
const GROWTH_RATE = 200;
const shape = {
  sessions: Number(values.sessions),
  panels: Number(values.panels),
  rate: values.growth ? Math.min(GROWTH_RATE, Number(values.rate)) : Number(values.rate),
  seconds: Number(values.seconds),
};

console.log(`${cpus()[0]?.model ?? "?"}, ${cpus().length} cores, Node ${process.version}`);
process.exit((await bench()) ? 0 : 1);

function bench(): Promise<boolean> | boolean {
  if (values.models) return benchModels();
  if (values.pages) return judgePages(positionals);
  if (values.panel) return benchPanel();
  if (values.rehearsal) return benchRehearsal(Number(positionals[0] ?? 120));
  if (values.highest) return benchHighest();
  if (values.rebuild) return benchRebuild(Number(positionals[0] ?? 1_000_000));
  if (values.history) return benchHistory(Number(positionals[0] ?? 10_000), positionals[1] ?? null);
  if (values.joining) return benchJoining();
  if (values.memory) return benchMemory();
  if (values.starts) return benchStarts();
  if (values.crowd) return benchSurge(shape.sessions, shape.panels);
  console.log(
    `${values.growth ? "" : `${shape.sessions} sessions x ${shape.panels} panels, `}${shape.rate} commands/s for ${shape.seconds} s; milliseconds\n`,
  );
  if (values.growth) return benchGrowth(shape);
  if (values.servers) return benchServers(shape);
  return benchDurable(shape, Number(values.rounds));
}

/** Begins whole starts evenly over the time of one start, so that about as many are under way at any time. */
function benchStarts(): Promise<boolean> {
  const start = recordedStart();
  const lasts = (start.at(-1)?.at ?? 0) / 1_000;
  const sessions = Number(values.sessions);
  const refused = start.filter(({ accepted }) => !accepted).length;
  console.log(
    `${sessions} starts of ${start.length} commands, ${refused} of them refused, each in ${lasts.toFixed(0)} s, begun over ${values.seconds} s; milliseconds\n`,
  );
  return benchDurable({ ...shape, panels: POSTS.length, start }, Number(values.rounds));
}
