import { useEffect, useMemo, useState } from "react";
import { difference } from "../../../shared/types/difference.ts";
import type { AircraftType } from "../../../shared/types/schema.ts";
import { unitsChangedAlone } from "../../../shared/types/unitChanged.ts";
import { readAircraftType, type TypeFault } from "../../../shared/types/validate.ts";
import { warningsOf } from "../../../shared/types/warnings.ts";
import { untranslated } from "../../../shared/words/authored.ts";
import { type ReadType, types } from "../../net/types.ts";
import type { TypeWords } from "../../words/en/types.ts";
import { useTypeWords } from "../../words/types.ts";
import { useWords } from "../../words/words.ts";
import { go } from "../route.ts";
import { DifferenceTable } from "./DifferencePage.tsx";
import { EditSections } from "./EditSections.tsx";
import { EditingContext } from "./form/context.ts";
import { replaced } from "./form/edit.ts";
import type { Node } from "./form/node.ts";
import { sourcesIn } from "./gaps.ts";
import { Key, PageHead, TypeTrouble } from "./PageHead.tsx";

const NO_GAPS: ReadonlySet<string> = new Set();

/** Edits a draft. The form is built from the published schema, and faults appear during entry. */
export function EditPage({ id, version }: { id: string; version: number }) {
  const words = useTypeWords();
  const { app } = useWords().text;
  const [root, setRoot] = useState<Node | null>(null);
  const [saved, setSaved] = useState<ReadType | null>(null);
  const [entered, setEntered] = useState<unknown>(null);
  const [trouble, setTrouble] = useState<Error | null>(null);
  const [busy, setBusy] = useState(false);
  const readAgain = () => {
    setTrouble(null);
    types.read({ id, version }).then((read) => {
      setSaved(read);
      setEntered(read.type);
    }, setTrouble);
  };
  // biome-ignore lint/correctness/useExhaustiveDependencies: another version mounts the page anew
  useEffect(() => {
    types.schema().then((s) => setRoot(s as Node), setTrouble);
    readAgain();
  }, []);
  const faults = useMemo(() => (saved === null ? [] : faultsIn(entered, saved.type)), [entered, saved]);
  const byPath = useMemo(() => grouped(faults), [faults]);
  const dirty = saved !== null && JSON.stringify(entered) !== JSON.stringify(saved.type);
  const save = async () => {
    if (!saved) return;
    setBusy(true);
    setTrouble(null);
    try {
      await types.save({ id, version }, saved.tag, entered);
      const read = await types.read({ id, version });
      setSaved(read);
      setEntered(read.type);
    } catch (error) {
      setTrouble(error as Error);
    }
    setBusy(false);
  };
  const leave = () => go(`/types/${id}/${version}`);
  return (
    <main className="page types">
      <PageHead title={words.editTitle(saved?.type.name ?? id)} words={words.draftOf(id, version)}>
        {dirty && <Key onPress={readAgain}>{words.again}</Key>}
        <Key onPress={leave}>{dirty ? words.leave : words.back}</Key>
      </PageHead>
      <TypeTrouble error={trouble} />
      {root && entered !== null && saved ? (
        <EditingContext.Provider
          value={{
            root,
            faults: byPath,
            gaps: NO_GAPS,
            last: sourcesIn(entered).at(-1) ?? null,
            change: (path, value) => setEntered((e: unknown) => replaced(e, path, value)),
          }}
        >
          <EditSections
            entered={entered as Record<string, unknown>}
            faults={faults}
            untranslated={faults.length > 0 ? [] : untranslated(entered as AircraftType)}
            far={faults.length > 0 ? [] : warningsOf(entered as AircraftType)}
          >
            <div className="save-bar">
              <button
                type="button"
                className="answer"
                data-tone="yes"
                disabled={busy || !dirty || faults.length > 0}
                onClick={() => void save()}
              >
                {busy ? words.saving : words.save}
              </button>
              <p role="status">{standing(dirty, faults.length, words)}</p>
            </div>
          </EditSections>
          {dirty && faults.length === 0 && (
            <section className="type-section" aria-label={words.notSaved}>
              <h2>{words.notSaved}</h2>
              <DifferenceTable
                found={difference(saved.type, entered as AircraftType)}
                before={words.saved}
                after={words.entered}
              />
            </section>
          )}
        </EditingContext.Provider>
      ) : (
        trouble === null && <p className="empty">{app.fetching}</p>
      )}
    </main>
  );
}

function standing(dirty: boolean, faults: number, words: TypeWords): string {
  if (faults > 0) return words.toMend(faults);
  return dirty ? words.inOrder : words.savedInOrder;
}

/** Returns the faults of what was entered, and the units that changed without their figures since it was saved. */
function faultsIn(entered: unknown, saved: AircraftType): TypeFault[] {
  const read = readAircraftType(entered);
  return "faults" in read ? read.faults : unitsChangedAlone(saved, read.type);
}

/** Returns the messages of the faults by their path. */
export function grouped(faults: readonly TypeFault[]): Map<string, string[]> {
  const by = new Map<string, string[]>();
  for (const { path, message } of faults) by.set(path, [...(by.get(path) ?? []), message]);
  return by;
}
