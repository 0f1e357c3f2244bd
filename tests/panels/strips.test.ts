import { expect, it } from "vitest";
import type { SessionRow } from "../../web/net/api.ts";
import { stripsOf } from "../../web/pages/strips.ts";
import { wordsNow } from "../../web/words/words.ts";
import { given, type Story } from "../spec/given.ts";

const row = (id: string, story: Story, more: Partial<SessionRow> = {}) => ({
  row: { id, aircraft: id, typeName: "", place: "", stage: story.state.stage, ...more } as SessionRow,
  state: story.state,
});

it("[PAN-21] lists the aircraft that need a person first, by urgency, then by the time they have waited", () => {
  const quiet = given({}).upTo("starting");
  const asked = given({}).upTo("starting").requested(3);
  const held = given({}).upTo("starting");
  held.waitMs(1);
  held.send("cockpit", "hold");
  const longerHeld = given({}).upTo("starting");
  longerHeld.send("cockpit", "hold");
  const burning = given({}).upTo("starting");
  burning.send("fireGuard", "fire", { place: "nacelle" });
  const strips = stripsOf(
    [
      row("over", quiet, { stage: "closed" }),
      row("quiet", quiet),
      row("asked", asked),
      row("held", held),
      row("longer", longerHeld),
      row("fire", burning),
    ].map((l) => (l.row.id === "over" ? { ...l, state: null } : l)),
    null,
    wordsNow(),
    quiet.now,
  );
  expect(strips.map((s) => s.id)).toEqual(["fire", "longer", "held", "asked", "quiet", "over"]);
});

it("[HSE-62] says of an ended session on which day it ended", () => {
  const story = given({}).upTo("starting");
  const closedAt = Date.UTC(2026, 10, 26, 23, 59);
  const listed = { ...row("over", story, { stage: "closed", closedAt }), state: null };
  const open = row("open", story, { closedAt: null });
  const strips = stripsOf([listed, open], null, wordsNow(), story.now);
  expect(strips.map((s) => s.stage)).toEqual(["Starting", "Closed, 26 Nov 2026"]);
});
