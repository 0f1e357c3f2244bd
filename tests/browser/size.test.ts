import { readFileSync } from "node:fs";
import { gzipSync } from "node:zlib";
import { expect, it } from "vitest";
import { firstScripts } from "./firstScripts.ts";

const built = (file: string) => readFileSync(new URL(`../../web/dist/${file}`, import.meta.url));

it("[PAN-16] the script that a panel fetches before its first picture is under 170 kB compressed", () => {
  const scripts = firstScripts(built("index.html").toString());
  expect(scripts.length).toBeGreaterThan(0);
  const bytes = scripts.reduce((sum, file) => sum + gzipSync(built(file)).length, 0);
  expect(bytes).toBeLessThan(170_000);
});
