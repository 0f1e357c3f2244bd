import { expect, it } from "vitest";
import type { Priority } from "../../shared/alerts/definition.ts";
import type { Post } from "../../shared/protocol/posts.ts";
import { batteryWords } from "../../web/senses/battery.ts";
import { type DeviceState, deviceWords } from "../../web/senses/deviceWords.ts";
import { flashes, type Heard, nextTone, type Sounding, soundingFor } from "../../web/senses/sounding.ts";
import { lasts, TONE_ORDER, TONES, type Tone } from "../../web/senses/tones.ts";
import { laterWords } from "../../web/words/later.ts";
import { given, type Story } from "../spec/given.ts";

const text = laterWords("en");

const tones = (story: Story, post: Post): Tone[] =>
  soundingFor(story.state, post, story.now).map((s) => s.tone);
const keys = (story: Story, post: Post) => soundingFor(story.state, post, story.now).map((s) => s.key);
const starting = () => given().upTo("starting");

it("[SNS-1] the tones differ in rhythm alone, and each takes less than it waits before it sounds again", () => {
  const rhythms = TONE_ORDER.map((t) => JSON.stringify(TONES[t].notes.map((n) => [n.at, n.long])));
  expect(new Set(rhythms).size).toBe(TONE_ORDER.length);
  for (const tone of TONE_ORDER) expect(lasts(tone)).toBeLessThan(3);
  const priorities: Priority[] = ["emergency", "alarm", "warning"];
  expect(TONE_ORDER.slice(0, 3)).toEqual(priorities);
});

it("[SNS-2] a normal moment is silent, and what is asked of others is not heard", () => {
  const story = starting();
  for (const post of ["fireGuard", "groundPower"] as const)
    expect(tones(story, post).filter((t) => t !== "asked")).toEqual([]);
  story.requested(3).guarded(3);
  const before = keys(story, "groundPower");
  const clearance = story.send("supervisor", "clearToStart", { engine: 3 });
  expect(clearance.refusal).toBeUndefined();
  expect(tones(story, "cockpit")).toContain("asked");
  expect(keys(story, "groundPower")).toEqual(before);
});

it("[SNS-2] a hold is heard as an alarm, a fire as an emergency, by all but who raised it, until each acknowledges", () => {
  const story = starting();
  story.send("fireGuard", "hold");
  expect(tones(story, "fireGuard")).not.toContain("alarm");
  for (const post of ["cockpit", "groundPower", "supervisor"] as const)
    expect(tones(story, post), post).toContain("alarm");
  story.answer("cockpit", story.openSignal("hold"), "received");
  expect(tones(story, "cockpit")).not.toContain("alarm");
  expect(tones(story, "groundPower")).toContain("alarm");
  story.send("cockpit", "fire", { engine: 3, place: "exhaust" });
  expect(tones(story, "fireGuard")).toContain("emergency");
  expect(tones(story, "cockpit")).not.toContain("emergency");
});

it("[SNS-3] an alert the record sounds again is heard again", () => {
  const story = starting();
  story.send("fireGuard", "hold");
  const [before] = keys(story, "groundPower").filter((k) => k.startsWith("alert:"));
  story.wait(story.state.type.timing.resound.value + 1);
  expect(story.told("alertAgain").length).toBeGreaterThan(0);
  const [after] = keys(story, "groundPower").filter((k) => k.startsWith("alert:"));
  expect(after).toBeDefined();
  expect(after).not.toBe(before);
});

const once = (key: string, tone: Tone): Sounding => ({ key, tone, everyMs: null });

