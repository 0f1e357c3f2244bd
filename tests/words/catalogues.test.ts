import { expect, it } from "vitest";
import { print as englishPrint } from "../../server/print/words/en.ts";
import { print as spanishPrint } from "../../server/print/words/es.ts";
import { brief as englishBrief } from "../../shared/words/en/brief.ts";
import { catalogue as english } from "../../shared/words/en/catalogue.ts";
import { events as englishEvents } from "../../shared/words/en/events.ts";
import { figures as englishFigures } from "../../shared/words/en/figures.ts";
import { handSignals as englishHand } from "../../shared/words/en/handSignals.ts";
import { history as englishHistory } from "../../shared/words/en/history.ts";
import { brief as spanishBrief } from "../../shared/words/es/brief.ts";
import { catalogue as spanish } from "../../shared/words/es/catalogue.ts";
import { events as spanishEvents } from "../../shared/words/es/events.ts";
import { figures as spanishFigures } from "../../shared/words/es/figures.ts";
import { handSignals as spanishHand } from "../../shared/words/es/handSignals.ts";
import { history as spanishHistory } from "../../shared/words/es/history.ts";
import { languageFor } from "../../shared/words/language.ts";
import { devices as englishDevices } from "../../web/words/en/devices.ts";
import { history as englishHistoryPage } from "../../web/words/en/history.ts";
import { pictures as englishPictures } from "../../web/words/en/pictures.ts";
import { said as englishSaid } from "../../web/words/en/said.ts";
import { study as englishStudy } from "../../web/words/en/study.ts";
import { text as englishText } from "../../web/words/en/text.ts";
import { types as englishTypes } from "../../web/words/en/types.ts";
import { devices as spanishDevices } from "../../web/words/es/devices.ts";
import { history as spanishHistoryPage } from "../../web/words/es/history.ts";
import { pictures as spanishPictures } from "../../web/words/es/pictures.ts";
import { said as spanishSaid } from "../../web/words/es/said.ts";
import { study as spanishStudy } from "../../web/words/es/study.ts";
import { text as spanishText } from "../../web/words/es/text.ts";
import { types as spanishTypes } from "../../web/words/es/types.ts";
import { laterWords } from "../../web/words/later.ts";
import { plannedWords } from "../../web/words/planned.ts";
import { problemTitles } from "../../web/words/problemTitles.ts";
import { leaves } from "./leaves.ts";

const PAIRS: [name: string, one: object, other: object][] = [
  ["session", english, spanish],
  ["events", englishEvents, spanishEvents],
  ["brief", englishBrief, spanishBrief],
  ["pictures", englishPictures, spanishPictures],
  ["types", englishTypes, spanishTypes],
  ["study", englishStudy, spanishStudy],
  ["later", laterWords("en"), laterWords("es")],
  ["problems", problemTitles("en"), problemTitles("es")],
  ["planned", plannedWords("en"), plannedWords("es")],
  ["said", englishSaid, spanishSaid],
  ["devices", englishDevices, spanishDevices],
  ["history's pages", englishHistoryPage, spanishHistoryPage],
  ["history", englishHistory, spanishHistory],
  ["hand signals", englishHand, spanishHand],
  ["print", englishPrint, spanishPrint],
  ["figures", englishFigures, spanishFigures],
  ["panel", englishText, spanishText],
];

it.each(PAIRS)(
  "[LNG-1] %s: both languages say the same things, with the same figures in them",
  (_, one, other) => {
    const [a, b] = [leaves(one), leaves(other)];
    expect([...b.keys()].sort()).toEqual([...a.keys()].sort());
    const differ = [...a].flatMap(([key, { holds }]) =>
      holds.join() === b.get(key)?.holds.join() ? [] : [`${key}: ${holds} and ${b.get(key)?.holds}`],
    );
    expect(differ).toEqual([]);
    const empty = [...a].filter(([key, { words }]) => (words === "") !== (b.get(key)?.words === ""));
    expect(empty).toEqual([]);
  },
);

it("[LNG-1] holds a language to its figures", () => {
  const said = leaves({ a: "Number {n} of {d}", b: (n: number) => `Number ${n}`, c: { d: "Hold" } });
  expect([...said.keys()]).toEqual(["a", "b", "c.d"]);
  expect(said.get("a")?.holds).toEqual(["{d}", "{n}"]);
  expect(said.get("b")?.holds).toEqual(["71"]);
  expect(leaves({ b: () => "Number" }).get("b")?.holds).toEqual([]);
});

it("[LNG-2] takes the first language of the wishes that there is, else English", () => {
  expect(languageFor(["es-CO", "en"])).toBe("es");
  expect(languageFor(["fr-FR", "ES", "en"])).toBe("es");
  expect(languageFor(["en-GB", "es"])).toBe("en");
  expect(languageFor(["fr"])).toBe("en");
  expect(languageFor([])).toBe("en");
});
