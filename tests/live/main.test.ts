import { execFile } from "node:child_process";
import { existsSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { createServer } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { VERSION } from "../../server/version.ts";
import { prepareServer, ServerProcess } from "./server-process.ts";

const ROOT = fileURLToPath(new URL("../..", import.meta.url));
const MINUTE = 60_000;

let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "chockside-main-"));
  prepareServer();
}, 5 * MINUTE);
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** Returns the server's output when it refused to start, and its exit code. */
async function refusal(data: string, environment: Record<string, string> = {}) {
  const error = await ServerProcess.start(data, environment).then(
    async (server) => {
      await server.kill();
      throw new Error("it started");
    },
    (reason: Error) => reason.message,
  );
  return error;
}

describe("the server's process", () => {
  it(
    "[SRV-14, AUT-5] begins with nobody when the demo is off, and lets in whoever is added",
    async () => {
      const data = join(folder, "real", "chockside.db");
      const first = await ServerProcess.start(data, { CHOCKSIDE_DEMO: "off", CHOCKSIDE_TLS: "off" });
      expect(await (await fetch(`${first.url}/api/demo`)).json()).toEqual({
        demo: false,
        crews: false,
        signIns: [],
      });
      expect(await signIn(first.url, "wenna", "410273")).toBe(403);
      expect(await deviceCode(data)).toMatch(/(?:[A-Z0-9]{4}-){6}[A-Z0-9]{4}\n$/);
      expect(await first.stop("SIGINT")).toBe(0);

      const said = await people(data, ["Ivy", "Ivy Marsh", "cockpit,supervisor"], "90210377\n");
      expect(said).toBe("Ivy Marsh may sign in as ivy and hold cockpit, supervisor\n");
      await expect(people(data, ["ivy", "Other", "cockpit"], "90210377")).rejects.toThrow("ivy is taken");
      await expect(people(data, ["bea", "Bea", "pilot"], "90210377")).rejects.toThrow("usage");
      await expect(people(data, ["bea", "Bea", "cockpit"], "123")).rejects.toThrow("at least 6 characters");

      const second = await ServerProcess.start(data, {
        CHOCKSIDE_DEMO: "off",
        CHOCKSIDE_TLS: "off",
        CHOCKSIDE_DEVICES: "any",
      });
      expect(await signIn(second.url, "wenna", "410273")).toBe(401);
      expect(await signIn(second.url, "ivy", "90210377")).toBe(200);
      await expect(people(data, ["bea", "Bea", "cockpit"], "90210377")).rejects.toThrow("in use by another");
      expect(await second.stop("SIGTERM")).toBe(0);
    },
    5 * MINUTE,
  );

  it(
    "[SRV-14, STO-6] that cannot start says why in a line, and ends with 1",
    async () => {
      const letter = join(folder, "letter.db");
      writeFileSync(letter, "Dear database, ".repeat(100));
      expect(await refusal(letter)).toMatch(/ended with 1: chockside: .*letter\.db is not a database/);

      const data = join(folder, "busy.db");
      const taken = createServer().listen(0, "127.0.0.1");
      await new Promise((resolve) => taken.once("listening", resolve));
      const { port } = taken.address() as { port: number };
      expect(await refusal(data, { PORT: String(port) })).toMatch(
        new RegExp(`ended with 1: chockside: port ${port} is in use`),
      );
      taken.close();
      expect(await refusal(data, { PORT: "eighty" })).toContain("PORT must be a number");
      expect(await refusal(data, { HOST: "192.0.2.77" })).toContain(
        "HOST 192.0.2.77 is no address of this machine",
      );

      const running = await ServerProcess.start(data);
      expect(await refusal(data)).toContain("in use by another Chockside server");
      await running.kill();
    },
    5 * MINUTE,
  );
});

async function signIn(url: string, handle: string, pin: string): Promise<number> {
  const reply = await fetch(`${url}/api/sign-in`, {
    method: "POST",
    headers: { "content-type": "application/json" },
    body: JSON.stringify({ handle, pin, device: { id: "d1", name: "Tablet" } }),
  });
  return reply.status;
}

const people = (data: string, entry: string[], pin: string) => run("people-cli", data, entry, pin);
const deviceCode = (data: string) => run("device-cli", data, ["Tablet 4"]);

function run(program: string, data: string, entry: string[], input = ""): Promise<string> {
  return new Promise((resolve, reject) => {
    const child = execFile(
      process.execPath,
      ["--import", "tsx", `server/${program}.ts`, ...entry],
      { cwd: ROOT, env: { ...process.env, CHOCKSIDE_DATA: data } },
      (error, stdout, stderr) => (error ? reject(new Error(stderr)) : resolve(stdout)),
    );
    child.stdin?.end(input);
  });
}

it("[OPS-20] the version is printed, and nothing is started", async () => {
  const data = join(folder, "version.db");
  const printed = await new Promise<string>((resolve, reject) =>
    execFile(
      process.execPath,
      ["server/scripts/start.mjs", "--version"],
      { cwd: ROOT, env: { ...process.env, CHOCKSIDE_DATA: data, PORT: "0" } },
      (error, stdout) => (error ? reject(error) : resolve(stdout)),
    ),
  );
  expect(printed).toBe(`chockside ${VERSION}\n`);
  expect(existsSync(data)).toBe(false);
});
