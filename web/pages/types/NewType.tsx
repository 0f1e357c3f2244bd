import { useState } from "react";
import { type TypePlace, type TypeRow, types } from "../../net/types.ts";

interface Props {
  rows: readonly TypeRow[];
  onMade(place: TypePlace): void;
  onTrouble(error: Error): void;
}

/** A new type begins with another's figures: every one of them is then looked at and sourced anew. */
export function NewType({ rows, onMade, onTrouble }: Props) {
  const [id, setId] = useState("");
  const [name, setName] = useState("");
  const [from, setFrom] = useState(0);
  const model = rows[from];
  return (
    <form
      className="new-type"
      onSubmit={(e) => {
        e.preventDefault();
        if (model) types.begin(id.trim(), name.trim(), model).then(onMade, onTrouble);
      }}
    >
      <h2>A new type</h2>
      <label className="field">
        <span>Name</span>
        <input value={name} maxLength={60} required onChange={(e) => setName(e.target.value)} />
      </label>
      <label className="field">
        <span>Identifier, e.g. carrack-four</span>
        <input
          value={id}
          maxLength={64}
          required
          pattern="[A-Za-z0-9][A-Za-z0-9_.\-]*"
          onChange={(e) => setId(e.target.value)}
        />
      </label>
      <label className="field">
        <span>Begin with the figures of</span>
        <select value={from} onChange={(e) => setFrom(Number(e.target.value))}>
          {rows.map((r, i) => (
            <option key={`${r.id} ${r.version}`} value={i}>
              {r.name}, version {r.version}
            </option>
          ))}
        </select>
      </label>
      <button type="submit" className="small-key" disabled={!model}>
        Make the draft
      </button>
    </form>
  );
}
