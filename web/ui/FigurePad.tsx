import "../styles/pad.css";
import { useState } from "react";
import { fill, type Given } from "../../shared/asks/ask.ts";
import type { Quantity } from "../../shared/protocol/quantity.ts";
import { unitWord } from "../../shared/words/units.ts";
import type { Words } from "../words/catalogue.ts";
import { useLaterWords } from "../words/later.ts";
import { useWords } from "../words/words.ts";
import type { AnswerKey, AskView } from "./askView.ts";
import { BeforeSending } from "./BeforeSending.tsx";
import { closeUp } from "./closeUp.ts";
import { DigitKeys } from "./DigitKeys.tsx";
import { FigureWayKey } from "./FigureWayKey.tsx";
import { useFiguring } from "./figuring.ts";
import { figure } from "./numbers.ts";
import {
  alike,
  BLANK_PAD,
  cellAt,
  chosen,
  dueCells,
  isUsable,
  missing,
  next,
  type PadEntry,
  settled,
  toSend,
  typedIn,
  valueIn,
  withAlike,
  withDigit,
  withSent,
  withSteps,
  withTouch,
} from "./padEntry.ts";
import type { PadCell, PadRow, PadView } from "./padView.ts";
import { Scale } from "./Scale.tsx";
import { StepKeys } from "./StepKeys.tsx";

const COARSE = 10;

interface Props {
  ask: AskView;
  fresh: boolean;
  onBusy(busy: boolean): void;
  onAnswer(answer: AnswerKey, given: Given): void;
  onFigures(of: readonly { answer: AnswerKey; figure: Quantity }[]): (string | null)[];
}

/**
 * Takes the figures of one check for every engine that runs, and sends all of them with one key, each as a message of
 * its own. Nothing is prefilled. What is refused stays, with its reason.
 */
export function FigurePad({ ask, fresh, onBusy, onAnswer, onFigures }: Props) {
  const figuring = useFiguring();
  const { pad: words } = useLaterWords();
  const { app } = useWords().text;
  const [, redraw] = useState(0);
  const [asking, setAsking] = useState(false);
  const { way, onWay } = figuring;
  const view = figuring.pad(ask);
  if (!view) return <p>{app.fetching}</p>;

  const entry = settled(figuring.kept.get(ask.key) ?? BLANK_PAD, figuring.outcome);
  const put = (to: PadEntry) => {
    figuring.kept.set(ask.key, to);
    onBusy(Object.keys(to.cells).length > 0);
    setAsking(false);
    redraw((n) => n + 1);
  };
  const cell = cellAt(view, entry);
  const ready = toSend(view, entry, figuring.outcome);
  const lacking = missing(view, entry);
  const quantity = (c: PadCell): Quantity => ({ value: valueIn(entry, c.id) ?? 0, unit: c.spec.unit });
  const follows = () => {
    const found = ready.flatMap((c) => {
      const action = c.answer && fill(c.answer.choice, { figure: quantity(c) });
      return action ? (figuring.follows(action) ?? []) : [];
    });
    return [...new Set(found)];
  };
  const send = () => {
    const ids = onFigures(ready.flatMap((c) => (c.answer ? { answer: c.answer, figure: quantity(c) } : [])));
    put(withSent(entry, new Map(ready.map((c, i) => [c.id, ids[i] ?? null]))));
  };
  const same = alike(view, entry);
  const all = dueCells(view).length;
  const record = ready.length === all ? words.record(words.figures(all)) : words.recordOf(ready.length, all);
  return (
    <section className="pad" aria-label={ask.sentence}>
      <div className="pad-figures">
        {view.faults.length > 0 && (
          <ul className="ask-lacking">
            {view.faults.map((f) => (
              <li key={f.words}>
                {`${f.words}. ${words.again}.`}{" "}
                <button
                  type="button"
                  className="small-key"
                  disabled={!fresh && !f.defect.offline}
                  onClick={() => onAnswer(f.defect, {})}
                >
                  {f.defect.word}
                </button>
              </li>
            ))}
          </ul>
        )}
        <Cells view={view} entry={entry} at={cell} onChoose={(id) => put(chosen(entry, id))} />
      </div>
      {cell && !asking && (
        <div className="pad-keys-of-cell">
          <Scale
            spec={{ ...cell.spec, ...closeUp(cell.spec, reference(view, entry, cell)) }}
            value={valueIn(entry, cell.id)}
            onTouch={(v) => put(withTouch(view, entry, v))}
          />
          {way === "digits" ? (
            <DigitKeys
              scale={cell.spec}
              onKey={(key) => put(withDigit(view, entry, key))}
              onNext={() => put(next(view, entry))}
            />
          ) : (
            <StepKeys
              step={cell.spec.step}
              coarse={COARSE}
              unit={unitWord(cell.spec.unit)}
              onStep={(steps) => put(withSteps(view, entry, steps))}
            />
          )}
          <FigureWayKey way={way} onWay={onWay} />
        </div>
      )}
      <div className="pad-foot">
        {same && !asking && (
          <button type="button" className="small-key" onClick={() => put(withAlike(view, entry))}>
            {alikeWords(view, entry, same, words)}
          </button>
        )}
        {refused(view, entry, figuring.outcome).map(({ what, why }) => (
          <p key={what} className="pad-refused" role="alert">
            {words.refused(what, why)}
          </p>
        ))}
        <p aria-live="polite">
          {lacking.length === 0 ? words.allEntered : words.missing(missingWords(view, lacking, words))}
        </p>
        {asking ? (
          <BeforeSending
            outside={null}
            follows={follows()}
            send={words.sendAll}
            disabled={!fresh}
            onSend={send}
            onChange={() => setAsking(false)}
          />
        ) : (
          <div className="answers">
            <button
              type="button"
              className="answer"
              data-tone="yes"
              disabled={!fresh || ready.length === 0}
              onClick={() => (follows().length > 0 ? setAsking(true) : send())}
            >
              {ready.length === 0 ? words.enter : record}
            </button>
          </div>
        )}
      </div>
    </section>
  );
}

