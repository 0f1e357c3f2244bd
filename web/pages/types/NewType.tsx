import { useState } from "react";
import { type TypePlace, type TypeRow, types } from "../../net/types.ts";
import { useTypeWords } from "../../words/types.ts";

interface Props {
  rows: readonly TypeRow[];
  onMade(place: TypePlace): void;
  onTrouble(error: Error): void;
}

/** Makes a new type from a copy of another. The author must then check and source every figure again. */
export function NewType({ rows, onMade, onTrouble }: Props) {
  const words = useTypeWords();
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
          {rows.map((r, i) => (
            <option key={`${r.id} ${r.version}`} value={i}>
              {words.nameVersion(r.name, r.version)}
            </option>
          ))}
        </select>
      </label>
      <button type="submit" className="small-key" disabled={!model}>
        {words.make}
      </button>
    </form>
  );
}
