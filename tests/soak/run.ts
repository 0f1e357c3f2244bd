// npm run soak -- [kills] [seed]        kills the real server that often under load
//                --postgres [kills] [seed]   the same on a PostgreSQL of its own
//                --sim [runs] [first]   runs sessions over bad sockets, one a seed
//                --mutants [share] [seed] [part of a path]   breaks the core in one place at a time
//                --faults [seconds] [seed]   panels behind links that suffer, the server killed now and then; power cuts
//                --fuzz [frames] [seed]      malformed frames, and a tenth as many requests
//                --fuzz-inout [cases] [seed]   that many hostile samples, tokens and webhook targets each
//                --feeds [minutes]      four engines' instruments beside a crew, and what they cost a command
//                --away                 stops a PostgreSQL of its own, and photographs what pages say
//                --siege [seconds]      strangers, a bad guest and a bad supervisor beside a crew that holds
//                --adversary [sessions] [seed]   wrong moves over real sockets, judged by a program in Python
//                --panels               every drill and every pair of size, light and language at real panels
//                --rehearsals [runs] [first]  random scripts with random crews: none stuck, none against a rule
//                --beside [seconds]     fifty starts alone, and with fifty rehearsals beside them: times of the starts' commands
//                --types [changes] [first]   changes demo types in one place each: refused, or started to its end
//                --release              builds the archive, unpacks it in a path with spaces and starts it
//                --search [scope] [states] [minutes]   every interleaving of the core, breadth first
import { availableParallelism } from "node:os";
import { parseArgs } from "node:util";

const { values, positionals } = parseArgs({
  options: {
    sim: { type: "boolean" },
    mutants: { type: "boolean" },
    search: { type: "boolean" },
    faults: { type: "boolean" },
    postgres: { type: "boolean" },
    fuzz: { type: "boolean" },
    "fuzz-inout": { type: "boolean" },
    feeds: { type: "boolean" },
    away: { type: "boolean" },
    adversary: { type: "boolean" },
    siege: { type: "boolean" },
    panels: { type: "boolean" },
    types: { type: "boolean" },
    release: { type: "boolean" },
    rehearsals: { type: "boolean" },
    beside: { type: "boolean" },
  },
  allowPositionals: true,
});
const figures = (values.search ? positionals.slice(1) : positionals).slice(0, 2).map(Number);
const wrong = figures.some((n) => !Number.isFinite(n) || n < 0);
if (wrong || Object.keys(values).length > 1) {
  console.error(
    "usage: npm run soak -- [--postgres] [kills] [seed] | --sim [runs] [first] | --faults [seconds] [seed] | --fuzz [frames] [seed] | --fuzz-inout [cases] [seed] | --feeds [minutes] | --away | --adversary [sessions] [seed] | --siege [seconds] | --panels | --mutants [share] [seed] [path] | --types [changes] [first] | --release | --search [scope] [states] [minutes] | --rehearsals [runs] [first] | --beside [seconds]",
  );
  process.exit(2);
}
const began = performance.now();
const seconds = () => Math.round((performance.now() - began) / 1000);
const processes = availableParallelism();

if (values.sim) {
  const { simulateApart } = await import("../sim/many.ts");
  const [runs = 1_000, first = 1] = figures;
  const sum = await simulateApart(first, runs, processes, (batch, { runs: done }) => {
    for (const outcome of batch.failed) console.log(`FAULT ${JSON.stringify(outcome)}`);
    if (done % 1_000 === 0) console.log(`${done} runs, ${seconds()} s`);
  });
  const { failed, ...totals } = sum;
  console.log(`${seconds()} s: ${JSON.stringify(totals)}, ${failed.length} failed`);
  process.exitCode = failed.length === 0 ? 0 : 1;
} else if (values.release) {
  const { tryRelease } = await import("./release.ts");
  await tryRelease(console.log);
  console.log(`${seconds()} s`);
} else if (values.mutants) {
  const { tryMutants, noticed } = await import("../mutation/run.ts");
  const [share = 1, seed = 1] = figures;
  const within = positionals[2] ?? "";
  const tried = await tryMutants({ share, seed, within, processes }, console.log);
  const percent = ((100 * noticed(tried)) / tried.length).toFixed(1);
  console.log(`${seconds()} s: ${tried.length} tried, ${noticed(tried)} noticed, ${percent} %`);
} else if (values.faults) {
  const { faultSoak } = await import("./faults.ts");
  const [length = 300, seed = 1] = figures;
  process.exitCode = (await faultSoak(length, seed)) ? 0 : 1;
} else if (values.fuzz) {
  const { fuzzSoak } = await import("./fuzz.ts");
  const [frames = 1_000_000, seed = 1] = figures;
  process.exitCode = (await fuzzSoak(frames, seed)) ? 0 : 1;
} else if (values["fuzz-inout"]) {
  const { inOutSoak } = await import("./inOut.ts");
  const [cases = 100_000, seed = 1] = figures;
  process.exitCode = (await inOutSoak(cases, seed)) ? 0 : 1;
} else if (values.feeds) {
  const { feedSoak } = await import("./feeds.ts");
  const [minutes = 3] = figures;
  process.exitCode = (await feedSoak(minutes)) ? 0 : 1;
} else if (values.away) {
  const { awaySoak } = await import("./away.ts");
  process.exitCode = (await awaySoak()) ? 0 : 1;
} else if (values.siege) {
  const { siegeSoak } = await import("./siege.ts");
  const [length = 120] = figures;
  process.exitCode = (await siegeSoak(length)) ? 0 : 1;
} else if (values.types) {
  const { demo } = await import("../../seed/demo-data.ts");
  const { judge } = await import("../types/startable.ts");
  const [changes = 10_000, first = 0] = figures;
  const sum = { refused: 0, started: 0, wrong: 0 };
  for (let n = first; n < first + changes; n += 1) {
    const type = demo.types[n % demo.types.length];
    const judged = type ? judge(type, n) : { wrong: "the demo has no types" };
    if (typeof judged === "string") sum[judged] += 1;
    else {
      sum.wrong += 1;
      console.log(judged.wrong);
    }
  }
  console.log(`${seconds()} s: ${JSON.stringify(sum)}`);
  process.exitCode = sum.wrong === 0 ? 0 : 1;
} else if (values.rehearsals) {
  const { rehearsalSoak } = await import("./rehearsals.ts");
  const [runs = 10_000, first = 1] = figures;
  process.exitCode = (await rehearsalSoak(runs, first, processes)) ? 0 : 1;
} else if (values.beside) {
  const { besideSoak } = await import("./beside.ts");
  const [length = 60] = figures;
  process.exitCode = (await besideSoak(length)) ? 0 : 1;
} else if (values.adversary) {
  const { adversarySoak } = await import("./adversary.ts");
  const [sessions = 400, seed = 1] = figures;
  process.exitCode = (await adversarySoak(sessions, seed)) ? 0 : 1;
} else if (values.panels) {
  const { panelSoak } = await import("./panels.ts");
  process.exitCode = (await panelSoak()) ? 0 : 1;
} else if (values.search) {
  const { searchFar } = await import("../search/far.ts");
  const [states = 5_000_000, minutes = 60] = figures;
  process.exitCode = (await searchFar(positionals[0] ?? "everything", states, minutes)) ? 0 : 1;
} else {
  const { killSoak, killSoakOnPostgres } = await import("./kills.ts");
  const [kills = 500, seed = 1] = figures;
  const soak = values.postgres ? killSoakOnPostgres : killSoak;
  process.exitCode = (await soak(kills, seed)) ? 0 : 1;
}
