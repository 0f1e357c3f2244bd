import { createElement } from "react";
import { renderToStaticMarkup } from "react-dom/server";
import { expect, it } from "vitest";
import { VoltsNow } from "../../web/posts/groundPower/VoltsNow.tsx";
import type { Panel } from "../../web/posts/shared/model.ts";
import { wordsNow } from "../../web/words/words.ts";
import { given, type Story } from "../spec/given.ts";

const words = wordsNow();

/** Returns the large figure and the line beside it, as ground power sees them. */
function shown({ state, now }: Story): [string, string] {
  const panel = { state, now, words } as Panel;
  const html = renderToStaticMarkup(createElement(VoltsNow, { panel }));
  const [, figure = "", said = ""] = /<output>(.*?)<\/output><p>(.*?)<\/p>/.exec(html) ?? [];
  return [figure, said];
}

it("[PAN-57] ground power's volts are shown in every stage, with their age or the reason why there are none", () => {
  expect(shown(given({}))).toEqual(["–", "Volts not read yet"]);
  expect(shown(given({}).upTo("secure"))).toEqual(["–", "Volts not read yet"]);
  const starting = given({}).upTo("starting");
  const [figure, said] = shown(starting);
  expect(figure).toMatch(/^[\d.]+\sV$/);
  expect(said).toMatch(/^read (just now|\d+ s ago)$/);
  const power = starting.state.groundPower;
  const fresh = power.is === "on" ? `${power.volts.value}` : "";
  expect(figure).toContain(fresh);
  starting.unseen(3_600_000);
  expect(shown(starting)).toEqual([figure, expect.stringMatching(/old, read again$/)]);
  expect(shown(given({}).upTo("warmUp"))[0]).toMatch(/V$|^Off$/);
});

it("[PAN-57] a start on the batteries says so in their place", () => {
  expect(shown(given({ powerSource: "batteries" }))).toEqual(["–", "On batteries, no cart"]);
});
