import { describe, expect, it } from "vitest";
import { figuresNow, figuresOfAircraft, figuresOfEngine } from "../../shared/figures/all.ts";
import type { Figure } from "../../shared/figures/figure.ts";
import { workedInputs } from "../../shared/words/es/workedInputs.ts";
import { workedLaws } from "../../shared/words/es/workedLaws.ts";
import { workedWhy } from "../../shared/words/es/workedWhy.ts";
import { phraseBook } from "../../shared/words/phraseBook.ts";
import { wordsOf } from "../../shared/words/piece.ts";
import { workedBook } from "../../shared/words/worked.ts";
import { recordedStart } from "./recordedStart.ts";
import { RULES, sourcesIn, standsIn, writtenIn } from "./written.ts";

const told = workedBook("es");
const leftInEnglish = (text: string) => told(text).some((p) => p.asWritten && p.words === text);

/** Places where people read even a single word; elsewhere a single word is a key. */
const NAMED = /^(name|source|equation|detail|ofType|ofTypeData|said|read|notRead|workedOut)$/;

const UNIT = /^(count|percent|Ah|V|A|W|ohm|degC|degF|ft|ms|mm2\/s|[WJ]\/K)$/;

describe("phrases of worked-out figures", () => {
  it("[LNG-8] everything a worked-out figure is made of is told in Spanish", () => {
    const texts = sourcesIn("shared/figures").flatMap((file) =>
      writtenIn(file, (text, above) => / \p{L}/u.test(text) || NAMED.test(standsIn(above))),
    );
    expect(texts.length).toBeGreaterThan(200);
    expect(texts.filter((t) => !UNIT.test(t)).filter(leftInEnglish)).toEqual([]);
  });

  it("[LNG-8] and so is why one cannot be worked out", () => {
    // The statistics judge the records of many starts, and no panel shows them. The people who repair the program read
    // its errors.
    const models = sourcesIn("shared/models").filter((f) => !f.includes("/statistics/"));
    const isWhy = (above: Parameters<typeof standsIn>[0]) => /^(refused|outside)$/.test(standsIn(above));
    const thrown = (above: Parameters<typeof standsIn>[0]) => above.some((n) => n.type === "ThrowStatement");
    const texts = [
      ...models.flatMap((f) =>
        writtenIn(f, (text, above) => isWhy(above) || (/ \p{L}/u.test(text) && !thrown(above))),
      ),
      ...RULES.flatMap(sourcesIn).flatMap((f) => writtenIn(f, (_, above) => isWhy(above))),
    ];
    const sentences = texts.filter((t) => !UNIT.test(t));
    expect(sentences.length).toBeGreaterThan(80);
    expect(sentences.filter(leftInEnglish)).toEqual([]);
    expect(wordsOf(told("line 3: the time does not rise"))).toBe("línea 3: el tiempo no avanza");
    expect(wordsOf(told("temperature -61 degC is outside -40 to 60 degC"))).toBe(
      "temperatura -61 degC está fuera de -40 a 60 degC",
    );
  });

  it("[LNG-8] the figures of a whole start leave nothing in English but what the type's author wrote", () => {
    const states = recordedStart();
    const author = JSON.stringify(states[0]?.type);
    const texts = new Set(
      states.flatMap((state) =>
        [
          ...figuresNow(state, "cockpit", state.at),
          ...figuresOfAircraft(state, state.at),
          ...state.engines.flatMap((e) => figuresOfEngine(state, e.n, state.at)),
        ].flatMap(textsOf),
      ),
    );
    expect(texts.size).toBeGreaterThan(100);
    expect([...texts].filter((t) => leftInEnglish(t) && !author.includes(t))).toEqual([]);
  });
});

function textsOf(f: Figure): string[] {
  const words = (value: Figure["value"]) =>
    typeof value === "string" && /\p{L}{2}/u.test(value) ? [value] : [];
  return [
    // If a figure's name already says its value, the value is not shown.
    ...(f.words.endsWith(`.${f.value}`) ? [] : words(f.value)),
    ...(f.detail ? [f.detail] : []),
    ...(f.caution ? [f.caution] : []),
    f.equation,
    f.source,
    ...f.inputs.flatMap((i) => [i.name, i.source, ...words(i.value)]),
  ];
}

describe("a phrase book", () => {
  const book = phraseBook([
    ["published: {a}", "publicado: {a}"],
    ["{1} m {2}, more than {3} m needed", "{1} m {2}, hacen falta más de {3} m"],
    ["number {1} before number {2}", "motor {2} tras motor {1}"],
    ["around", "alrededor"],
    ["Look.", "Mire."],
    ["Walk around.", "Rodee."],
  ]);

  it("[LNG-8] puts figures, names and phrases in their places, and what an author wrote as it is", () => {
    expect(wordsOf(book("9.5 m around, more than 10.0 m needed"))).toBe(
      "9.5 m alrededor, hacen falta más de 10.0 m",
    );
    expect(wordsOf(book("number 3 before number 1"))).toBe("motor 1 tras motor 3");
    expect(book("published: around 1946")).toEqual([
      { words: "publicado: ", asWritten: false },
      { words: "around 1946", asWritten: true },
    ]);
  });

  it("[LNG-8] tells several sentences when it knows each, and leaves a text it does not know whole", () => {
    expect(wordsOf(book("Look. Walk around."))).toBe("Mire. Rodee.");
    expect(book("Look. Run around.")).toEqual([{ words: "Look. Run around.", asWritten: true }]);
    expect(book("12.5")).toEqual([{ words: "12.5", asWritten: false }]);
  });

  it("[LNG-8] loses no figure of a phrase in the other language, and gains none", () => {
    const places = (text: string) => (text.match(/\{\w\}/g) ?? []).sort();
    for (const [english, other] of [...workedInputs, ...workedLaws, ...workedWhy]) {
      expect(places(other), english).toEqual(places(english));
      expect(other).not.toBe("");
    }
  });
});