it("[SNS-3] of what is due the most pressing sounds; what was heard stays silent, an emergency comes back", () => {
  const fire: Sounding = { key: "fire", tone: "emergency", everyMs: 3_000 };
  const first = nextTone(new Map(), [once("a", "asked"), fire, once("b", "alarm")], 0);
  expect(first.tone).toBe("emergency");
  const heard = (h: Heard, now: number, all: Sounding[]) => nextTone(h, all, now);
  const rest = [once("a", "asked"), fire, once("b", "alarm")];
  expect(heard(first.heard, 2_999, rest).tone).toBeNull();
  expect(heard(first.heard, 3_000, rest).tone).toBe("emergency");
  expect(heard(first.heard, 9_000, [once("b", "alarm")]).tone).toBeNull();
  // An ask that went and came back is a new one.
  const gone = heard(first.heard, 4_000, []);
  expect(heard(gone.heard, 5_000, [once("b", "alarm")]).tone).toBe("alarm");
});

it("[SNS-4] silence is asked about in sight first and with a tone later, until a touch", () => {
  const story = starting().requested(3);
  const { presenceSeen, presenceHeard } = story.state.type.timing;
  const asked = () => soundingFor(story.state, "fireGuard", story.now).filter((s) => s.key === "present");
  story.unseen(presenceSeen.value * 1000);
  expect(asked()).toEqual([]);
  story.unseen((presenceHeard.value - presenceSeen.value) * 1000 - 1);
  expect(asked()).toEqual([]);
  story.unseen(1);
  expect(asked()).toEqual([{ key: "present", tone: "warning", everyMs: 5_000 }]);
  story.say("fireGuard", { type: "present" });
  expect(asked()).toEqual([]);
});

it("[SNS-4] a device's word that it shows a signal is no touch", () => {
  const story = starting().requested(3);
  const before = story.state.posts.fireGuard?.touchedAt;
  const open = story.state.signals.find((s) => s.to.includes("fireGuard"));
  story.unseen(1_000);
  story.say("fireGuard", { type: "delivered", signals: [open?.id ?? 0] });
  expect(story.refused).toBeNull();
  expect(story.state.posts.fireGuard?.touchedAt).toBe(before);
});

it("[SNS-5] the fire guard's whole screen flashes for a stop not acknowledged there, nobody else's, nor for anything less", () => {
  for (const kind of ["hold", "cutAll", "fire"] as const) {
    const story = starting();
    expect(flashes(story.state, "fireGuard")).toBe(false);
    story.send("cockpit", kind, kind === "fire" ? { place: "exhaust" } : {});
    expect(flashes(story.state, "fireGuard"), kind).toBe(true);
    expect(flashes(story.state, "supervisor"), kind).toBe(false);
    expect(flashes(story.state, null), kind).toBe(false);
    story.answer("fireGuard", story.openSignal(kind), "received");
    expect(flashes(story.state, "fireGuard"), kind).toBe(false);
  }
});

it("[SNS-6] a low battery is said, not one that is charging or full enough", () => {
  expect(batteryWords({ level: 0.184, charging: false }, text)).toMatch(/^Battery 18 %/);
  expect(batteryWords({ level: 0.2, charging: false }, text)).not.toBeNull();
  expect(batteryWords({ level: 0.21, charging: false }, text)).toBeNull();
  expect(batteryWords({ level: 0.05, charging: true }, text)).toBeNull();
  expect(batteryWords(null, text)).toBeNull();
});

const GOOD: DeviceState = { screen: "kept", sound: "ready", tested: "reached", battery: null, lasting: true };

it("[SNS-6] [PWA-6] a device that can be relied on says nothing, each fault is said in words", () => {
  expect(deviceWords(GOOD, text)).toEqual([]);
  const faults: [Partial<DeviceState>, RegExp][] = [
    [{ screen: "mayGoDark" }, /may go dark/],
    [{ screen: "unsupported" }, /may go dark/],
    [{ sound: "locked" }, /until you touch/],
    [{ sound: "unsupported" }, /watch the screen/],
    [{ tested: "notReached" }, /watch the screen/],
    [{ battery: "Battery 9 %" }, /Battery 9/],
    [{ lasting: false }, /not kept on this device/],
  ];
  for (const [fault, words] of faults) {
    const said = deviceWords({ ...GOOD, ...fault }, text);
    expect(said).toHaveLength(1);
    expect(said[0]).toMatch(words);
  }
});
