import type { Figure } from "../../../shared/figures/figure.ts";
import type { UnitChoice } from "../../../shared/models/unitChoice.ts";
import { figureName, figureWords } from "../../../shared/words/figures.ts";
import { wordsOf } from "../../../shared/words/piece.ts";
import { inputWords, workedOut } from "../../../shared/words/quantity.ts";
import { workedBook } from "../../../shared/words/worked.ts";
import { ago } from "../../ui/numbers.ts";
import type { WorkedRow } from "../../ui/WorkedFigures.tsx";
import type { Words } from "../../words/catalogue.ts";

/** Returns a calculated figure in words, in the chosen units, with its age at `now`. */
export function workedRow(f: Figure, now: number, units: UnitChoice, { say, text }: Words): WorkedRow {
  const words = figureWords(say);
  const translate = workedBook(say.language);
  /** A value may be a word, such as "in limits". */
  const worded = (value: Figure["value"]) => (typeof value === "string" ? wordsOf(translate(value)) : value);
  const value = worded(counted(f));
  const shown = workedOut(value, f.unit, units);
  const own = workedOut(value, f.unit);
  return {
    id: f.id,
    name: figureName(words, f.words),
    // The name of some figures contains the value, e.g. "Preheat: not required".
    value: f.words.endsWith(`.${f.value}`) ? "" : shown,
    own: own === shown ? null : own,
    detail: f.detail ? translate(f.detail) : null,
    verdict: f.verdict,
    verdictWord: words.verdicts[f.verdict],
    caution: f.caution ? translate(f.caution) : null,
    inputs: f.inputs.map((i) => ({
      name: translate(i.name),
      value: inputWords(worded(i.value), i.unit, units, i.difference),
      source: translate(i.source),
      age: i.at === null ? "" : ago(now - i.at, text),
    })),
    equation: translate(f.equation),
    source: translate(f.source),
  };
}

/** Rounds running seconds up to whole seconds. */
function counted({ value, unit }: Figure): Figure["value"] {
  return typeof value === "number" && unit === "s" ? Math.ceil(value) : value;
}
