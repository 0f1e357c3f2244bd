import { describe, expect, it } from "vitest";
import { rampRow } from "../../web/pages/rampRows.ts";
import { type Listed, stripsOf } from "../../web/pages/strips.ts";
import { wordsNow } from "../../web/words/words.ts";
import { CREW, given, type Story } from "../spec/given.ts";

const words = wordsNow();

function rowOf({ state, now }: Story, me: { id: string; device: string }) {
  const row = {
    ...{ id: state.id, code: "ACDEFG", aircraft: state.aircraft, typeName: state.type.name },
    ...{
      place: state.place,
      stage: state.stage,
      createdAt: 0,
      closedAt: null,
      headSeq: state.seq,
      needs: 0,
      offered: [],
    },
  };
  const listed: Listed = { row, state };
  const [strip] = stripsOf([listed], null, words, now);
  if (!strip) throw new Error("no strip");
  return rampRow(strip, listed, me, words, now);
}

const nobody = { id: "nobody", device: "none" };

describe("a row of the ramp page", () => {
  it("[PAN-54] says what the start waits for, and whose it is", () => {
    const story = given({}).upTo("starting");
    story.say("cockpit", { type: "send", kind: "readyToStart", channel: "panel", engine: 3 });
    const { plan, waitsFor, mine } = rowOf(story, nobody);
    expect(waitsFor).toMatch(/^Fire guard: .*number 3/);
    expect(plan?.engines.map((e) => e.n)).toEqual([1, 2, 3, 4]);
    expect(mine).toBeNull();
  });

  it("[PAN-54] says which post this person holds here, and on another device", () => {
    const story = given({}).upTo("starting");
    const { id, device } = CREW.cockpit;
    expect(rowOf(story, { id, device }).mine).toBe("You: cockpit");
    expect(rowOf(story, { id, device: "another" }).mine).toBe("You: cockpit, on another device");
  });

  it("[PAN-54] shows a post that is offered to this person before the one they hold", () => {
    const story = given({}).upTo("starting");
    story.say("cockpit", { type: "offerPost", post: "cockpit", to: nobody.id });
    expect(rowOf(story, nobody)).toMatchObject({ mine: "Offered to you: cockpit", offered: true });
  });
});
