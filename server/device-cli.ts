// npm run device -- "<name>": issues a code that enrols one device within five minutes. The first device needs it.
// The server may run meanwhile. The database must exist.
import { line } from "../shared/protocol/text.ts";
import { CODE_MS, CONSOLE, giveCode } from "./auth/devices.ts";
import { readConfig } from "./config.ts";
import { randomIds } from "./ids.ts";
import { StartRefused } from "./start-refused.ts";
import { openDirectory } from "./store/stores.ts";

await main().catch((error: unknown) => {
  console.error(error instanceof StartRefused ? `chockside: ${error.message}` : error);
  process.exit(1);
});

async function main(): Promise<void> {
  const name = line(60).safeParse(process.argv.slice(2).join(" "));
  if (!name.success)
    throw new StartRefused('usage: npm run device -- "<name of the device>", such as "Tablet 4"');
  const { directory, close } = await openDirectory(readConfig(process.env), Date.now());
  const { code } = await giveCode(
    { directory, clock: { now: Date.now }, ids: randomIds },
    CONSOLE,
    name.data,
  );
  await close();
  console.log(
    `On ${name.data} open the panels' address with /enrol and enter, within ${CODE_MS / 60_000} minutes:`,
  );
  console.log(code);
}
