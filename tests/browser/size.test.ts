import { readFileSync } from "node:fs";
import { gzipSync } from "node:zlib";
import { expect, it } from "vitest";

const built = (file: string) => readFileSync(new URL(`../../web/dist/${file}`, import.meta.url));

it("[PAN-16] the script that a panel fetches before its first picture is under 170 kB compressed", () => {
  const scripts = [
    ...built("index.html")
      .toString()
      .matchAll(/"\/(assets\/[^"]+\.js)"/g),
  ].map((m) => m[1] ?? "");
  expect(scripts.length).toBeGreaterThan(0);
  const bytes = scripts.reduce((sum, file) => sum + gzipSync(built(file)).length, 0);
  expect(bytes).toBeLessThan(170_000);
});
