import { useState } from "react";
import { begunTypes } from "../../net/begunTypes.ts";
import { type TypePlace, type TypeRow, types } from "../../net/types.ts";
import { useTypeWords } from "../../words/types.ts";

interface Props {
  rows: readonly TypeRow[];
  onMade(place: TypePlace): void;
  /** Called with the identifier of a type that was begun from nothing. */
  onBegun(id: string): void;
  onTrouble(error: Error): void;
}

/** The numbers of engines that a type may have. */
const ENGINES = [1, 2, 3, 4, 5, 6, 7, 8];
/** In place of a version to copy: nothing is copied. */
const NOTHING = -1;

/** Begins a type from nothing, or from a copy of another whose every figure the author must check and source again. */
export function NewType({ rows, onMade, onBegun, onTrouble }: Props) {
  const words = useTypeWords();
  const [id, setId] = useState("");
  const [name, setName] = useState("");
  const [from, setFrom] = useState(NOTHING);
  const [engines, setEngines] = useState(2);
  const make = () => {
    const model = rows[from];
    if (model) types.begin(id.trim(), name.trim(), model).then(onMade, onTrouble);
    else begunTypes.begin(id.trim(), name.trim(), engines).then((made) => onBegun(made.id), onTrouble);
  };
  return (
    <form
      className="new-type"
      onSubmit={(e) => {
        e.preventDefault();
        make();
      }}
    >
      <h2>{words.newTitle}</h2>
      <label className="field">
        <span>{words.name}</span>
        <input name="name" value={name} maxLength={60} required onChange={(e) => setName(e.target.value)} />
      </label>
      <label className="field">
        <span>{words.identifier}</span>
        <input
          name="id"
          value={id}
          maxLength={64}
          required
          pattern="[A-Za-z0-9][A-Za-z0-9_.\-]*"
          onChange={(e) => setId(e.target.value)}
        />
      </label>
      <label className="field">
        <span>{words.beginWith}</span>
        <select name="from" value={from} onChange={(e) => setFrom(Number(e.target.value))}>
          <option value={NOTHING}>{words.nothingYet}</option>
          {rows.map((r, i) => (
            <option key={`${r.id} ${r.version}`} value={i}>
              {words.nameVersion(r.name, r.version)}
            </option>
          ))}
        </select>
      </label>
      {from === NOTHING && (
        <label className="field">
          <span>{words.enginesOfIt}</span>
          <select name="engines" value={engines} onChange={(e) => setEngines(Number(e.target.value))}>
            {ENGINES.map((n) => (
              <option key={n} value={n}>
                {n}
              </option>
            ))}
          </select>
        </label>
      )}
      <button type="submit" className="answer" data-tone="plain">
        {words.make}
      </button>
    </form>
  );
}
