import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { DCLinter } from "dclint";
import { describe, expect, it } from "vitest";
import { parse } from "yaml";
import { readConfig } from "../../server/config.ts";

const FILE = fileURLToPath(new URL("../../server/compose.yaml", import.meta.url));
const text = readFileSync(FILE, "utf8");

/** Returns the faults of a file by the Compose Specification's published JSON schema, as dclint ships it. */
function faults(file: string): string[] {
  const [found] = new DCLinter({ rules: {}, quiet: true, debug: false, exclude: [] }).lintFiles(
    [file],
    false,
  );
  if (!found) throw new Error(`${file} was not read`);
  return found.messages.filter(({ rule }) => rule.startsWith("invalid")).map(({ message }) => message);
}

/** The required contents of .env. */
const ENV: Record<string, string> = {
  POSTGRES_PASSWORD: "00112233445566778899aabbccddeeff",
  CHOCKSIDE_SECRET: "000102030405060708090a0b0c0d0e0f101112131415161718191a1b1c1d1e1f",
  ORIGIN: "https://ramp.example",
};

describe("the compose file", () => {
  it("[OPS-15] fits the published schema of the Compose Specification, which finds a slip of the pen", () => {
    expect(faults(FILE)).toEqual([]);
    const folder = mkdtempSync(join(tmpdir(), "chockside-compose-"));
    const spoilt = join(folder, "compose.yaml");
    for (const [right, wrong] of [
      ["healthcheck:", "heathcheck:"],
      ["restart: unless-stopped", "restart: [1]"],
      ["condition: service_healthy", "condition: service_hearty"],
      ["\nvolumes:", "\nvolume:"],
    ] as const) {
      expect(text).toContain(right);
      writeFileSync(spoilt, text.replace(right, wrong));
      expect(faults(spoilt), wrong).not.toEqual([]);
    }
    rmSync(folder, { recursive: true });
  });

  it("[OPS-15] gives each server settings that it starts with, and the same ones", () => {
    const { services } = parse(text, { merge: true }) as {
      services: Record<string, { environment: Record<string, string> }>;
    };
    const servers = Object.keys(services).filter((name) => name.startsWith("server-"));
    expect(servers.length).toBeGreaterThan(1);
    const read = servers.map((name) => {
      const set = Object.entries(services[name]?.environment ?? {}).map(([key, value]) => {
        const filled = value.replace(/\$\{(\w+)(:\?[^}]*)?\}/g, (_, known: string) => ENV[known] ?? "");
        return [key, filled] as const;
      });
      return readConfig(Object.fromEntries(set));
    });
    for (const config of read) {
      expect(config).toEqual(read[0]);
      expect(config).toMatchObject({ demo: false, tls: { is: "off" }, origins: [ENV.ORIGIN] });
      expect(config.postgres).toContain(`:${ENV.POSTGRES_PASSWORD}@postgres:5432`);
    }
  });
});
