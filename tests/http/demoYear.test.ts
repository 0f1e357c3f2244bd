import { afterEach, describe, expect, it } from "vitest";
import { demo } from "../../seed/demo-data.ts";
import { year } from "../../seed/year/year.ts";
import { DemoYear } from "../../server/demo-year.ts";
import { addAircraft, bearer, signIn, type TestServer, testServer } from "./test-server.ts";

const servers: TestServer[] = [];
afterEach(() => Promise.all(servers.splice(0).map((s) => s.close())));

/** A server whose year has one start of each aircraft. */
async function withYear() {
  let made: DemoYear | null = null;
  const server = await testServer({
    demo: true,
    year: (services) => {
      made = new DemoYear(services, async (now) => {
        const { starts, play } = year(now);
        return { starts: starts.slice(0, 2), play };
      });
      return made;
    },
  });
  servers.push(server);
  const { directory } = server.services;
  await directory.addTypes(demo.types, 0);
  await addAircraft(directory, ...demo.aircraft);
  const idle = async () => made?.idle();
  return { server, idle };
}

const make = async ({ app }: TestServer, handle: string | null) =>
  app.inject({
    method: "POST",
    url: "/api/demo/year",
    headers: handle === null ? {} : bearer(await signIn(app, handle)),
    payload: {},
  });

describe("the demo's invented year", () => {
  it("[HIS-14] is made once, of recorded sessions, when a person of the demo asks for it", async () => {
    const { server, idle } = await withYear();
    const { store } = server.services;
    const [first, second] = await Promise.all([make(server, "dot"), make(server, "dot")]);
    expect([first.statusCode, first.json().done, second.json().done]).toEqual([200, false, false]);
    await idle();
    const last = (await make(server, "dot")).json();
    expect([last.done, last.aircraft.sort()]).toEqual([true, ["QX-CTD", "QX-PEN"]]);
    const sessions = await store.sessions(100);
    expect(sessions.map((s) => s.stage)).toEqual(["closed", "closed"]);
    await make(server, "dot");
    await idle();
    expect(await store.sessions(100)).toEqual(sessions);
    const headers = bearer(await signIn(server.app, "dot"));
    const engine = await server.app.inject({ url: "/api/engines/QX-PEN-E2/history", headers });
    expect(engine.json().rows).toHaveLength(1);
    for (const { id } of sessions) {
      const evidence = await server.app.inject({ url: `/api/sessions/${id}/evidence`, headers });
      expect(evidence.statusCode).toBe(200);
    }
  });

  it("[HIS-14] is made neither by a stranger, nor by a person of the house, nor without the demo", async () => {
    const { server } = await withYear();
    expect((await make(server, null)).statusCode).toBe(401);
    expect((await make(server, "fay")).statusCode).toBe(403);
    expect(await server.services.store.sessions(10)).toEqual([]);
    const bare = await testServer();
    servers.push(bare);
    expect((await make(bare, "fay")).statusCode).toBe(404);
  });
});
