import { randomUUID } from "node:crypto";
import { setTimeout as wait } from "node:timers/promises";
import { eventsOf } from "../../server/rehearsals/records.ts";
import { SCRIPTS } from "../../server/rehearsals/scripts.ts";
import type { Action } from "../../shared/protocol/commands.ts";
import { POSTS } from "../../shared/protocol/posts.ts";
import type { Person } from "../../shared/session/step.ts";
import { HandClock } from "../http/hand-clock.ts";
import { addAircraft, bearer, crewDirectory, planBody, signIn, testServer } from "../http/test-server.ts";
import { FOUR } from "../spec/aircraft.ts";

/** Starts, and rehearsals beside them. */
const MANY = 50;
/** Commands to the starts in a second, all together. */
const RATE = 50;
/** Time in which the partners of the rehearsals settle. Milliseconds. */
const SETTLE_MS = 5_000;

/** The machine's own clocks, in the place of those that tests move by hand. */
class RealClock extends HandClock {
  override wall(): number {
    return Date.now();
  }
  override steady(): number {
    return performance.now();
  }
  override after(ms: number, run: () => void): () => void {
    const timer = setTimeout(run, ms);
    return () => clearTimeout(timer);
  }
}

const person = (id: string): Person => ({ id, name: id, device: `${id}-tablet`, mayHold: POSTS });
const share = (sorted: readonly number[], part: number): number =>
  sorted[Math.min(sorted.length - 1, Math.floor(part * sorted.length))] ?? Number.NaN;

/**
 * Runs fifty starts on one server with a memory store: alone, with fifty rehearsals beside them, and alone again.
 * Prints the times of the starts' commands, from the moment at which each was due, and how they compare. Returns false
 * when a start's record holds something of a rehearsal. It judges no time: that is the machine's.
 */
export async function besideSoak(seconds: number): Promise<boolean> {
  const directory = await crewDirectory();
  const birds = Array.from({ length: MANY }, (_, i) => `CH-B${i}`);
  await addAircraft(directory, ...birds.map((id) => ({ id, name: id, typeId: FOUR.id })));
  const server = await testServer({ directory, hand: new RealClock() });
  const { sessions, rehearsals } = server.services;
  // One person may have forty open.
  const planners = [bearer(await signIn(server.app, "fay")), bearer(await signIn(server.app, "di"))];
  const starts: string[] = [];
  for (const [i, aircraft] of birds.entries()) {
    const headers = planners[i % planners.length] ?? {};
    const payload = { ...planBody(), commandId: randomUUID(), aircraft };
    const reply = await server.app.inject({ method: "POST", url: "/api/sessions", payload, headers });
    if (reply.statusCode !== 201) throw new Error(reply.body);
    starts.push(reply.json().id);
  }
  let sent = 0;
  /** The same crew's guard takes the post of one start after another, and leaves it in the next round. */
  const one = async (due: number): Promise<number> => {
    const [i, round] = [sent % MANY, Math.floor(sent / MANY)];
    sent += 1;
    const type = round % 2 === 0 ? "claimPost" : "leavePost";
    const action: Action = { type, post: "fireGuard" };
    const command = {
      v: 1,
      id: randomUUID(),
      session: starts[i] ?? "",
      clientAt: Date.now(),
      action,
    } as const;
    const { status } = await sessions.command(person(`guard-${i}`), command);
    if (status !== "accepted") throw new Error(`a start's command was ${status}`);
    return performance.now() - due;
  };
  const measured = async (what: string): Promise<number> => {
    const began = performance.now();
    const asked: Promise<number>[] = [];
    for (let n = 0; n < seconds * RATE; n += 1) {
      const due = began + (1_000 * n) / RATE;
      await wait(Math.max(0, due - performance.now()));
      asked.push(one(due));
    }
    const took = (await Promise.all(asked)).sort((a, b) => a - b);
    const [half, p99] = [share(took, 0.5), share(took, 0.99)];
    console.log(`${what}: ${took.length} commands, p50 ${half.toFixed(2)} ms, p99 ${p99.toFixed(2)} ms`);
    return p99;
  };
  const before = await measured("starts alone");
  const begin = async (i: number) => {
    const by = person(`teacher-${i}`);
    const script = SCRIPTS[i % SCRIPTS.length];
    if (!script) throw new Error("there are scripts");
    const { id } = await rehearsals.begin(by, { aircraft: birds[i] ?? "", script, seed: i, post: null });
    // The most that a desk can ask of the server.
    await rehearsals.atDesk(id, by, { do: "pace", frozen: false, speed: 4 });
    return { id, by, played: rehearsals.running(id) };
  };
  const begun: Awaited<ReturnType<typeof begin>>[] = [];
  for (let i = 0; i < MANY; i += 1) begun.push(await begin(i));
  await wait(SETTLE_MS);
  // At four times the speed some scripts end within the measurement: the next begins in their place.
  let [isMeasured, again] = [true, 0];
  const kept = (async () => {
    for (; isMeasured; await wait(1_000))
      for (const [i, { played }] of begun.entries())
        if (played.isOver && isMeasured) {
          begun[i] = await begin(i);
          again += 1;
        }
  })();
  const beside = await measured(`with ${MANY} rehearsals`);
  isMeasured = false;
  await kept;
  const views = begun.map(({ played }) => played);
  const rehearsed = views.map(({ view }) => view.playing.run.t).sort((a, b) => a - b);
  const slowed = views.filter(({ isSlowed }) => isSlowed).length;
  console.log(
    `seconds rehearsed: ${share(rehearsed, 0).toFixed(0)} to ${share(rehearsed, 1).toFixed(0)}; ${again} ended and were begun again; ${slowed} slowed`,
  );
  for (const { id, by, played } of begun) if (!played.isOver) await rehearsals.end(id, by);
  const after = await measured("starts alone again");
  const ratio = (p99: number) => (beside / p99).toFixed(2);
  console.log(`p99 with rehearsals, by that without: ${ratio(before)} before, ${ratio(after)} after`);
  let leaks = 0;
  for (const id of starts)
    for (const { session, fact } of await eventsOf(server.services, id))
      if (session !== id || fact.type === "rehearsed") leaks += 1;
  console.log(`${leaks} events of rehearsals in the records of starts`);
  await server.close();
  return leaks === 0;
}
