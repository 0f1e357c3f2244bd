import { expect, it } from "vitest";
import { HAND_SIGNALS } from "../../shared/handSignals/all.ts";
import { SIGNALS } from "../../shared/signals/all.ts";
import { citedIn } from "../../shared/words/citations.ts";
import { citations } from "../../shared/words/es/citations.ts";
import { wordsOf } from "../../shared/words/piece.ts";

const told = (text: string) => wordsOf(citedIn("es")(text));
const figures = (text: string) => (text.match(/\d[\w./()-]*/g) ?? []).join(" ");
/** English words of the phrases that are not also Spanish words. */
const spanish = new Set(citations.flatMap(([, other]) => other.toLowerCase().match(/\p{L}{2,}/gu) ?? []));
const english = new Set(
  citations.flatMap(([one]) => one.toLowerCase().match(/\p{L}{2,}/gu) ?? []).filter((w) => !spanish.has(w)),
);

it("[LNG-12] where a hand signal is written down is told in Spanish, every place in the document as it is", () => {
  const cited = new Set([
    ...Object.values(SIGNALS).flatMap((c) => (c.standard ? [c.standard.text] : [])),
    ...HAND_SIGNALS.flatMap((s) => s.sources.map((x) => x.cite)),
  ]);
  expect(cited.size).toBeGreaterThan(40);
  const left = [...cited].filter((c) =>
    told(c)
      .toLowerCase()
      .match(/\p{L}{2,}/gu)
      ?.some((w) => english.has(w)),
  );
  expect(left.map(told)).toEqual([]);
  for (const text of cited) expect(figures(told(text)), text).toBe(figures(text));
  expect(told("ICAO Annex 2 App 1, 5.1 item 7b: then opened")).toBe(
    "OACI Anexo 2 Ap. 1, 5.1 punto 7b: luego abierto",
  );
});
