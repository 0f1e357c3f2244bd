import { Writable } from "node:stream";
import { pino } from "pino";
import { expect, it, vi } from "vitest";
import { DOOR } from "../../server/door.ts";
import { LIMITS } from "../../server/live/limits.ts";
import { PRESS } from "../../server/print/press.ts";
import { OPEN_PER_PERSON } from "../../server/sessions/planning.ts";
import { planned, signIn } from "../http/test-server.ts";
import { HOLD, liveServer, panelOf } from "../live/panel.ts";
import { besiege } from "./siege.ts";

/** Holds and releases by the crew during the attacks. */
const ROUNDS = 30;
/** Server time of each round. */
const ROUND_MS = 200;
/** Milliseconds between two attacks of one kind, because they share this process with the server. */
const PAUSE_MS = 25;
const SECONDS = (ROUNDS * ROUND_MS) / 1_000;

it("[SEC-31] strangers, a bad guest and a bad supervisor at once cost bounded work, and the crew beside them is answered every time", async () => {
  let lines = 0;
  const to = new Writable({
    write(chunk, _encoding, done) {
      lines += String(chunk).trim().split("\n").length;
      done();
    },
  });
  let printing = 0;
  let most = 0;
  let sheets = 0;
  const printer = {
    async print() {
      printing += 1;
      sheets += 1;
      most = Math.max(most, printing);
      await new Promise((resolve) => setTimeout(resolve, 20));
      printing -= 1;
      return Buffer.alloc(50_000);
    },
    close() {},
  };
  const server = await liveServer({
    logger: pino({ level: "info" }, to),
    printer,
    perMinute: { signIns: 1_000, address: 1e9, signIn: 1_200, costly: 60 },
  });
  const { directory, store } = server.services;
  const fay = await signIn(server.app, "fay", "office");
  const [running, ended] = [await planned(server.app, fay), await planned(server.app, fay)];
  const office = await panelOf(server, "fay", "office");
  await office.command(ended.id, { type: "claimPost", post: "supervisor" });
  await office.command(ended.id, { type: "abandon", reason: "weather" });
  const crew = await Promise.all(["ada", "bo", "cy"].map((handle) => panelOf(server, handle)));
  for (const panel of crew) await panel.watch(running.id);
  const target = {
    url: server.url,
    guest: await signIn(server.app, "ed"),
    supervisor: await signIn(server.app, "di"),
    session: running.id,
    over: ended.id,
    aircraft: "CH-TST",
  };
  const lookUps = vi.spyOn(directory, "signInByToken");
  const before = (await store.openSessions()).length;
  const ramps = crew[0]?.ramps ?? 0;
  let connections = 0;
  let goOn = true;
  const attack = besiege(target, () => goOn, PAUSE_MS);
  const answers: string[] = [];
  for (let n = 0; n < ROUNDS; n += 1) {
    const [one, other] = [crew[n % 3], crew[(n + 1) % 3]];
    const held = await one?.command(running.id, HOLD);
    answers.push(held?.status ?? "none");
    const ref = (held as { seq: number }).seq;
    answers.push((await other?.command(running.id, { type: "present" }))?.status ?? "none");
    answers.push(
      (await one?.command(running.id, { type: "send", kind: "release", ref, channel: "panel" }))?.status ??
        "none",
    );
    await new Promise<void>((resolve) =>
      server.app.server.getConnections((_error, open) => {
        connections = Math.max(connections, open);
        resolve();
      }),
    );
    await server.hand.leap(ROUND_MS);
  }
  goOn = false;
  const outcomes = await attack;

  // The crew: each hold is recorded, each panel is at the head, nothing is missing or doubled.
  expect(answers.filter((_, n) => n % 3 === 0)).toEqual(Array(ROUNDS).fill("accepted"));
  expect(answers).not.toContain("error");
  const { state } = await server.services.sessions.get(running.id);
  for (const panel of crew) {
    await panel.exchange();
    expect([panel.state?.seq, panel.faults]).toEqual([state.seq, []]);
  }
  // The attacks took place, and no answer was a fault of the server.
  for (const what of ["closed", "nowhere 404", "forged 401", "guestPlan 403", "type 200", "stop taken"])
    expect(outcomes[what], `${what} of ${JSON.stringify(outcomes)}`).toBeGreaterThan(0);
  expect(Object.keys(outcomes).filter((what) => / 5\d\d$/.test(what))).toEqual([]);
  expect(outcomes["stop other"]).toBeUndefined();
  // The costs are bounded: look-ups, sheets, plans, notices, connections, lines.
  expect(lookUps.mock.calls.length).toBeLessThan(
    3 * LIMITS.failedBurst + (outcomes["forged 401"] ?? 0) + 500,
  );
  expect(most).toBeLessThanOrEqual(2);
  expect(sheets).toBeLessThanOrEqual(60 + PRESS.perPerson);
  expect((await store.openSessions()).length - before).toBeLessThanOrEqual(OPEN_PER_PERSON);
  expect((crew[0]?.ramps ?? 0) - ramps).toBeLessThanOrEqual((1_000 / LIMITS.rampMs) * SECONDS + 1);
  expect(connections).toBeLessThanOrEqual(DOOR.unauthenticated + 100);
  expect(lines).toBeLessThan(100);
  for (const panel of [...crew, office]) panel.close();
  await server.close();
});
