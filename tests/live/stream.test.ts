import { randomUUID } from "node:crypto";
import { afterEach, beforeEach, expect, it } from "vitest";
import { readSealed } from "../../shared/evidence/read.ts";
import type { Action } from "../../shared/protocol/commands.ts";
import { addAircraft, bearer, planned, signIn } from "../http/test-server.ts";
import { Chance } from "../sim/chance.ts";
import { type LiveServer, liveServer } from "./panel.ts";
import { type Message, StreamClient } from "./stream-client.ts";

let server: LiveServer;
let fay: string;
const clients: StreamClient[] = [];
beforeEach(async () => {
  server = await liveServer();
  fay = await signIn(server.app, "fay");
});
afterEach(async () => {
  for (const client of clients.splice(0)) client.cut();
  await server.close();
});

const PERSON = { id: "fay", name: "Fay", device: "fay-tablet", mayHold: [] };
const open = async (query = "", token = fay, last?: string) => {
  const client = await StreamClient.open(`${server.url}/api/live${query}`, token, last);
  clients.push(client);
  return client;
};

function act(session: string, action: Action) {
  const { clock, sessions } = server.services;
  const command = { v: 1 as const, id: randomUUID(), session, clientAt: clock.now(), action };
  return sessions.command(PERSON, command);
}
const flash = (session: string) => act(session, { type: "recordFlash", miles: 4 });
const numbers = (messages: Message[], session: string) =>
  messages.flatMap(({ data }) => (data.event?.session === session ? data.event.seq : []));

it("[INT-6] gives the state of what is open, then each event as the record has it, with names as panels have them", async () => {
  const { id } = await planned(server.app, fay);
  const client = await open(`?session=${id}`);
  const [hello, state] = await client.until((all) => all.length === 2);
  expect([hello?.name, hello?.data.v]).toEqual(["hello", 1]);
  expect([state?.name, state?.data.session, state?.data.state?.seq]).toEqual(["state", id, 1]);
  await act(id, { type: "claimPost", post: "cockpit" });
  const [event] = (await client.until((all) => all.length === 3)).slice(2);
  const recorded = await server.app.inject({
    url: `/api/sessions/${id}/events?since=1`,
    headers: bearer(fay),
  });
  expect(event?.data.event).toEqual(recorded.json().events[0]);
  expect(event?.data.event?.actor).toMatchObject({ name: "Fay" });
  expect(event?.id).toBe(`${id}:2`);
});

it("[INT-6] follows one aircraft, or the whole ramp, with sessions that begin meanwhile", async () => {
  await addAircraft(server.services.directory, { id: "CH-OTH", name: "Other", typeId: "four" });
  const { id } = await planned(server.app, fay);
  const one = await open("?aircraft=CH-OTH");
  const all = await open();
  await one.until((m) => m.length === 1);
  await all.until((m) => m.length === 2);
  const other = (await planned(server.app, fay, { aircraft: "CH-OTH" })).id;
  const seen = await one.until((m) => numbers(m, other).length >= 1);
  await flash(id);
  expect(numbers(seen, id)).toEqual([]);
  const both = await all.until((m) => numbers(m, other).length >= 1 && numbers(m, id).length >= 1);
  expect(numbers(both, other)[0]).toBe(1);
  expect(numbers(both, id)[0]).toBe(2);
});

