import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { Api } from "../../seed/crew/api.ts";
import { wallClock } from "../../seed/crew/clock.ts";
import { CrewLink } from "../../seed/crew/link.ts";
import { type RunningCrew, runCrew } from "../../seed/crew/run.ts";
import { demo } from "../../seed/demo-data.ts";
import type { Post } from "../../shared/protocol/posts.ts";
import type { RefusalReason } from "../../shared/protocol/refusals.ts";
import type { SessionState } from "../../shared/session/state.ts";
import { type DemoServer, demoServer } from "./demo-server.ts";

/** Far faster than people. The limits of the aircraft type are not shortened, so they are easy to keep. */
const PACE = 120;
/** A seed with which every engine catches at its first attempt, because a starter cools at its own pace. */
const WILLING = 3;
/** An aircraft with two engines, for a short start. */
const TWIN = { aircraft: "QX-PEN" };

/** Refusals that only mean that something came too late or crossed another message on the way. */
const OF_LATENESS: readonly RefusalReason[] = [
  "tooLate",
  "alreadyDone",
  "signalClosed",
  "clearanceExpired",
  "clearanceVoid",
  "conditionsUnmet",
  "stopOpen",
  "wrongEngineState",
];

describe("a crew on a real server", () => {
  let open: DemoServer;
  let crew: RunningCrew | null = null;
  let link: CrewLink | null = null;

  beforeEach(async () => {
    open = await demoServer();
  });
  afterEach(async () => {
    crew?.stop();
    link?.close();
    await open.close();
  });

  async function factsOf(id: string) {
    const stored = await open.services.store.read(id, 0, 1_000);
    return stored.map((e) => JSON.parse(e.body).fact);
  }

  /** Signs a demo person in and keeps a copy of the session until it is as wanted. */
  async function person(handle: string, session: string) {
    const api = new Api(open.url);
    const who = demo.people.find((p) => p.handle === handle);
    if (!who) throw new Error(`nobody is called ${handle}`);
    const { token } = await api.signIn(who, `panel-${handle}`);
    let look = () => {};
    const mine = new CrewLink({
      url: open.url,
      token,
      session,
      clock: wallClock,
      onChange: () => look(),
      onEnd: () => {},
    });
    link = mine;
    const until = (wanted: (state: SessionState) => boolean) =>
      new Promise<SessionState>((resolve) => {
        look = () => {
          if (mine.inStep && mine.state && wanted(mine.state)) resolve(mine.state);
        };
        look();
      });
    return { until, send: mine.send.bind(mine) };
  }

  it("[SED-8] plans a session where there is none and plays it to its end", async () => {
    const lines: string[] = [];
    crew = await runCrew({ url: open.url, pace: PACE, seed: WILLING, onLine: (line) => lines.push(line) });
    expect(await crew.done).toBe("closed");
    const facts = await factsOf(crew.sessionId);
    // On the real clock a busy machine may be late, and may be told so; what it says must still be right.
    const wrong = facts.flatMap((f) =>
      f.type === "refused" && !OF_LATENESS.includes(f.refusal.reason) ? [f.refusal.reason] : [],
    );
    expect(wrong).toEqual([]);
    const started = facts.filter((f) => f.type === "sent" && f.kind === "started").map((f) => f.engine);
    expect(started).toEqual([3, 4, 2, 1]);
    expect(lines.filter((l) => l.includes("Ready to start number 3"))).toHaveLength(1);
  });

  it("[SED-9] leaves a post alone while a person holds it, and takes it when they have left", async () => {
    const posts: Post[] = ["fireGuard", "groundPower", "supervisor"];
    crew = await runCrew({ url: open.url, pace: PACE, seed: WILLING, posts, plan: TWIN });
    const wenna = await person("wenna", crew.sessionId);
    await wenna.until(() => true);
    await wenna.send({ type: "claimPost", post: "cockpit" });
    const stood = await wenna.until(
      (s) => s.posts.cockpit !== null && posts.every((p) => s.posts[p]?.briefed === true),
    );
    expect(stood.posts.cockpit?.name).toBe("Wenna Trevark");
    expect(stood.stage).toBe("brief");
    crew.stop();

    const second = await runCrew({ url: open.url, pace: PACE, seed: WILLING });
    crew = second;
    expect(second.sessionId).toBe(stood.id);
    await wenna.send({ type: "leavePost", post: "cockpit" });
    expect(await second.done).toBe("closed");
    const cockpit = (await factsOf(stood.id)).filter((f) => f.post === "cockpit").map((f) => f.type);
    expect(cockpit).toEqual(["postTaken", "postLeft", "postTaken", "briefed"]);
  });

  it("[SED-10] comes back after the server restarted, and continues from the session's present state", async () => {
    let restarted: Promise<void> | null = null;
    crew = await runCrew({
      url: open.url,
      pace: PACE,
      seed: WILLING,
      plan: TWIN,
      onLine: (line) => {
        if (line.includes("Cranking number 2")) restarted ??= open.restart();
      },
    });
    expect(await crew.done).toBe("closed");
    await restarted;
    const types = (await factsOf(crew.sessionId)).map((f) => f.type);
    expect(types.filter((t) => t === "restarted")).toHaveLength(1);
    expect(types.filter((t) => t === "postTaken")).toHaveLength(4);
  });

  it("[SED-8] says what is wrong where no server answers, or none with a demonstration", async () => {
    const nowhere = new URL(open.url);
    await open.close();
    await expect(runCrew({ url: nowhere.href })).rejects.toThrow(/no server answers at .*npm start/);
    open = await demoServer({ demo: false });
    await expect(runCrew({ url: open.url })).rejects.toThrow(/no demo/);
  });
});
