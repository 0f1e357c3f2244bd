import { execFile } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { expect, it } from "vitest";
import { lockDatabase, openDatabase } from "../../server/store/open.ts";
import { PrismaDirectory } from "../../server/store/prisma-directory.ts";
import { APPROVED } from "../http/test-server.ts";

const ROOT = fileURLToPath(new URL("../..", import.meta.url));

it("[HSE-9] [HSE-13] [HSE-14] [HSE-21] [EQP-10] npm run house explains itself before the first start, then adds an aircraft beside a running server", async () => {
  const folder = mkdtempSync(join(tmpdir(), "chockside-house-"));
  const file = join(folder, "chockside.db");
  await expect(house(file)).rejects.toThrow("start the server once");
  openDatabase(file, 1).close();
  // A running server holds this lock.
  const lock = lockDatabase(file);
  const directory = await PrismaDirectory.open(file);
  await directory.addTypes([APPROVED], 1);
  expect(await house(file)).toContain("missing  an aircraft on an approved type");
  expect(await house(file, "aircraft", "add", "CH-NEW", "Gull", "four")).toContain("version 1 of four");
  await expect(house(file, "aircraft", "add", "CH-NEW", "Gull", "four")).rejects.toThrow(
    "CH-NEW is in the register",
  );
  // Without the demo the server speaks TLS.
  expect(await house(file, "link")).toMatch(/https:\/\/localhost:\d+\/first#/);
  expect(await house(file, "people", "add", "ivy", "Ivy Marsh", "supervisor")).toContain(
    "Ivy Marsh may sign in",
  );
  const cart = ["volts=28", "continuousA=500", "peakA=1500", "size=2/0", "metres=9.5"];
  await house(file, "equipment", "add", "GPU-1", "cart", "North cart", ...cart);
  await expect(house(file, "equipment", "add", "TOW-1", "towBar", "Bar", "volts=28")).rejects.toThrow(
    "volts",
  );
  await house(file, "equipment", "out", "GPU-1", "broken", "Smoke");
  expect(await house(file, "equipment")).toContain("North cart: is broken (Smoke)");
  const list = join(folder, "pieces.csv");
  expect(await house(file, "equipment", "save", list)).toContain("pieces.csv holds the equipment");
  expect(statSync(list).mode & 0o077).toBe(0);
  writeFileSync(list, `${readFileSync(list, "utf8")}CHK-1,chocks,Chocks${",".repeat(14)}\r\n`);
  expect(await house(file, "equipment", "read", list)).toContain(
    "nothing was changed: 1 new, 0 changed, 1 as",
  );
  expect(await house(file, "equipment", "take", list)).toContain("taken in: 1 new");
  writeFileSync(list, "label,kind,name\r\nCHK-2,chocks,Chocks\r\nCHK-3,sofa,Sofa\r\n");
  await expect(house(file, "equipment", "take", list)).rejects.toThrow("line 3, kind");
  expect((await directory.register.all("equipment")).map((e) => e.id)).toEqual(["CHK-1", "GPU-1"]);
  expect(await house(file, "currencies")).toBe("");
  await house(file, "name", "Northfield Flight");
  expect((await directory.register.one("house", "house"))?.body.name).toBe("Northfield Flight");
  const kept = await directory.register.one("equipment", "GPU-1");
  expect(kept?.body).toMatchObject({ volts: 28, cable: { size: "2/0", metres: 9.5, parallel: 1 } });
  expect((await directory.register.one("aircraft", "CH-NEW"))?.by).toBe("console");
  expect((await directory.personByHandle("ivy"))?.mayHold).toEqual(["supervisor"]);
  await directory.close();
  lock.close();
  rmSync(folder, { recursive: true });
}, 600_000);

function house(file: string, ...words: string[]): Promise<string> {
  return new Promise((resolve, reject) => {
    const child = execFile(
      process.execPath,
      ["--import", "tsx", "server/house-cli.ts", ...words],
      { cwd: ROOT, env: { ...process.env, CHOCKSIDE_DATA: file, CHOCKSIDE_DEMO: "off", DATABASE_URL: "" } },
      (error, stdout, stderr) => (error ? reject(new Error(stderr)) : resolve(stdout)),
    );
    child.stdin?.end("90210377\n");
  });
}
