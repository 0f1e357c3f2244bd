import { rmSync, writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { parseArgs } from "node:util";
import { z } from "zod";
import { openUsualBrowser } from "../browser/seat.ts";
import { TestServer } from "../browser/server.ts";
import { Camera, LIGHTS, SIZES, type Size } from "./camera.ts";
import { photographHistory } from "./history.ts";
import { galleryPage } from "./page.ts";
import { photographReadme } from "./readme.ts";
import { photographRehearsals } from "./rehearsals.ts";
import { photographStart } from "./scenes.ts";

const FOLDER = fileURLToPath(new URL("../../.gallery/", import.meta.url));
const README_PICTURES = fileURLToPath(new URL("../../web/pictures/", import.meta.url));

/** Reads names between commas; no option means all of them. */
const listOf = <T extends string>(all: readonly T[]) =>
  z
    .string()
    .default(all.join())
    .transform((text) => text.split(","))
    .pipe(z.array(z.enum(all as readonly [T, ...T[]])).min(1));

const { values } = parseArgs({
  options: {
    readme: { type: "boolean" },
    rehearsals: { type: "boolean" },
    history: { type: "boolean" },
    sizes: { type: "string" },
    lights: { type: "string" },
    "right-to-left": { type: "boolean" },
  },
});
const direction = values["right-to-left"] ? "rtl" : "ltr";
const { sizes, lights } = z
  .object({ sizes: listOf(Object.keys(SIZES) as Size[]), lights: listOf(LIGHTS) })
  .parse({ sizes: values.sizes, lights: values.lights });

// A busy machine takes long over the pictures of one moment. The limits are longer than the demo's, but not so long
// that the times left in the pictures stop looking like a start.
const server = new TestServer({ patience: 6 });
await server.start();
// A passkey belongs to a host name and cannot belong to an IP address.
const url = `http://localhost:${new URL(server.url).port}`;
await server.stop();
await server.start([url]);
const browser = await openUsualBrowser();
try {
  await (values.readme ? photographReadme(browser, url, README_PICTURES) : photographAll());
} finally {
  await browser.close();
  await server.end();
}
process.exit(process.exitCode ?? 0);

async function photographAll(): Promise<void> {
  rmSync(FOLDER, { recursive: true, force: true });
  const camera = new Camera(FOLDER, sizes, lights, direction);
  try {
    const all = !values.rehearsals && !values.history;
    // Before the start: there the people of a rehearsal's posts hold others.
    if (all || values.rehearsals) await photographRehearsals(browser, url, camera);
    if (all || values.history) await photographHistory(browser, camera);
    if (all) await photographStart(browser, server, url, camera);
  } finally {
    // The pictures taken before a failure are worth a look too.
    writeFileSync(`${FOLDER}index.html`, galleryPage(camera.pictures, new Date().toISOString()));
  }
  console.log(`${camera.pictures.length} pictures: ${FOLDER}index.html`);
  if (camera.faults.length === 0) return;
  console.error(`${camera.faults.length} keys out of reach:\n${camera.faults.join("\n")}`);
  process.exitCode = 1;
}
