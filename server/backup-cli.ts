// npm run backup -- <file>: copies the database while the server runs, and verifies the copy.
import { writeFileSync } from "node:fs";
import { resolve } from "node:path";
import { readConfig } from "./config.ts";
import { StartRefused } from "./start-refused.ts";
import { backUp } from "./store/backup.ts";
import { lastBackupOf } from "./telemetry/surroundings.ts";

const [into, ...more] = process.argv.slice(2);
try {
  if (into === undefined || more.length > 0)
    throw new StartRefused("usage: npm run backup -- <file to write, which must not be there yet>");
  const { data, postgres } = readConfig(process.env);
  if (postgres !== null)
    throw new StartRefused(
      `PostgreSQL is backed up by its own means: pg_dump --format=custom --file=${into}`,
    );
  const { sessions, events, pictures } = await backUp(data, resolve(into));
  writeFileSync(lastBackupOf(data), into, { mode: 0o600 });
  const pictured = pictures === 0 ? "" : `, and ${pictures} pictures, each with its digest`;
  console.log(
    `${into}: ${sessions} sessions with ${events} events, each rebuilt with its hash chain intact${pictured}`,
  );
} catch (error) {
  console.error(error instanceof StartRefused ? `chockside: ${error.message}` : error);
  process.exit(1);
}
