import { execFileSync, spawnSync } from "node:child_process";
import { cpSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, beforeAll, describe, expect, it } from "vitest";

const root = fileURLToPath(new URL("../..", import.meta.url));
const biome = createRequire(import.meta.url).resolve("@biomejs/biome/bin/biome");

const BOTTOM = "shared/ stands at the bottom";
const PURE_PACKAGES = "shared/ is pure and runs in";
const PURE = "No clock and no chance here";
const GLOBAL = "Do not use the global variable";
const RULES = "Rules decide on state alone";
const PANEL = "A panel knows the server by the protocol";
const UI = "ui/ draws what it is given";
const SERVED = "The server serves the built panels";
const STORE = "The database is reached from server/store alone";
const SOCKETS = "Sockets live in server/live and web/net alone";
const HEADLESS = "The headless library stands behind";
const TESTS = "The product never leans on its tests";

/** Folder, one line of source, and the words that its lint error must contain. */
const refused: [folder: string, source: string, says: string][] = [
  ["shared/models", `import "../../server/main.ts";`, BOTTOM],
  ["shared/models", `import "../../web/net/connection.ts";`, BOTTOM],
  ["shared/models", `import "../../prisma/migrate.ts";`, BOTTOM],
  ["shared/models", `import "../../seed/demo.ts";`, BOTTOM],
  ["shared/session", `import "../../server/main.ts";`, BOTTOM],
  ["shared/conditions", `import "../../tests/sim/run.ts";`, BOTTOM],
  ["shared/models", `import "node:fs";`, PURE_PACKAGES],
  ["shared/models", `import "react";`, PURE_PACKAGES],
  ["shared/models", `import "react/jsx-runtime";`, PURE_PACKAGES],
  ["shared/protocol", `import "fastify";`, PURE_PACKAGES],
  ["shared/session", `import "socket.io";`, PURE_PACKAGES],
  ["shared/session", `import "@flatten-js/core";`, PURE_PACKAGES],
  ["shared/conditions", `import "node:crypto";`, PURE_PACKAGES],
  ["shared/session", `import "../evidence/chain.ts";`, RULES],
  ["shared/conditions", `import "../evidence/chain.ts";`, RULES],
  ["shared/session", `import "../store/memory.ts";`, RULES],
  ["shared/conditions", `import "../store/memory.ts";`, RULES],
  ["shared/session", "export const at = Date.now();", PURE],
  ["shared/models", "export const clock = Date.now;", PURE],
  ["shared/models", "export const at = new Date();", PURE],
  ["shared/models", "export const die = Math.random();", PURE],
  ["shared/session", "setTimeout(() => {}, 1);", GLOBAL],
  ["shared/session", "export const id = crypto.randomUUID();", GLOBAL],
  ["shared/models", "export const at = performance.now();", GLOBAL],
  ["shared/models", `export const got = fetch("/");`, GLOBAL],
  ["web/posts/cockpit", `import "../../../server/main.ts";`, PANEL],
  [
    "web/posts/cockpit",
    `import type { Row } from "../../../server/store/row.ts"; export type R = Row;`,
    PANEL,
  ],
  ["web/net", `import "../../server/live/wire.ts";`, PANEL],
  ["web/net", `import "../../prisma/generated/client.ts";`, PANEL],
  ["web/ui", `import "../../server/main.ts";`, PANEL],
  ["web/posts/cockpit", `import "../../../seed/crew/guard.ts";`, PANEL],
  ["web/ui", `import "../net/connection.ts";`, UI],
  ["web/ui/figures", `export const connection = () => import("../../net/connection.ts");`, UI],
  ["web/ui", `import "socket.io-client";`, UI],
  ["web/ui", `export const got = fetch("/");`, GLOBAL],
  ["web/ui", `export const link = new WebSocket("ws://localhost");`, GLOBAL],
  ["web/ui", "export const at = Date.now();", PURE],
  ["server/http", `import "../../web/main.tsx";`, SERVED],
  ["server/store", `import "../../web/main.tsx";`, SERVED],
  ["server/live", `import "../../web/main.tsx";`, SERVED],
  ["server/http", `import "better-sqlite3";`, STORE],
  ["server/many", `import "pg";`, STORE],
  ["server/live", `import "@prisma/client";`, STORE],
  ["server/auth", `import "@prisma/client/runtime/client";`, STORE],
  ["server/http", `import "@prisma/adapter-better-sqlite3";`, STORE],
  ["server/evidence", `import "../../prisma/generated/client.ts";`, STORE],
  ["web/posts/cockpit", `import "better-sqlite3";`, STORE],
  ["seed", `import "@prisma/client";`, STORE],
  ["seed/crew", `import "better-sqlite3";`, STORE],
  ["server/http", `import "socket.io";`, SOCKETS],
  ["server/store", `import "socket.io";`, SOCKETS],
  ["seed", `import "socket.io-client";`, SOCKETS],
  ["web/posts/cockpit", `import "socket.io-client";`, SOCKETS],
  ["prisma", `import "socket.io";`, SOCKETS],
  ["web/posts/cockpit", `import "@base-ui/react/dialog";`, HEADLESS],
  ["web/pages", `import "@base-ui/react/radio";`, HEADLESS],
  ["server/http", `import "../../tests/live/harness.ts";`, TESTS],
  ["web/net", `import "../../tests/live/harness.ts";`, TESTS],
  ["seed/crew", `import "../../tests/live/harness.ts";`, TESTS],
];

