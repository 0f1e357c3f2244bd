import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import type { AddressInfo } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { createServer, type Server, type TLSSocket } from "node:tls";
import { pino } from "pino";
import { afterAll, afterEach, beforeAll, expect, it } from "vitest";
import { LOG_OPTIONS } from "../../server/log.ts";
import { Syslog, syslogFrame } from "../../server/syslog.ts";
import { openTls } from "../../server/tls.ts";
import { HandClock } from "./hand-clock.ts";

let folder: string;
let pem: { cert: Buffer; key: Buffer };
let root: string;
let server: Server | null = null;
let port = 0;
let got = "";
const sockets = new Set<TLSSocket>();
const said: string[] = [];
const hand = new HandClock();
const open: Syslog[] = [];

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), "chockside-syslog-"));
  const own = (name: string) => join(folder, name);
  root = own("r.crt");
  const files = { cert: own("c.pem"), key: own("k.pem"), root, rootKey: own("rk.pem") };
  await openTls({ is: "own", ...files, names: ["localhost", "127.0.0.1"] }, Date.now());
  pem = { cert: readFileSync(files.cert), key: readFileSync(files.key) };
});
afterEach(async () => {
  for (const sink of open.splice(0)) sink.destroy();
  await away();
  got = "";
  said.length = 0;
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

async function back(): Promise<void> {
  const next = createServer({ cert: pem.cert, key: pem.key }, (socket) => {
    sockets.add(socket);
    socket.on("error", () => {});
    socket.on("data", (bytes) => {
      got += bytes.toString("utf8");
    });
  });
  await new Promise<void>((done) => next.listen(port, "127.0.0.1", done));
  port = (next.address() as AddressInfo).port;
  server = next;
}

async function away(): Promise<void> {
  const closing = server;
  server = null;
  for (const socket of sockets) socket.destroy();
  sockets.clear();
  if (closing) await new Promise<void>((done) => closing.close(() => done()));
}

/** Waits for what a real socket does; the program's own clock moves by hand. */
async function until(is: () => boolean): Promise<void> {
  for (const end = Date.now() + 20_000; !is() && Date.now() < end; )
    await new Promise((done) => setImmediate(done));
  expect(is()).toBe(true);
}

function logTo(host = "localhost", ca: string | null = root) {
  const deps = { timers: hand, now: () => hand.wall(), say: (words: string) => void said.push(words) };
  const sink = new Syslog(`tls://${host}:${port}`, ca, deps);
  open.push(sink);
  return { sink, log: pino(LOG_OPTIONS, sink) };
}

/** Returns the whole messages of a stream of frames, by the octet counting of RFC 5425 4.3.1. */
function messages(stream: string): string[] {
  const bytes = Buffer.from(stream, "utf8");
  const found: string[] = [];
  for (let at = 0; at < bytes.length; ) {
    const space = bytes.indexOf(0x20, at);
    const length = Number(bytes.subarray(at, space).toString("ascii"));
    // The last frame may still be on its way.
    if (space < 0 || bytes.length < space + 1 + length) break;
    found.push(bytes.subarray(space + 1, space + 1 + length).toString("utf8"));
    at = space + 1 + length;
  }
  return found;
}
const texts = () => messages(got).map((m) => JSON.parse(m.slice(m.indexOf("{"))).msg as string);

it("[OPS-28] frames a line as RFC 5424 and RFC 5425 say, with the facility of what it is", () => {
  const line = JSON.stringify({ level: 40, time: Date.UTC(2026, 5, 1, 9), msg: "grün" });
  const [message = ""] = messages(syslogFrame(line, "ramp").toString("utf8"));
  // Local use 0 (16) and warning (4): 16 x 8 + 4, by RFC 5424 6.2.1.
  expect(message).toBe(`<132>1 2026-06-01T09:00:00.000Z ramp chockside ${process.pid} - - ${line}`);
  const audit = JSON.stringify({ level: 30, time: 0, audit: "signedIn" });
  // Log audit (13) and informational (6).
  expect(messages(syslogFrame(audit, "ramp").toString("utf8"))[0]).toMatch(/^<110>1 .* audit - \{/);
});

it("[OPS-28] a receiver that fails and comes back gets every line once, in order, and nothing waits for it", async () => {
  await back();
  const { sink, log } = logTo();
  log.info("one");
  await until(() => texts().length === 1 && sink.waiting === 0);
  await away();
  await until(() => said.length === 2);
  for (const words of ["two", "three", "four"]) log.info(words);
  expect(sink.waiting).toBe(3);
  // It is still away at the next try.
  await hand.pass(1_000);
  await until(() => hand.waiting === 1);
  await back();
  await hand.pass(1_000);
  await until(() => sink.waiting === 0 && texts().length === 4);
  expect(texts()).toEqual(["one", "two", "three", "four"]);
  expect(said).toEqual([
    "syslog is reached",
    "syslog is not reached: lines wait in memory",
    "syslog is reached",
  ]);
});

it("[OPS-28] the oldest lines are dropped when too many wait, and a line says how many", async () => {
  await back();
  await away();
  const { sink, log } = logTo();
  await until(() => hand.waiting === 1);
  for (let n = 0; n < 10_003; n += 1) log.info(`n${n}`);
  expect(sink.waiting).toBe(10_000);
  await back();
  await hand.pass(1_000);
  await until(() => sink.waiting === 0 && texts().length === 10_001);
  expect(texts().slice(0, 2)).toEqual(["log lines were dropped", "n3"]);
  expect(JSON.parse((messages(got)[0] ?? "").replace(/^[^{]*/, "")).dropped).toBe(3);
  expect(texts().at(-1)).toBe("n10002");
});

it("[OPS-28] nothing is sent to a receiver whose certificate is not of the named authority, or of another name", async () => {
  await back();
  const strange = logTo("localhost", null);
  strange.log.info("secret");
  await until(() => said.length === 1);
  expect(said[0]).toContain("not reached");
  expect(strange.sink.waiting).toBe(1);
  expect(got).toBe("");
});
