import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { canonical } from "../../shared/evidence/canonical.ts";
import { readSealed } from "../../shared/evidence/read.ts";
import { manifestSchema, verify } from "../../shared/evidence/verify.ts";
import { eventSchema } from "../../shared/protocol/events.ts";
import { evolve } from "../../shared/session/evolve.ts";
import { ed, given, replay, sha256 } from "./given.ts";

const fixture = (name: string) => readFileSync(new URL(`fixtures/${name}`, import.meta.url), "utf8");

describe("events", () => {
  it("[EVT-1] have numbers without gaps, in one session", () => {
    const story = given().upTo("starting").started(3);
    expect(story.log.map((e) => e.seq)).toEqual(story.log.map((_, i) => i + 1));
    const next = story.log.at(-1);
    if (!next) throw new Error("the story has begun");
    expect(() => evolve(story.state, next)).toThrow("does not follow");
    expect(() => evolve(story.state, { ...next, seq: next.seq + 2 })).toThrow("does not follow");
    expect(() => evolve(story.state, { ...next, seq: next.seq + 1, session: "other" })).toThrow(
      "event of session",
    );
  });

  it("[EVT-2] give the same state when replayed at once, event by event or from the middle", () => {
    const story = given().upTo("starting").started(3);
    story.does(ed, { type: "send", kind: "fire", engine: 4 });
    story.wait(60).restart();
    const middle = replay(story.log.slice(0, 20));
    const thawed = JSON.parse(canonical(middle)) as typeof middle;
    const resumed = story.log.slice(20).reduce(evolve, thawed);
    expect(canonical(resumed)).toBe(canonical(story.state));
    expect(canonical(story.replayed())).toBe(canonical(story.state));
  });

  it("[EVT-2] evolve does not change the state that it was given", () => {
    const story = given().upTo("starting");
    const before = story.state;
    const kept = canonical(before);
    story.started(3);
    story.does(ed, { type: "send", kind: "cutAll" });
    expect(canonical(before)).toBe(kept);
  });

  it("[EVT-3] name the person, the post, the device, the time and the command", () => {
    const story = given().manned();
    story.does(ed, { type: "send", kind: "hold" });
    const [event] = story.last.events;
    expect(event).toMatchObject({
      actor: { kind: "person", id: "ed", name: "Ed", post: null, device: "ed-tablet" },
      at: story.now,
      cause: null,
    });
    expect(event?.command).toMatch(/^[0-9a-f-]{36}$/);
    expect(event?.digest).toMatch(/^[0-9a-f]{64}$/);
  });

  it("[EVT-3, EVT-4] include consequences in the same step, which name their cause and no person", () => {
    const story = given().upTo("starting");
    story.readBack(3);
    const { events } = story.send("fireGuard", "hold");
    const [hold, ...follows] = events;
    expect(follows.map((e) => e.fact.type)).toContain("clearanceVoid");
    for (const event of follows) {
      expect(event).toMatchObject({
        actor: { kind: "system" },
        cause: hold?.seq,
        command: null,
        digest: null,
      });
    }
  });

  it("[EVT-6] carry the device's clock as sent, beside the server's", () => {
    const story = given().manned();
    expect(story.last.events[0]).toMatchObject({ at: story.now, clientAt: story.now });
  });
});

describe("a record kept from before", () => {
  // Written once by the code of its time and never again: stored events must stay readable.
  const [head, ...lines] = fixture("four-engines-1.ndjson").trimEnd().split("\n");
  const manifest = manifestSchema.parse(JSON.parse(head ?? ""));
  const kept = fixture("four-engines-1.state.txt").trimEnd();

  it("[EVT-5] of version 1 is verified and gives the same state as before", () => {
    const result = verify(lines, manifest, sha256);
    expect(result).toMatchObject({ ok: true, head: manifest.head, events: lines.length });
    expect(canonical(result.ok ? result.state : null)).toBe(kept);
  });

  it("[EVT-5] with a hold for each silent post gives the same state as before", () => {
    const events = fixture("silence-1.ndjson")
      .trimEnd()
      .split("\n")
      .map((line) => eventSchema.parse(JSON.parse(line)));
    expect(events.filter((e) => e.fact.type === "presenceLapsed")).toHaveLength(5);
    expect(canonical(replay(events))).toBe(fixture("silence-1.state.txt").trimEnd());
  });

  it("[EVT-5] is read whole, and every line has version 1", () => {
    for (const line of lines) expect(readSealed(line).event.v).toBe(1);
  });

  it("[EVT-5] fails on a line of an unknown version", () => {
    const line = (lines[0] ?? "").replace(/"v":1\}$/, '"v":99}');
    expect(() => readSealed(line)).toThrow("v:");
  });
});
