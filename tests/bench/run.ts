import { mkdtempSync, rmSync } from "node:fs";
import { cpus, tmpdir } from "node:os";
import { join } from "node:path";
import { parseArgs } from "node:util";
import { crowd } from "./crowd.ts";
import { judgePages } from "./lighthouse.ts";
import { benchModels } from "./models.ts";
import { benchPanel } from "./panel.ts";
import { planSessions } from "./prepare.ts";
import { drive, serve } from "./processes.ts";
import { benchServers } from "./servers.ts";
import { headings, row } from "./table.ts";

/**
 * Command to every panel, through SQLite with synchronous FULL, beside a bare Socket.IO broadcast of the same payload
 * in the same run. Ratios are what counts: the machine's speed is in both. The bare server runs before and after.
 * With `--models` the engineering models are measured instead, with `--panel` how soon a panel answers a touch, with
 * `--servers` several servers on PostgreSQL, with `--pages` what Lighthouse says of the panels.
 */
const { values } = parseArgs({
  options: {
    sessions: { type: "string", default: "50" },
    panels: { type: "string", default: "4" },
    rate: { type: "string", default: "100" },
    seconds: { type: "string", default: "10" },
    models: { type: "boolean", default: false },
    panel: { type: "boolean", default: false },
    servers: { type: "boolean", default: false },
    pages: { type: "boolean", default: false },
  },
});
if (values.models) process.exit(benchModels() ? 0 : 1);
if (values.pages) process.exit((await judgePages()) ? 0 : 1);
if (values.panel) process.exit((await benchPanel()) ? 0 : 1);
const [count, panels, rate, seconds] = [values.sessions, values.panels, values.rate, values.seconds].map(
  Number,
) as [number, number, number, number];
const data = mkdtempSync(join(tmpdir(), "chockside-bench-"));

async function bare() {
  const server = await serve(["--import", "tsx", "tests/bench/bare.ts"]);
  const sessions = Array.from({ length: count }, (_, i) => `bare-${i}`);
  const result = await drive({ url: server.url, sessions, panels, rate, seconds, tokens: ["none"] });
  server.stop();
  return result;
}

async function product() {
  const environment = {
    ...{ PORT: "0", CHOCKSIDE_DATA: join(data, "bench.db") },
    ...{ CHOCKSIDE_DEVICES: "any", CHOCKSIDE_LOG: "warn" },
  };
  const tokens = await crowd(environment, count);
  const server = await serve(["server/dist/main.js"], environment);
  const sessions = await planSessions(server.url, tokens);
  const result = await drive({ url: server.url, sessions, panels, rate, seconds, tokens });
  server.stop();
  return result;
}

console.log(`${cpus()[0]?.model ?? "?"}, ${cpus().length} cores, Node ${process.version}`);
console.log(`${count} sessions x ${panels} panels, ${rate} commands/s for ${seconds} s; milliseconds\n`);
if (values.servers) process.exit((await benchServers({ sessions: count, panels, rate, seconds })) ? 0 : 1);
const before = await bare();
const ours = await product();
const after = await bare();
rmSync(data, { recursive: true, force: true });

console.log(headings());
console.log(row("bare broadcast, before: to panels", before.toPanels));
console.log(row("Chockside: durable, to panels", ours.toPanels));
console.log(row("bare broadcast, after: to panels", after.toPanels));
console.log(row("Chockside: acknowledged", ours.toAck));
const ratio = (key: "p50" | "p99") => (2 * ours.toPanels[key]) / (before.toPanels[key] + after.toPanels[key]);
console.log(`\nto every panel, times bare: p50 ${ratio("p50").toFixed(2)}, p99 ${ratio("p99").toFixed(2)}`);
const expected = ours.sent * panels;
console.log(
  `commands ${ours.sent}, not accepted ${ours.unanswered}; deliveries ${ours.toPanels.count} of ${expected}`,
);
process.exit(ours.unanswered === 0 && ours.toPanels.count === expected ? 0 : 1);
