import { createElement } from "react";
import { renderToStaticMarkup } from "react-dom/server";
import { expect, it } from "vitest";
import { askedOf } from "../../shared/asks/asked.ts";
import { AS_READ } from "../../shared/models/unitChoice.ts";
import { exchangeRows } from "../../shared/paper/exchange.ts";
import { requirementsOf } from "../../shared/plan/requirements.ts";
import { STAGES } from "../../shared/protocol/stages.ts";
import { say as english } from "../../shared/words/en.ts";
import { say as spanish } from "../../shared/words/es.ts";
import { outcomesOf } from "../../shared/words/outcomes.ts";
import { askView } from "../../web/posts/shared/askViews.ts";
import { AskNow } from "../../web/ui/AskNow.tsx";
import { wordsNow } from "../../web/words/words.ts";
import { FOUR } from "../spec/aircraft.ts";
import { given } from "../spec/given.ts";

it("[PAN-33] the keys of a question stand before the list of what is not met", () => {
  const story = given({}).upTo("starting").requested(3);
  const words = wordsNow();
  const asked = askedOf(story.state, "supervisor", story.now).find((a) => a.say === "clearWaits");
  if (!asked) throw new Error("nothing is missing");
  const ask = askView(story.state, asked, story.now, AS_READ, words);
  expect(ask.lacking.length).toBeGreaterThan(1);
  const html = renderToStaticMarkup(
    createElement(AskNow, {
      ask: { ...ask, hand: null },
      now: story.now,
      numbers: [1, 2, 3, 4],
      fresh: true,
      sending: false,
      onBusy: () => {},
      confirm: () => Promise.reject(new Error("not asked")),
      onFigures: () => [],
      onAnswer: () => {},
    }),
  );
  const at = (part: string) => {
    expect(html).toContain(part);
    return html.indexOf(part);
  };
  expect(at("<h2>")).toBeLessThan(at('class="answers"'));
  expect(at('class="answers"')).toBeLessThan(at('class="ask-lacking"'));
});

/** A type whose parts have names that differ from their ids. */
const NAMED = {
  ...FOUR,
  gauges: FOUR.gauges.map((g) => ({ ...g, name: `Gauge ${g.unit} ${g.scale.to}` })),
  checks: FOUR.checks.map((c, i) => ({ ...c, words: `Look at part ${i}` })),
};
const IDS = [...NAMED.gauges, ...NAMED.checks].map((p) => p.id.toLowerCase());
const coded = (words: string) =>
  IDS.some((id) =>
    words
      .toLowerCase()
      .split(/[^a-z]+/)
      .includes(id),
  );

it("[PAN-33] what keeps a stage from being left is named in words, never by a code", () => {
  const story = given({ type: NAMED }).upTo("warmUp");
  const { type } = story.state;
  for (const say of [english, spanish]) {
    const said = STAGES.flatMap((stage) =>
      requirementsOf({ ...story.state, stage }, story.now).map((r) => outcomesOf(say).missing(r, type)),
    );
    expect(said.length).toBeGreaterThan(5);
    expect(said.filter(coded)).toEqual([]);
  }
});

it("[PAN-33] so is it on the exchange chart of a panel that does not hold the record from its beginning", () => {
  const story = given({ type: NAMED }).upTo("warmUp");
  const { type } = story.state;
  story.reading("oilTemp", 3, 20, "degC");
  story.say("supervisor", { type: "advance", to: "release" });
  expect(story.refused).toBe("requirementsUnmet");
  const later = story.log.filter((e) => e.fact.type !== "planned");
  for (const say of [english, spanish]) {
    const said = exchangeRows(later, say, AS_READ, type).map((r) => r.text);
    expect(said.filter(coded)).toEqual([]);
  }
});
