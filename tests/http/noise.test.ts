import { afterEach, beforeEach, expect, it } from "vitest";
import type { Action } from "../../shared/protocol/commands.ts";
import { RICH } from "../figures/rich.ts";
import { START } from "./hand-clock.ts";
import {
  addAircraft,
  bearer,
  crewDirectory,
  planned,
  signIn,
  type TestServer,
  testServer,
} from "./test-server.ts";

const HOUR = 3_600_000;
let test: TestServer;
const tokens = new Map<string, string>();

beforeEach(async () => {
  const directory = await crewDirectory();
  await directory.addTypes([{ ...RICH, id: "rich", approvedBy: "Chief engineer" }], START);
  await addAircraft(
    directory,
    { id: "CH-ONE", name: "Heard", typeId: "rich" },
    { id: "CH-TWO", name: "Heard too", typeId: "rich" },
  );
  test = await testServer({ directory });
  for (const who of ["bo", "di", "ed"]) tokens.set(who, await signIn(test.app, who));
});
afterEach(() => test.close());

let commands = 0;
const PEOPLE = { bo: ["Bo", "fireGuard"], di: ["Di", "supervisor"] } as const;

/** Bo at the guard's post or Di at the supervisor's acts, each on the tablet they signed in on. */
async function does(who: keyof typeof PEOPLE, session: string, action: Action): Promise<void> {
  commands += 1;
  const [name, post] = PEOPLE[who];
  const person = { id: who, name, device: `${who}-tablet`, mayHold: [post], currentUntil: null };
  const id = `00000000-0000-4000-9000-${String(commands).padStart(12, "0")}`;
  const result = await test.services.sessions.command(person, { v: 1, id, session, clientAt: 5, action });
  if (result.status !== "accepted") throw new Error(JSON.stringify(result));
}

/** Returns a session in which both hold their posts and an engine is seen turning. */
async function loud(aircraft: string): Promise<string> {
  const { id } = await planned(test.app, tokens.get("di") ?? "", { aircraft });
  await does("bo", id, { type: "claimPost", post: "fireGuard" });
  await does("di", id, { type: "claimPost", post: "supervisor" });
  await does("di", id, { type: "send", kind: "turning", engine: 3, channel: "panel" });
  return id;
}

const asks = async (who: string, session: string) => {
  const headers = bearer(tokens.get(who) ?? "");
  const reply = await test.app.inject({ url: `/api/sessions/${session}/noise`, headers });
  expect(reply.statusCode).toBe(200);
  const { at, figures } = reply.json();
  expect(at).toBe(test.hand.clock.now());
  return new Map<string, number>(figures.map((f: { id: string; value: number }) => [f.id, f.value]));
};

it("[NOI-4] the supervisor is told everybody's dose, the guard their own, a stranger none", async () => {
  const id = await loud("CH-ONE");
  await test.hand.leap(HOUR / 2);
  // Half an hour at 105 dBA is half a dose; the supervisor's 70 dBA does not count.
  const all = await asks("di", id);
  expect([...all.keys()].sort()).toEqual(["noise:bo", "noise:di"]);
  expect(all.get("noise:bo")).toBeCloseTo(50, 2);
  expect(all.get("noise:di")).toBe(0);
  expect([...(await asks("bo", id)).keys()]).toEqual(["noise:bo"]);
  expect((await asks("ed", id)).size).toBe(0);
});

it("[NOI-2] the dose grows over the sessions of the day as they are recorded", async () => {
  const one = await loud("CH-ONE");
  await test.hand.leap(HOUR / 4);
  expect((await asks("bo", one)).get("noise:bo")).toBeCloseTo(25, 2);
  await does("bo", one, { type: "leavePost", post: "fireGuard" });
  await test.hand.leap(HOUR);
  const two = await loud("CH-TWO");
  await test.hand.leap(HOUR / 4);
  expect((await asks("bo", two)).get("noise:bo")).toBeCloseTo(50, 2);
  // A day later only what continues still counts: 24 hours at 105 dBA.
  await test.hand.leap(24 * HOUR);
  tokens.set("di", await signIn(test.app, "di"));
  expect((await asks("di", two)).get("noise:bo")).toBeCloseTo(2400, 0);
});

it("[NOI-4] nobody is told without a sign-in, nor of a session that is not", async () => {
  const id = await loud("CH-ONE");
  expect((await test.app.inject({ url: `/api/sessions/${id}/noise` })).statusCode).toBe(401);
  const headers = bearer(tokens.get("di") ?? "");
  expect((await test.app.inject({ url: "/api/sessions/none/noise", headers })).statusCode).toBe(404);
});
