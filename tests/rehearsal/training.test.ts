import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { erase } from "../../server/personal/erase.ts";
import type { TrainingLine } from "../../server/rehearsals/trainings.ts";
import { DAY_MS } from "../../shared/house/due.ts";
import { startsIn } from "../../shared/house/starts.ts";
import type { FactOf, SessionEvent } from "../../shared/protocol/events.ts";
import { PARTNER_ID } from "../../shared/protocol/rehearsal.ts";
import { trainedIn } from "../../shared/rehearsal/training.ts";
import { START } from "../http/hand-clock.ts";
import { testServer } from "../http/test-server.ts";
import { FIRE } from "../spec/equipped.ts";
import { FINISHED, played, storeFinished } from "./finished.ts";
import { Both, CREW } from "./world.ts";

describe("what a person rehearsed", () => {
  const { events, state } = played();
  const guard = (of: readonly SessionEvent[]) => trainedIn(of)?.of.find((t) => t.post === "fireGuard");
  const without = (...left: FactOf<"sent">["kind"][]) =>
    events.filter(({ fact }) => fact.type !== "sent" || !left.includes(fact.kind));

  it("[RHS-40] is told with its script, post, start and length, and finished when the last engine started", () => {
    const taken = events.find(({ fact }) => fact.type === "postTaken" && fact.post === "fireGuard");
    const last = events.findLast(({ fact }) => fact.type === "sent" && fact.kind === "started");
    const end = events.findLast(({ fact }) => fact.type === "stageReached");
    if (!taken || !last || !end) throw new Error("the rehearsal was not played");
    expect(trainedIn(events)).toMatchObject({
      script: "test",
      aircraft: "QX-TST",
      typeName: state.type.name,
    });
    expect(guard(events)).toMatchObject({ post: "fireGuard", at: taken.at, finishedAt: last.at });
    expect(guard(events)?.seconds).toBe(Math.round((end.at - taken.at) / 1000));
    const closed = guard(without("started"));
    expect(closed?.finishedAt).toBe(events.find((e) => "stage" in e.fact && e.fact.stage === "closed")?.at);
  });

  it("[RHS-40] is finished by nobody when it was given up, nor by who left before", () => {
    const givenUp = without("started").map(
      (e): SessionEvent =>
        e.fact.type === "stageReached" && e.fact.stage === "closed"
          ? { ...e, fact: { type: "stageReached", stage: "abandoned", reason: "x" } }
          : e,
    );
    expect(guard(givenUp)?.finishedAt).toBeNull();
    const caught = events.findIndex(({ fact }) => fact.type === "sent" && fact.kind === "caught");
    const one = events[caught];
    if (!one) throw new Error("nothing caught");
    const left: SessionEvent = { ...one, fact: { type: "postLeft", post: "fireGuard" } };
    const early = guard([...events.slice(0, caught), left, ...events.slice(caught)]);
    expect(early?.finishedAt).toBeNull();
    expect(early?.seconds).toBe(Math.round((one.at - (early?.at ?? 0)) / 1000));
  });

  it("[RHS-40] is nothing for a partner, and nothing of a start", () => {
    const partners = events.map(
      (e): SessionEvent =>
        e.fact.type === "postTaken" && e.actor.kind === "person"
          ? { ...e, actor: { ...e.actor, id: `${PARTNER_ID}x` } }
          : e,
    );
    expect(trainedIn(partners)?.of).toEqual([]);
    const [first] = events;
    if (first?.fact.type !== "planned") throw new Error("no plan");
    const { rehearsal: _is, ...fact } = first.fact;
    expect(trainedIn([{ ...first, fact }, ...events.slice(1)])).toBeNull();
  });
});

