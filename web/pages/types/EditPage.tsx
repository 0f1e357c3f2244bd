import { useEffect, useMemo, useState } from "react";
import { difference } from "../../../shared/types/difference.ts";
import type { AircraftType } from "../../../shared/types/schema.ts";
import { readAircraftType, type TypeFault } from "../../../shared/types/validate.ts";
import { type ReadType, types } from "../../net/types.ts";
import { go } from "../route.ts";
import { DifferenceTable } from "./DifferencePage.tsx";
import { EditSections } from "./EditSections.tsx";
import { EditingContext } from "./form/context.ts";
import { replaced } from "./form/edit.ts";
import type { Node } from "./form/node.ts";
import { Key, PageHead, Trouble } from "./PageHead.tsx";

/** Editing a draft: the form is made from the published schema, and every fault is told while it is entered. */
export function EditPage({ id, version }: { id: string; version: number }) {
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
  // biome-ignore lint/correctness/useExhaustiveDependencies: the page is made anew for another version
  useEffect(() => {
    types.schema().then((s) => setRoot(s as Node), setTrouble);
    readAgain();
  }, []);
  const faults = useMemo(() => (entered === null ? [] : faultsIn(entered)), [entered]);
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
      <PageHead title={`Edit ${saved?.type.name ?? id}`} words={`${id}, draft of version ${version}`}>
        {dirty && <Key onPress={readAgain}>Read again, drop changes</Key>}
        <Key onPress={leave}>{dirty ? "Leave without saving" : "To the version"}</Key>
      </PageHead>
      <Trouble error={trouble} />
      {root && entered !== null && saved ? (
        <EditingContext.Provider
          value={{
            root,
            faults: byPath,
            change: (path, value) => setEntered((e: unknown) => replaced(e, path, value)),
          }}
        >
          <EditSections entered={entered as Record<string, unknown>} faults={faults}>
            <div className="save-bar">
              <button
                type="button"
                className="answer"
                data-tone="yes"
                disabled={busy || !dirty || faults.length > 0}
                onClick={() => void save()}
              >
                {busy ? "Saving…" : "Save"}
              </button>
              <p role="status">{standing(dirty, faults.length)}</p>
            </div>
          </EditSections>
          {dirty && faults.length === 0 && (
            <section className="type-section" aria-label="Changes not saved">
              <h2>Changes not saved</h2>
              <DifferenceTable
                found={difference(saved.type, entered as AircraftType)}
                before="Saved"
                after="Entered"
              />
            </section>
          )}
        </EditingContext.Provider>
      ) : (
        trouble === null && <p className="empty">Fetching…</p>
      )}
    </main>
  );
}

function standing(dirty: boolean, faults: number): string {
  if (faults > 0) return `${faults} ${faults === 1 ? "fault" : "faults"} to mend before it can be saved.`;
  return dirty ? "In order, not saved." : "Saved; in order.";
}

function faultsIn(entered: unknown): TypeFault[] {
  const read = readAircraftType(entered);
  return "faults" in read ? read.faults : [];
}

function grouped(faults: readonly TypeFault[]): Map<string, string[]> {
  const by = new Map<string, string[]>();
  for (const { path, message } of faults) by.set(path, [...(by.get(path) ?? []), message]);
  return by;
}