it.each([3, 11])(
  "[INT-7] a reader cut at random loses nothing and gets nothing twice (seed %i)",
  async (seed) => {
    const chance = new Chance(seed);
    await addAircraft(server.services.directory, { id: "CH-OTH", name: "Other", typeId: "four" });
    const sessions = [(await planned(server.app, fay)).id];
    const got: Message[] = [];
    let last: string | undefined;
    for (let round = 0; round < 12; round += 1) {
      const client = await open("", fay, last);
      const work = async () => {
        for (let n = 0; n < 6; n += 1) {
          const at = sessions[chance.below(sessions.length)] as string;
          await flash(at);
          if (chance.is(0.08)) sessions.push((await planned(server.app, fay, { aircraft: "CH-OTH" })).id);
          // One that begins and ends while nobody may be reading.
          if (chance.is(0.08)) {
            const { id } = await planned(server.app, fay, { aircraft: "CH-OTH" });
            await act(id, { type: "abandon", reason: "Weather" });
            sessions.push(id);
          }
        }
      };
      const working = work();
      await client.cutAfter(chance.below(30_000));
      await working;
      got.push(...client.messages);
      last = got.at(-1)?.id ?? last;
    }
    const final = await open("", fay, last);
    const { store, names } = server.services;
    for (const id of sessions) {
      const row = await store.session(id);
      await final.until((m) => [...got, ...m].some(({ data }) => headOf(data, id) === row?.headSeq));
    }
    got.push(...final.messages);
    for (const id of sessions) {
      const row = await store.session(id);
      const began = got.find(({ data }) => data.session === id)?.data.state?.seq ?? 0;
      const expected = Array.from({ length: (row?.headSeq ?? 0) - began }, (_, n) => began + 1 + n);
      expect(numbers(got, id)).toEqual(expected);
      const stored = (await store.read(id, began, 1_000)).map((e) => readSealed(names.reveal(e.body)).event);
      expect(got.flatMap(({ data }) => (data.event?.session === id ? [data.event] : []))).toEqual(stored);
    }
  },
);

const headOf = (data: Message["data"], session: string) =>
  data.event?.session === session ? data.event.seq : data.session === session ? data.state?.seq : 0;

it("[INT-8] begins with the state again for a number that the record no longer has, and refuses another's position", async () => {
  const { id } = await planned(server.app, fay);
  const client = await open(`?session=${id}`, fay, `${id}:900`);
  expect((await client.until((all) => all.length === 2))[1]?.name).toBe("state");
  for (const wrong of ["x", `${id}:-1`, `${id}:1 ${id}:2`, "other:1", `t1 ${"a:1 ".repeat(5_000)}`]) {
    const reply = await server.app.inject({
      url: `/api/live?session=${id}`,
      headers: { ...bearer(fay), "last-event-id": wrong },
    });
    expect(reply.json().type).toBe("urn:chockside:problem:malformed");
  }
  const gone = await server.app.inject({ url: "/api/live?session=none", headers: bearer(fay) });
  expect(gone.statusCode).toBe(404);
});

it("[INT-9] sends a sign of life every ten seconds and ends with the account, the sign-in or the server", async () => {
  const office = { id: "di", name: "Di", mayHold: ["supervisor" as const] };
  const { accounts } = server.services;
  const made = { name: "Wall", until: "2026-06-02", scopes: [{ is: "readLive" as const }] };
  const first = await accounts.add(office, made);
  const second = await accounts.add(office, made);
  const wall = await open("", first.token);
  const late = await open("", second.token);
  const person = await open();
  for (const client of [wall, late, person]) await client.until((all) => all.length === 1);
  await server.hand.pass(10_000);
  await wall.untilText(": beat\n\n");
  await accounts.revoke(office, first.id);
  await wall.ended;
  await server.app.inject({ method: "POST", url: "/api/sign-out", headers: bearer(fay) });
  await person.ended;
  // Past the last day of the second account, by the look every five seconds.
  await server.hand.leap(40 * 3_600_000);
  await server.hand.pass(6_000);
  await late.ended;
  const again = await open("", await signIn(server.app, "fay"));
  await again.until((all) => all.length === 1);
  const closing = server.app.close();
  await again.ended;
  await closing;
});

it("[INT-10] opens no more than eight streams for one person or account", async () => {
  for (let n = 0; n < 8; n += 1) await (await open()).until((all) => all.length === 1);
  const ninth = await server.app.inject({ url: "/api/live", headers: bearer(fay) });
  expect([ninth.statusCode, ninth.headers["retry-after"]]).toEqual([429, "5"]);
  clients[0]?.cut();
  await expect
    .poll(async () => {
      const client = await StreamClient.open(`${server.url}/api/live`, fay).catch(() => null);
      if (client) clients.push(client);
      return client !== null;
    })
    .toBe(true);
});
