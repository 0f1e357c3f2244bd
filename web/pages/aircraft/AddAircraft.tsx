import { useEffect, useState } from "react";
import { aircraft } from "../../net/aircraft.ts";
import { api } from "../../net/app.ts";
import { type TypeRow, types } from "../../net/types.ts";
import { useRegisterWords } from "../../words/register.ts";
import { go } from "../route.ts";
import { SidePage } from "../SidePage.tsx";
import { AircraftForm } from "./AircraftForm.tsx";
import { entryOf, fittedText, NOTHING } from "./entry.ts";

/** Adds an aircraft on the approved version of a type. */
export function AddAircraft() {
  const words = useRegisterWords();
  const [approved, setApproved] = useState<TypeRow[] | null>(null);
  const [type, setType] = useState<TypeRow | null>(null);
  const [text, setText] = useState(NOTHING);
  const [trouble, setTrouble] = useState<Error | null>(null);
  const [busy, setBusy] = useState(false);
  useEffect(() => {
    types.list().then((all) => setApproved(all.filter((t) => t.status === "approved")), setTrouble);
  }, []);
  const choose = (id: string) => {
    const row = approved?.find((t) => t.id === id) ?? null;
    setType(row);
    setTrouble(null);
    if (!row) return setText((t) => ({ ...t, fitted: [] }));
    api
      .type(row.id, row.version)
      .then(
        ({ engines }) => setText((t) => ({ ...t, fitted: engines.map((e) => fittedText(e.n, [])) })),
        setTrouble,
      );
  };
  const entry = type && entryOf(text, { typeId: type.id, typeVersion: type.version });
  const save = () => {
    if (!entry) return;
    setBusy(true);
    aircraft.add(entry).then(
      () => go(`/aircraft/${entry.id}`),
      (error: Error) => {
        setTrouble(error);
        setBusy(false);
      },
    );
  };
  return (
    <SidePage title={words.addTitle} lead={words.addLead} trouble={trouble}>
      {approved?.length === 0 && (
        <div className="register-notice" role="status">
          <p>{words.noType}</p>
          <button type="button" className="answer" data-tone="yes" onClick={() => go("/types")}>
            {words.toTypes}
          </button>
        </div>
      )}
      {approved !== null && approved.length > 0 && (
        <form
          className="register-form"
          onSubmit={(e) => {
            e.preventDefault();
            save();
          }}
        >
          <AircraftForm text={text} onText={setText} fresh>
            <label className="field">
              <span>{words.type}</span>
              <select name="type" value={type?.id ?? ""} onChange={(e) => choose(e.target.value)}>
                <option value="">{words.chooseType}</option>
                {approved.map((t) => (
                  <option key={t.id} value={t.id}>
                    {words.onVersion(t.name, t.version)}
                  </option>
                ))}
              </select>
            </label>
          </AircraftForm>
          <button type="submit" className="answer" data-tone="yes" disabled={!entry || busy}>
            {busy ? words.saving : words.add}
          </button>
        </form>
      )}
    </SidePage>
  );
}
