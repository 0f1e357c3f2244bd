import { useEffect, useState } from "react";
import type { Me } from "../../net/keep.ts";
import { type TypePlace, type TypeRow, types } from "../../net/types.ts";
import { go } from "../route.ts";
import { NewType } from "./NewType.tsx";
import { Key, PageHead, Trouble } from "./PageHead.tsx";
import { bySentence, Status } from "./status.tsx";

/** Every type with its versions, newest first. */
export function TypeList({ me }: { me: Me }) {
  const [rows, setRows] = useState<TypeRow[] | null>(null);
  const [trouble, setTrouble] = useState<Error | null>(null);
  const [making, setMaking] = useState(false);
  useEffect(() => {
    types.list().then(setRows, setTrouble);
  }, []);
  const open = ({ id, version }: TypePlace) => go(`/types/${id}/${version}`);
  const take = async (file: File | undefined) => {
    if (!file) return;
    setTrouble(null);
    try {
      open(await types.import(JSON.parse(await file.text())));
    } catch (error) {
      const words = `${file.name} is no JSON file.`;
      setTrouble(error instanceof SyntaxError ? new Error(words) : (error as Error));
    }
  };
  const ids = [...new Set((rows ?? []).map((r) => r.id))];
  const may = me.mayHold.includes("supervisor");
  return (
    <main className="page types">
      <PageHead
        title="Aircraft types"
        words="Figures with their sources. A start is planned on approved versions alone."
      >
        {may && (
          <>
            <Key onPress={() => setMaking(!making)}>New type</Key>
            <label className="small-key file-key">
              Import a file
              <input
                type="file"
                accept="application/json,.json"
                className="visually-hidden"
                onChange={(e) => {
                  void take(e.target.files?.[0]);
                  e.target.value = "";
                }}
              />
            </label>
          </>
        )}
        <Key onPress={() => go("/")}>Back to the ramp</Key>
      </PageHead>
      <Trouble error={trouble} />
      {making && rows && <NewType rows={rows} onMade={open} onTrouble={setTrouble} />}
      {rows === null && trouble === null && <p className="empty">Asking the server…</p>}
      {rows?.length === 0 && <p className="empty">No aircraft type yet. Import one from a file.</p>}
      {ids.map((id) => {
        const versions = (rows ?? []).filter((r) => r.id === id).reverse();
        return (
          <section key={id} className="type-versions" aria-label={versions[0]?.name ?? id}>
            <h2>
              {versions[0]?.name} <span className="type-id">{id}</span>
            </h2>
            <ul>
              {versions.map((row) => (
                <li key={row.version}>
                  <button type="button" className="type-row" data-is={row.status} onClick={() => open(row)}>
                    <strong>Version {row.version}</strong>
                    <Status status={row.status} />
                    <span className="type-by">{bySentence(row)}</span>
                  </button>
                </li>
              ))}
            </ul>
          </section>
        );
      })}
    </main>
  );
}
