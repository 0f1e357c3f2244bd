import {
  MOST_NEIGHBOURS,
  NEIGHBOURS,
  type NeighbourKind,
  type StandNeighbour,
} from "../../shared/protocol/neighbours.ts";
import { unitWord } from "../../shared/words/units.ts";
import { type PlannedWords, usePlannedWords } from "../words/planned.ts";

/** An object near the stand, as entered. */
export interface NearEntry {
  key: string;
  kind: NeighbourKind;
  name: string;
  bearing: string;
  distance: string;
  across: string;
  unit: "m" | "ft";
}

const UNITS = ["m", "ft"] as const;

const figure = (text: string, least: number, most: number): number | null => {
  const value = text.trim() === "" ? Number.NaN : Number(text.trim().replace(",", "."));
  return value >= least && value <= most ? value : null;
};

/** Returns the valid objects, and the first fault in words or null. */
export function nearOf(
  entries: readonly NearEntry[],
  headingDeg: number | undefined,
  { stand }: PlannedWords,
): { near: StandNeighbour[]; fault: string | null } {
  const near: StandNeighbour[] = [];
  const faults: string[] = [];
  for (const e of entries) {
    const name = e.name.trim();
    const bearingDeg = figure(e.bearing, 0, 360);
    const distance = figure(e.distance, 0, 2000);
    const across = figure(e.across, 0.1, 500);
    if (name !== "" && bearingDeg !== null && distance !== null && across !== null) {
      const { kind, unit } = e;
      near.push({
        kind,
        name,
        bearingDeg,
        distance: { value: distance, unit },
        across: { value: across, unit },
      });
      continue;
    }
    const what =
      name === ""
        ? stand.needName
        : bearingDeg === null
          ? stand.needBearing
          : distance === null
            ? stand.needDistance
            : stand.needAcross;
    faults.push(stand.faulty(name, what));
  }
  if (entries.length > 0 && headingDeg === undefined) faults.unshift(stand.heading);
  return { near, fault: faults[0] ?? null };
}

interface Props {
  entries: readonly NearEntry[];
  fault: string | null;
  onEntries(next: NearEntry[]): void;
}

/** Fields for objects near the stand: fuelling, buildings, other aircraft, the public. */
export function NeighbourFields({ entries, fault, onEntries }: Props) {
  const { stand } = usePlannedWords();
  const change = (key: string, more: Partial<NearEntry>) =>
    onEntries(entries.map((e) => (e.key === key ? { ...e, ...more } : e)));
  const add = () =>
    onEntries([
      ...entries,
      {
        key: crypto.randomUUID(),
        kind: "aircraft",
        name: "",
        bearing: "",
        distance: "",
        across: "",
        unit: "m",
      },
    ]);
  return (
    <section className="options" aria-label={stand.near}>
      {entries.length > 0 && <p>{stand.nearHow}</p>}
      {entries.map((e) => (
        <fieldset key={e.key} className="near-entry">
          <legend>{e.name || stand.kinds[e.kind]}</legend>
          <label className="field">
            <span>{stand.kind}</span>
            <select
              name="kind"
              value={e.kind}
              onChange={(c) => change(e.key, { kind: c.target.value as NeighbourKind })}
            >
              {NEIGHBOURS.map((kind) => (
                <option key={kind} value={kind}>
                  {stand.kinds[kind]}
                </option>
              ))}
            </select>
          </label>
          <label className="field">
            <span>{stand.name}</span>
            <input
              name="what"
              value={e.name}
              maxLength={40}
              placeholder={stand.nameLike}
              onChange={(c) => change(e.key, { name: c.target.value })}
            />
          </label>
          {(["bearing", "distance", "across"] as const).map((part) => (
            <label key={part} className="field">
              <span>{stand[part]}</span>
              <input
                name={part}
                inputMode="decimal"
                value={e[part]}
                maxLength={7}
                onChange={(c) => change(e.key, { [part]: c.target.value })}
              />
            </label>
          ))}
          <label className="field">
            <span>{stand.unit}</span>
            <select
              name="unit"
              value={e.unit}
              onChange={(c) => change(e.key, { unit: c.target.value as "m" | "ft" })}
            >
              {UNITS.map((unit) => (
                <option key={unit} value={unit}>
                  {unitWord(unit)}
                </option>
              ))}
            </select>
          </label>
          <button
            type="button"
            className="answer"
            data-tone="plain"
            onClick={() => onEntries(entries.filter((o) => o.key !== e.key))}
          >
            {stand.drop(e.name)}
          </button>
        </fieldset>
      ))}
      {fault && (
        <p className="trouble" role="alert">
          {fault}
        </p>
      )}
      <button
        type="button"
        className="answer"
        data-tone="plain"
        disabled={entries.length >= MOST_NEIGHBOURS}
        onClick={add}
      >
        {stand.add}
      </button>
    </section>
  );
}