/** Imports that must stay allowed: a border that stops everything proves nothing. */
const allowed: [folder: string, source: string][] = [
  ["shared/protocol", `import "zod";`],
  ["shared/evidence", `import "@noble/hashes/sha2.js";`],
  ["shared/models", `import "@flatten-js/core";`],
  ["shared/models", `import "metar-taf-parser";`],
  ["shared/session", `import "../conditions/all.ts";`],
  ["shared/evidence", `import "../protocol/events.ts";`],
  ["shared/models", "export const at = new Date(0);"],
  ["web/net", `import "socket.io-client";`],
  ["web/posts/cockpit", `import "../../net/connection.ts";`],
  ["web/ui", `import "../../shared/protocol/posts.ts";`],
  ["web/ui", `import "@base-ui/react/dialog";`],
  ["web/net", "export const at = Date.now();"],
  ["server/live", `import "socket.io";`],
  ["server/store", `import "@prisma/client";`],
  ["server/store", `import "better-sqlite3";`],
  ["server/http", `import "../store/events.ts";`],
  ["prisma", `import "better-sqlite3";`],
  ["seed/crew", `import "socket.io-client";`],
  ["tests/live", `import "socket.io-client";`],
  ["tests/store", `import "better-sqlite3";`],
];

interface Finding {
  severity: string;
  message: string;
  location: { path: string };
}

const fileOf = (folder: string, kind: string, n: number) => `${folder}/planted-${kind}-${n}.ts`;
const said = new Map<string, string[]>();
let yard: string;

beforeAll(() => {
  yard = mkdtempSync(join(tmpdir(), "chockside-borders-"));
  for (const file of [".biome.json", "tests/spec/pure.grit"]) cpSync(join(root, file), join(yard, file));
  const plant = (file: string, source: string) => {
    mkdirSync(dirname(join(yard, file)), { recursive: true });
    writeFileSync(join(yard, file), `${source}\n`);
  };
  refused.forEach(([folder, source], n) => {
    plant(fileOf(folder, "refused", n), source);
  });
  allowed.forEach(([folder, source], n) => {
    plant(fileOf(folder, "allowed", n), source);
  });
  const lint = () =>
    spawnSync(
      process.execPath,
      [biome, "lint", "--vcs-enabled=false", "--max-diagnostics=none", "--reporter=json", "."],
      { cwd: yard, encoding: "utf8" },
    );
  const first = lint();
  // Seen once on a busy machine: the linter ended without a word.
  const run = first.stdout === "" ? lint() : first;
  if (run.stdout === "")
    throw new Error(`the linter said nothing: ${run.status}, ${run.signal}, ${run.stderr}, ${first.stderr}`);
  const report: { diagnostics: Finding[] } = JSON.parse(run.stdout);
  for (const { message, location } of report.diagnostics)
    said.set(location.path, [...(said.get(location.path) ?? []), message]);
});

afterAll(() => rmSync(yard, { recursive: true, force: true }));

describe("borders between the parts", () => {
  it.each(refused.map((row, n) => [...row, n] as const))("%s refuses: %s", (folder, _source, says, n) => {
    const messages = said.get(fileOf(folder, "refused", n)) ?? [];
    expect(messages.some((message) => message.startsWith(says))).toBe(true);
  });

  it.each(allowed.map((row, n) => [...row, n] as const))("%s allows: %s", (folder, _source, n) => {
    expect(said.get(fileOf(folder, "allowed", n)) ?? []).toEqual([]);
  });

  it("are held by the lint run itself: the checked-in configuration is the one in force", () => {
    const shown = execFileSync(process.execPath, [biome, "rage"], { cwd: root, encoding: "utf8" });
    expect(shown).toMatch(/Status:\s+Loaded successfully/);
    expect(shown).toMatch(/Path:\s+\.biome\.json/);
  });
});
