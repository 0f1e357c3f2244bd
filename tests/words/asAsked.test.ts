import { expect, it } from "vitest";
import { askedOf } from "../../shared/asks/asked.ts";
import { say as english } from "../../shared/words/en.ts";
import { say as spanish } from "../../shared/words/es.ts";
import { given } from "../spec/given.ts";

it("[PAN-58] the record of a request for hands on a propeller keeps the words of its key", () => {
  expect(english.signal("handlePropeller", 3)).toContain(english.choice("handlePropeller"));
  expect(spanish.signal("handlePropeller", 3)).toContain(spanish.choice("handlePropeller"));
});

it("[PAN-58] the lowest volts of a crank are recorded as such, and the cart's own report as ground power on", () => {
  for (const say of [english, spanish]) {
    expect(say.signal("powerConnected", 3)).not.toContain(say.signal("powerConnected", null));
    expect(say.signal("powerConnected", 3)).toContain("3");
  }
});

it("[PAN-64] the key that gives leave for hands on a propeller says that the ignition is off, and no other leave does", () => {
  const story = given({}).upTo("groundPower");
  const leaveFor = (kind: "handlePropeller" | "connectPower") => {
    story.send("groundPower", kind, kind === "handlePropeller" ? { engine: 1 } : {});
    const asked = askedOf(story.state, "cockpit", story.now).find((a) => a.say === `answer.${kind}`);
    const leave = asked?.choices.find(({ draft }) => draft.type === "answer" && draft.answer === "authorise");
    if (!leave) throw new Error(`no leave is offered for ${kind}`);
    return leave.word;
  };
  const hands = leaveFor("handlePropeller");
  expect(english.choice(hands)).toMatch(/ignition off/i);
  expect(spanish.choice(hands)).toMatch(/encendido cortado/i);
  const power = leaveFor("connectPower");
  expect(english.choice(power)).toBe("Authorised");
  expect(spanish.choice(power)).not.toMatch(/encendido/i);
});
