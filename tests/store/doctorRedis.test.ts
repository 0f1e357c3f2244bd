import { type AddressInfo, createServer, type Server } from "node:net";
import { afterEach, describe, expect, it } from "vitest";
import { redisFinding } from "../../server/doctor/redis.ts";

let server: Server;
afterEach(() => new Promise<void>((done) => void server.close(() => done())));

/**
 * Starts a server that speaks Redis's protocol (RESP 2: a command is an array of strings) as far as the doctor needs.
 * @param answers by command; every other command is answered OK
 * @returns its address, with a password in it, and the commands that it has heard
 */
async function redis(answers: Record<string, string>): Promise<{ url: string; heard: string[] }> {
  const heard: string[] = [];
  server = createServer((socket) => {
    socket.on("error", () => {});
    socket.on("data", (bytes) => {
      for (const [, command = ""] of bytes.toString().matchAll(/\*\d+\r\n\$\d+\r\n(\w+)/g)) {
        heard.push(command.toUpperCase());
        socket.write(answers[command.toUpperCase()] ?? "+OK\r\n");
      }
    });
  });
  await new Promise<void>((done) => server.listen(0, "127.0.0.1", done));
  return { url: `redis://:hush@127.0.0.1:${(server.address() as AddressInfo).port}`, heard };
}

const SERVES = { HELLO: "*0\r\n", PING: "+PONG\r\n", XREVRANGE: "*0\r\n" };

describe("npm run doctor, on Redis", () => {
  it("[OPS-18] asks it for the servers' stream, and writes nothing", async () => {
    const { url, heard } = await redis(SERVES);
    expect(await redisFinding(url)).toMatchObject({ at: "Redis", is: "ok" });
    expect(heard).toEqual(expect.arrayContaining(["PING", "XREVRANGE"]));
    expect(heard).not.toContain("XADD");
  });

  it.each([
    ["refuses the sign-in", { HELLO: "-WRONGPASS invalid password\r\n" }, "WRONGPASS"],
    ["is still loading", { PING: "-LOADING Redis is loading\r\n" }, "LOADING"],
    ["refuses the stream", { XREVRANGE: "-NOPERM no rights for this key\r\n" }, "NOPERM"],
  ])("[OPS-18] finds a Redis that %s, and repeats no password", async (_, answers, why) => {
    const { url } = await redis({ ...SERVES, ...answers });
    const found = await redisFinding(url);
    expect(found).toMatchObject({ is: "bad", says: expect.stringContaining(why) });
    expect(JSON.stringify(found)).not.toContain("hush");
  });

  it("[OPS-18] finds a Redis that does not answer", async () => {
    const { url } = await redis({ ...SERVES, HELLO: "" });
    expect(await redisFinding(url, 50)).toMatchObject({
      is: "bad",
      says: expect.stringContaining("no answer within 0.05 s"),
    });
  });

  it("[OPS-18] finds that nobody listens", async () => {
    const { url } = await redis(SERVES);
    await new Promise<void>((done) => void server.close(() => done()));
    expect(await redisFinding(url)).toMatchObject({
      is: "bad",
      says: expect.stringContaining("ECONNREFUSED"),
    });
  });
});
