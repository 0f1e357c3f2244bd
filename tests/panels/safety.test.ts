import { expect, it } from "vitest";
import { actionSchema } from "../../shared/protocol/commands.ts";
import { ANSWERS, SIGNAL_KINDS } from "../../shared/protocol/signals.ts";
import { signalOf } from "../../shared/signals/all.ts";
import { makesNothingLessSafe } from "../../web/posts/shared/safety.ts";

const mayGo = (kinds: readonly string[], build: (k: string) => object) =>
  kinds.filter((k) => makesNothingLessSafe(build(k) as never));

it("[PAN-13] without a fresh link every stop may be given", () => {
  for (const kind of SIGNAL_KINDS.filter((k) => signalOf(k).class === "stop"))
    expect(makesNothingLessSafe({ type: "send", kind }), kind).toBe(true);
});

it("[PAN-13] allows only those other signals that take something back", () => {
  const rest = SIGNAL_KINDS.filter((k) => signalOf(k).class !== "stop");
  expect(mayGo(rest, (kind) => ({ type: "send", kind })).sort()).toEqual([
    "arcNotClear",
    "brakesReleased",
    "chocksOut",
    "fireAt",
    "guardAway",
    "negative",
    "peopleAtAircraft",
    "powerDisconnected",
    "revokeClearance",
    "shutDown",
    "startAbandoned",
  ]);
});

it("[PAN-13] allows only those answers that let nothing begin", () => {
  const build = (answer: string) => ({ type: "answer", signal: 1, answer });
  expect(mayGo(ANSWERS, build).sort()).toEqual(["done", "received", "unable"]);
});

it("[PAN-13] allows of all other actions a check found bad, an alert acknowledged and a flash of lightning, but not its distance", () => {
  const types = actionSchema.options.map((o) => o.shape.type.value);
  const rest = types.filter((t) => t !== "send" && t !== "answer");
  expect(mayGo(rest, (type) => ({ type }))).toEqual(["acknowledgeAlert", "recordFlash"]);
  for (const told of [{ of: 3 }, { miles: 20 }, { thunderAfterS: 40 }])
    expect(makesNothingLessSafe({ type: "recordFlash", ...told })).toBe(false);
  expect(makesNothingLessSafe({ type: "recordCheck", good: false })).toBe(true);
  expect(makesNothingLessSafe({ type: "recordCheck", good: true })).toBe(false);
});
