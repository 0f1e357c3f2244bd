import { afterEach, describe, expect, it } from "vitest";
import { DemoCrews, type PlayCrew } from "../../server/demo-crews.ts";
import { bearer, signIn, type TestServer, testServer } from "./test-server.ts";

const servers: TestServer[] = [];
afterEach(() => Promise.all(servers.splice(0).map((s) => s.close())));

type Wanted = Parameters<PlayCrew>[0];

/** A server whose crews only say that they play. */
async function withCrews(reached = true) {
  const wanted: Wanted[] = [];
  const ends: (() => void)[] = [];
  const crews = new DemoCrews(async () => async (of) => {
    wanted.push(of);
    const done = new Promise<void>((resolve) => ends.push(resolve));
    return { sessionId: `s${wanted.length}`, done, stop: () => ends[wanted.length - 1]?.() };
  });
  if (reached) crews.reach("http://127.0.0.1:1");
  const server = await testServer({ demo: true, crews });
  servers.push(server);
  return { server, wanted, ends };
}

async function begin({ app }: TestServer, handle: string | null, except: string | null = null) {
  const headers = handle === null ? {} : bearer(await signIn(app, handle));
  return app.inject({ method: "POST", url: "/api/demo/crew", headers, payload: { except } });
}

describe("a scripted crew in the server", () => {
  it("[PAN-55] is begun by a person of the demo, who may take one of its posts, and leaves that person out", async () => {
    const { server, wanted } = await withCrews();
    const reply = await begin(server, "dot", "cockpit");
    expect([reply.statusCode, reply.json()]).toEqual([201, { id: "s1" }]);
    expect(wanted).toEqual([{ url: "http://127.0.0.1:1", except: "cockpit", leaveOut: "dot" }]);
    expect((await server.app.inject({ url: "/api/demo" })).json().crews).toBe(true);
  });

  it("[PAN-55] is begun neither by a stranger nor by a person of the house", async () => {
    const { server, wanted } = await withCrews();
    expect((await begin(server, null)).statusCode).toBe(401);
    expect((await begin(server, "fay")).statusCode).toBe(403);
    expect(wanted).toEqual([]);
  });

  it("[PAN-55] does not exist without the demo", async () => {
    const server = await testServer();
    servers.push(server);
    expect((await begin(server, "fay")).statusCode).toBe(404);
    expect((await server.app.inject({ url: "/api/demo" })).json()).toEqual({
      demo: false,
      crews: false,
      signIns: [],
    });
  });

  it("[PAN-55] plays three at a time, and another once one has ended", async () => {
    const { server, ends } = await withCrews();
    for (let i = 0; i < 3; i += 1) expect((await begin(server, "dot")).statusCode).toBe(201);
    const full = await begin(server, "dot");
    expect([full.statusCode, full.json().type]).toEqual([409, "urn:chockside:problem:noCrew"]);
    ends[0]?.();
    await new Promise(setImmediate);
    expect((await begin(server, "dot")).statusCode).toBe(201);
  });

  it("[PAN-55] waits until the server can be reached, and for a post that there is", async () => {
    const { server } = await withCrews(false);
    expect((await begin(server, "dot")).statusCode).toBe(409);
    expect((await begin(server, "dot", "pilot")).statusCode).toBe(400);
  });
});