type PadWords = ReturnType<typeof useLaterWords>["pad"];

/** Returns the figure of the same engine that the cell's figure is compared with, entered or read before. */
function reference(view: PadView, entry: PadEntry, cell: PadCell): number | null {
  const row = view.rows.find((r) => r.cells.includes(cell));
  const other = view.rows.find((r) => r.id === row?.against)?.cells.find((c) => c.engine === cell.engine);
  return other ? (valueIn(entry, other.id) ?? other.spec.before) : null;
}

function refused(view: PadView, entry: PadEntry, outcome: ReturnType<typeof useFiguring>["outcome"]) {
  return dueCells(view).flatMap((c) => {
    const sent = entry.cells[c.id]?.sent ?? null;
    const became = sent === null ? null : outcome(sent);
    return became?.is === "not" ? [{ what: c.spec.label, why: became.words }] : [];
  });
}

/** Returns the rows that lack figures, each with the engines that lack it. */
function missingWords({ rows }: PadView, lacking: readonly PadCell[], { aircraft }: PadWords): string {
  return rows
    .flatMap((row) => {
      const of = row.cells.filter((c) => lacking.includes(c));
      if (of.length === 0) return [];
      const engines = of.map((c) => c.engine ?? aircraft).join(", ");
      return [of.length === row.cells.length ? row.label : `${row.label} ${engines}`];
    })
    .join("; ");
}

function alikeWords(
  { rows }: PadView,
  entry: PadEntry,
  same: { row: string; typed: string },
  words: PadWords,
): string {
  const cells = rows.find((r) => r.id === same.row)?.cells ?? [];
  const blank = cells.filter((c) => c.answer !== null && typedIn(entry, c.id) === "");
  return words.alike(same.typed, blank.map((c) => c.engine).join(", "));
}

interface CellsProps {
  view: PadView;
  entry: PadEntry;
  at: PadCell | null;
  onChoose(id: string): void;
}

/** A column for each engine and a row for each figure: what is entered, and below it the last reading. */
function Cells({ view, entry, at, onChoose }: CellsProps) {
  const all = useWords();
  return (
    <div className="pad-rows" style={{ "--engines": view.engines.length } as React.CSSProperties}>
      {view.rows.map((row) => (
        <div
          key={row.id}
          className="pad-row"
          data-here={(at !== null && row.cells.includes(at)) || undefined}
        >
          <p className="pad-label">
            {row.label}
            <span>{bandOf(row, all.text.entry)}</span>
          </p>
          <p className="pad-said">{row.cells.map((c) => typedIn(entry, c.id) || "–").join(" ")}</p>
          {row.cells.map((c) => (
            <Cell key={c.id} row={row} cell={c} entry={entry} here={c === at} onChoose={onChoose} />
          ))}
        </div>
      ))}
    </div>
  );
}

function bandOf({ cells: [first] }: PadRow, words: Words["text"]["entry"]): string {
  if (!first) return "";
  const { low, high, step, unit } = first.spec;
  const shown = (v: number) => `${figure(v, step)} ${unitWord(unit)}`.trim();
  if (low !== null && high !== null) return words.between(figure(low, step), shown(high));
  if (low !== null) return words.least(shown(low));
  return high === null ? unitWord(unit) : words.most(shown(high));
}

interface CellProps {
  row: PadRow;
  cell: PadCell;
  entry: PadEntry;
  here: boolean;
  onChoose(id: string): void;
}

function Cell({ row, cell, entry, here, onChoose }: CellProps) {
  const { pad: words } = useLaterWords();
  const figuring = useFiguring();
  const { spec, engine, id } = cell;
  const sent = entry.cells[id]?.sent ?? null;
  const became = sent === null ? null : figuring.outcome(sent);
  const typed = typedIn(entry, id);
  const off = typed !== "" && valueIn(entry, id) !== null && !isUsable(cell, entry);
  const name = engine === null ? row.label : `${engine}, ${row.label}`;
  return (
    <button
      type="button"
      className="pad-cell"
      data-here={here || undefined}
      data-is={became?.is}
      data-off={off || undefined}
      disabled={cell.answer === null}
      aria-pressed={here}
      aria-label={words.cell(name, typed || words.blank)}
      onClick={() => onChoose(id)}
    >
      <b>{engine ?? words.aircraft}</b>
      <output>
        {typed || (cell.answer === null && spec.before !== null ? figure(spec.before, spec.step) : "–")}
      </output>
      <small>{off ? words.offScale : became?.is === "sending" ? words.sending : before(spec, words)}</small>
    </button>
  );
}

const before = ({ before: last, step }: PadCell["spec"], words: PadWords) =>
  last === null ? words.notRead : figure(last, step);
