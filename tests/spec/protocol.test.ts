import { describe, expect, it } from "vitest";
import { actionSchema, commandSchema } from "../../shared/protocol/commands.ts";
import { eventSchema } from "../../shared/protocol/events.ts";
import { idSchema, line } from "../../shared/protocol/text.ts";
import { PROTOCOL } from "../../shared/protocol/version.ts";
import { handshakeSchema, watchSchema } from "../../shared/protocol/wire.ts";
import { given } from "./given.ts";

const command = (over: object = {}) => ({
  v: 1,
  id: "017f22e2-79b0-7cc3-98c4-dc0c0c07398f",
  session: "s1",
  clientAt: 0,
  action: { type: "send", kind: "hold" },
  ...over,
});
const takes = (value: unknown) => commandSchema.safeParse(value).success;
const takesAction = (value: unknown) => actionSchema.safeParse(value).success;

describe("messages", () => {
  it("[WIR-1] accepts a valid command and fills in its channel", () => {
    expect(commandSchema.parse(command()).action).toEqual({ type: "send", kind: "hold", channel: "panel" });
  });

  it.each([
    ["a field too many", command({ extra: 1 })],
    ["an action with a field too many", command({ action: { type: "send", kind: "hold", secret: true } })],
    ["an unknown action", command({ action: { type: "explode" } })],
    ["an unknown signal", command({ action: { type: "send", kind: "explode" } })],
    ["a missing action", command({ action: undefined })],
    ["a negative time", command({ clientAt: -1 })],
    ["a time with a fraction", command({ clientAt: 0.5 })],
    ["an engine 0", command({ action: { type: "send", kind: "hold", engine: 0 } })],
    ["an engine 9", command({ action: { type: "send", kind: "hold", engine: 9 } })],
    ["an engine in words", command({ action: { type: "send", kind: "hold", engine: "3" } })],
    ["a list", [command()]],
    ["nothing", null],
  ])("[WIR-1] not %s", (_, value) => {
    expect(takes(value)).toBe(false);
  });

  it.each([2, 0, "1", undefined])("[WIR-4] not version %s", (v) => {
    expect(takes(command({ v }))).toBe(false);
    expect(PROTOCOL).toBe(1);
  });

  it.each(["", "not-a-uuid", "017f22e2-79b0-7cc3-98c4-dc0c0c07398", 7])("[WIR-3] not command id %s", (id) => {
    expect(takes(command({ id }))).toBe(false);
  });

  it.each(["s", "A.b_c-9", "a".repeat(64)])("[WIR-3] %s is a plain identifier", (id) => {
    expect(idSchema.safeParse(id).success).toBe(true);
  });

  it.each(["", "-a", ".a", "a b", "a/b", "../a", "ä", "a\n", "a".repeat(65), "a\u202Eb", "__proto__"])(
    "[WIR-3] %j is none",
    (id) => {
      expect(idSchema.safeParse(id).success).toBe(false);
    },
  );

  it("[WIR-1] refuses other fields in watch and handshake", () => {
    expect(watchSchema.safeParse({ session: "s", since: 0 }).success).toBe(true);
    for (const bad of [{ session: "s" }, { session: "s", since: -1 }, { session: "s", since: 0, x: 1 }]) {
      expect(watchSchema.safeParse(bad).success).toBe(false);
    }
    expect(handshakeSchema.safeParse({ token: "t".repeat(20), proto: 1 }).success).toBe(true);
    for (const token of ["t".repeat(19), "t".repeat(201)]) {
      expect(handshakeSchema.safeParse({ token, proto: 1 }).success).toBe(false);
    }
  });
});

describe("free text", () => {
  const read = (text: string) => line(10).safeParse(text);

  it.each([
    "",
    "   ",
    "12345678901",
    "a\u0000b",
    "a\nb",
    "a\tb",
    "a\u007Fb",
    "a\u200Bb",
    "a\u202Eb",
    "a\u2066b",
    "\uFEFFa\uFEFFb",
    "a\uD800",
  ])("[WIR-2] not %j", (text) => {
    expect(read(text).success).toBe(false);
  });

  it.each(["<b>x</b>", "1234567890", "äöü €", "😂", "' OR 1=1"])(
    "[WIR-2] %s is plain text, kept as it is",
    (text) => {
      expect(read(text)).toMatchObject({ success: true, data: text });
    },
  );

  it("[WIR-2] loses the space around it", () => {
    expect(read("  a  ").data).toBe("a");
  });

  it("[WIR-2] is the form of a signal's note and of a reason to vacate or to abandon", () => {
    for (const bad of ["a\u202Eb", "x".repeat(281), ""]) {
      expect(takesAction({ type: "send", kind: "hold", note: bad })).toBe(false);
      expect(takesAction({ type: "vacatePost", post: "cockpit", reason: bad })).toBe(false);
      expect(takesAction({ type: "abandon", reason: bad })).toBe(false);
    }
  });
});

describe("figures", () => {
  it.each([
    { value: Number.NaN, unit: "V" },
    { value: Number.POSITIVE_INFINITY, unit: "V" },
    { value: "28", unit: "V" },
    { value: 28, unit: "furlong" },
    { value: 28 },
    { unit: "V" },
    { value: 28, unit: "V", source: "guess" },
  ])("[WIR-5] not %j", (volts) => {
    expect(takesAction({ type: "send", kind: "powerConnected", volts })).toBe(false);
  });

  it("[WIR-5] 28 V", () => {
    expect(takesAction({ type: "send", kind: "powerConnected", volts: { value: 28, unit: "V" } })).toBe(true);
  });
});

describe("events", () => {
  it("[WIR-1, EVT-6] refuses an event with an unknown field or of an unknown kind", () => {
    const event = given().log[0];
    expect(eventSchema.safeParse(event).success).toBe(true);
    expect(eventSchema.safeParse({ ...event, note: "x" }).success).toBe(false);
    expect(eventSchema.safeParse({ ...event, fact: { type: "miracle" } }).success).toBe(false);
    expect(eventSchema.safeParse({ ...event, seq: 0 }).success).toBe(false);
  });
});
