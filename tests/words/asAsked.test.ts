import { expect, it } from "vitest";
import { say as english } from "../../shared/words/en.ts";
import { say as spanish } from "../../shared/words/es.ts";

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