describe("training on the server", () => {
  let both: Both;
  beforeEach(async () => {
    both = await new Both(await testServer()).begin();
  });
  afterEach(() => both.test.close());

  const lines = async (who: string, url = "/me/training") =>
    (await both.ask("GET", url, who)).json().lines as TrainingLine[];
  /** Bo guards in the rehearsal that Ada began, for ten seconds, with Di at the desk. */
  const guarded = async () => {
    const id = both.rehearsal;
    await both.command(CREW.fireGuard, id, { type: "claimPost", post: "fireGuard" });
    await both.ask("POST", `/rehearsals/${id}/desk`, "di", { do: "mark", words: "Look here" });
    await both.test.hand.pass(10_000);
    expect(await lines("bo")).toEqual([]);
    expect((await both.ask("DELETE", `/rehearsals/${id}`, "ada")).statusCode).toBe(204);
  };

  it("[RHS-40] is one's own for everybody, and anybody's for a supervisor alone", async () => {
    await guarded();
    const own = await lines("bo");
    expect(own).toHaveLength(1);
    expect(own[0]).toMatchObject({ session: both.rehearsal, script: "firstDay", aircraft: "CH-TST" });
    expect(own[0]).toMatchObject({ post: "fireGuard", finishedAt: null });
    expect(own[0]?.seconds).toBeGreaterThanOrEqual(10);
    expect([...(own[0]?.watchedBy ?? [])].sort()).toEqual(["Ada", "Di"]);
    expect(await lines("bo", "/people/bo/training")).toEqual(own);
    expect(await lines("di", "/people/bo/training")).toEqual(own);
    expect((await both.ask("GET", "/people/bo/training", "ada")).statusCode).toBe(403);
    expect((await both.ask("GET", "/people/none/training", "di")).statusCode).toBe(404);
    expect(await lines("ada")).toEqual([]);
  });

  it("[RHS-40] ends with the person who was erased, and keeps no name of one who watched", async () => {
    await guarded();
    await lines("bo");
    const { store, directory } = both.test.services;
    const gone = async (id: string) => {
      const person = await directory.person(id);
      if (!person) throw new Error(`no ${id}`);
      return erase(store, directory, person);
    };
    await gone("di");
    expect((await lines("bo"))[0]?.watchedBy).toContain(null);
    expect((await lines("bo"))[0]?.watchedBy).not.toContain("Di");
    const { trainings } = both.test.services;
    await gone("bo");
    expect((await both.ask("GET", "/people/bo/training", "fay")).statusCode).toBe(404);
    expect(JSON.stringify(await trainings.of("ada"))).not.toContain("Bo");
  });

  it("[RHS-41] counts as no start, though every engine started and the person held the post", async () => {
    const { services } = both.test;
    const at = START - 5_000;
    const log = await storeFinished(services.store, "bo", at);
    expect((await lines("bo")).map(({ post, finishedAt }) => [post, finishedAt])).toEqual([
      ["fireGuard", at],
    ]);
    await services.currencies.closed(FINISHED);
    await services.currencies.catchUp();
    expect(await services.directory.currencies.lastStarts()).toEqual([]);
    // The same record under the id of a start would count: it is the rehearsal that does not.
    expect(startsIn(log).map(({ personId }) => personId)).toContain("bo");
  });

  it("[RHS-42] lets a person take a real post where the house counts it, and is refused beside recency", async () => {
    const { services } = both.test;
    await storeFinished(services.store, "bo", START - 5_000);
    const claim = () => both.command(CREW.fireGuard, both.start, { type: "claimPost", post: "fireGuard" });
    const add = (more: object) => both.ask("POST", "/currencies", "di", { ...FIRE, ...more });
    const recent = await add({ recencyDays: 90, rehearsalDays: 90 });
    expect(recent.statusCode).toBe(400);
    expect(recent.json().errors).toMatchObject([{ path: "body.rehearsalDays" }]);
    expect((await add({})).statusCode).toBe(201);
    expect(await claim()).toMatchObject({ refusal: { reason: "currencyLapsed" } });
    const { id: _id, ...entry } = { ...FIRE, rehearsalDays: 30 };
    const token = await both.token("di");
    const changed = await both.test.app.inject({
      ...{ method: "PUT", url: "/api/currencies/fire", payload: entry },
      headers: { authorization: `Bearer ${token}`, "if-match": '"1"' },
    });
    expect(changed.statusCode).toBe(200);
    expect(await claim()).toMatchObject({ status: "accepted" });
    expect((await both.state(both.start)).posts.fireGuard?.currentUntil).toBe(START - 5_000 + 30 * DAY_MS);
  });
});
