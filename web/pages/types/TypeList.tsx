import { useState } from "react";
import { type BegunRow, begunTypes } from "../../net/begunTypes.ts";
import type { Me } from "../../net/keep.ts";
import { type TypePlace, type TypeRow, types } from "../../net/types.ts";
import { together } from "../../ui/numbers.ts";
import { useTypeWords } from "../../words/types.ts";
import { useWords } from "../../words/words.ts";
import { go } from "../route.ts";
import { useRenewed } from "../useRenewed.ts";
import { Begun } from "./Begun.tsx";
import { NewType } from "./NewType.tsx";
import { Key, PageHead, TypeTrouble } from "./PageHead.tsx";
import { bySentence, Status } from "./status.tsx";

/** Every type with its versions, newest first. */
export function TypeList({ me, changed }: { me: Me; changed: number }) {
  const words = useTypeWords();
  const {
    say,
    text: { ramp },
  } = useWords();
  const [rows, setRows] = useState<TypeRow[] | null>(null);
  const [trouble, setTrouble] = useState<Error | null>(null);
  const [begun, setBegun] = useState<BegunRow[]>([]);
  const [making, setMaking] = useState(false);
  useRenewed(changed, () => {
    types.list().then(setRows, setTrouble);
    begunTypes.list().then(setBegun, setTrouble);
  });
  const open = ({ id, version }: TypePlace) => go(`/types/${id}/${version}`);
  const take = async (file: File | undefined) => {
    if (!file) return;
    setTrouble(null);
    try {
      open(await types.import(JSON.parse(await file.text())));
    } catch (error) {
      const wrong = words.notJson(file.name);
      setTrouble(error instanceof SyntaxError ? new Error(wrong) : (error as Error));
    }
  };
  const ids = [...new Set((rows ?? []).map((r) => r.id))];
  const may = me.mayHold.includes("supervisor");
  return (
    <main className="page types">
      <PageHead title={words.title} words={words.lead}>
        {may && (
          <>
            <Key onPress={() => setMaking(!making)}>{words.new}</Key>
            <label className="small-key file-key">
              {words.import}
              <input
                name="file"
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
        <Key onPress={() => go("/")}>{ramp.back}</Key>
      </PageHead>
      <TypeTrouble error={trouble} />
      {making && rows && (
        <NewType
          rows={rows}
          onMade={open}
          onBegun={(id) => go(`/types/${encodeURIComponent(id)}/begun`)}
          onTrouble={setTrouble}
        />
      )}
      <Begun rows={begun} may={may} />
      {rows === null && trouble === null && <p className="empty">{ramp.asking}</p>}
      {rows?.length === 0 && begun.length === 0 && <p className="empty">{words.none}</p>}
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
                    <strong>{words.version(row.version)}</strong>
                    <Status status={row.status} />
                    <span className="type-by">{together(bySentence(row, words, say.language))}</span>
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
