import { useEffect, useMemo, useRef, useState } from "react";
import { POSTS } from "../../../shared/protocol/posts.ts";
import { blankConditions } from "../../../shared/types/blankConditions.ts";
import type { AircraftType } from "../../../shared/types/schema.ts";
import { unsourced } from "../../../shared/types/unsourced.ts";
import { readAircraftType, type TypeFault } from "../../../shared/types/validate.ts";
import { warningsOf } from "../../../shared/types/warnings.ts";
import { begunTypes, type ReadBegun } from "../../net/begunTypes.ts";
import type { Me } from "../../net/keep.ts";
import { types } from "../../net/types.ts";
import { useTypeWords } from "../../words/types.ts";
import { useWords } from "../../words/words.ts";
import { go } from "../route.ts";
import { grouped } from "./EditPage.tsx";
import { EditSections } from "./EditSections.tsx";
import { EditingContext } from "./form/context.ts";
import { type Path, replaced } from "./form/edit.ts";
import { completed, type Node } from "./form/node.ts";
import { GiveUp } from "./GiveUp.tsx";
import { isGap, sourcesIn } from "./gaps.ts";
import { Key, PageHead, TypeTrouble } from "./PageHead.tsx";

type Entered = Record<string, unknown>;

/** Leads a person through a type that begins with nothing, section by section, until it is in order. */
export function BegunPage({ id, me }: { id: string; me: Me }) {
  const words = useTypeWords();
  const { app } = useWords().text;
  const [root, setRoot] = useState<Node | null>(null);
  const [saved, setSaved] = useState<ReadBegun | null>(null);
  const [entered, setEntered] = useState<Entered | null>(null);
  const [last, setLast] = useState<{ basis: string; text: string } | null>(null);
  const [trouble, setTrouble] = useState<Error | null>(null);
  const [busy, setBusy] = useState(false);
  const readAgain = async () => {
    setTrouble(null);
    try {
      const [schema, read] = await Promise.all([types.schema(), begunTypes.read(id)]);
      const whole = whatIsAsked(read.entered, schema as Node);
      setRoot(schema as Node);
      setSaved({ ...read, entered: whole });
      setEntered(whole);
      setLast((l) => l ?? sourcesIn(whole).at(-1) ?? null);
    } catch (error) {
      setTrouble(error as Error);
    }
  };
  // biome-ignore lint/correctness/useExhaustiveDependencies: another type mounts the page anew
  useEffect(() => void readAgain(), []);
  const faults = useMemo(() => (entered ? faultsOf(entered, id) : []), [entered, id]);
  const gaps = useMemo(
    () => new Set(faults.filter((f) => isGap(f, entered)).map((f) => f.path)),
    [faults, entered],
  );
  const dirty = saved !== null && JSON.stringify(entered) !== JSON.stringify(saved.entered);
  /** Saves, and resolves to what the server then holds; null when it was not saved. */
  const save = async (): Promise<ReadBegun | null> => {
    if (!saved || !root || busy) return null;
    const sent = entered;
    setBusy(true);
    setTrouble(null);
    try {
      if (!dirty) return saved;
      await begunTypes.save(id, saved.tag, sent);
      const read = await begunTypes.read(id);
      const whole = whatIsAsked(read.entered, root);
      setSaved({ ...read, entered: whole });
      // An entry made while the server answered stays, and is saved with the next section.
      setEntered((now) => (now === sent ? whole : now));
      return read;
    } catch (error) {
      setTrouble(error as Error);
      return null;
    } finally {
      setBusy(false);
    }
  };
  const latest = useRef(save);
  latest.current = save;
  // A tablet that is laid aside keeps what was entered.
  useEffect(() => {
    const hidden = () => document.visibilityState === "hidden" && void latest.current();
    document.addEventListener("visibilitychange", hidden);
    return () => document.removeEventListener("visibilitychange", hidden);
  }, []);
  const change = (path: Path, value: unknown) => {
    setEntered((e) => {
      const next = replaced(e, path, value) as Entered;
      const touched = sourcesIn(sourceAround(next, path)).at(0);
      if (touched) setLast(touched);
      return next;
    });
  };
  const finish = async () => {
    const read = await save();
    if (!read) return;
    begunTypes.finish(id, read.tag).then((made) => go(`/types/${made.id}/${made.version}`), setTrouble);
  };
  if (!me.mayHold.includes("supervisor")) return <p className="empty">{words.otherApproves}</p>;
  return (
    <main className="page types">
      <PageHead title={words.editTitle(String(entered?.name || id))} words={words.begunLead(id)}>
        {trouble && <Key onPress={() => void readAgain()}>{words.again}</Key>}
        <Key onPress={() => void save().then((read) => read && go("/types"))}>{words.all}</Key>
      </PageHead>
      <TypeTrouble error={trouble} />
      {root && entered && saved ? (
        <EditingContext.Provider value={{ root, faults: grouped(faults), gaps, last, change }}>
          <EditSections
            entered={entered}
            faults={faults}
            untranslated={[]}
            far={faults.length > 0 ? [] : warningsOf(asType(entered, id) as AircraftType)}
            onSection={() => void save()}
          >
            <div className="save-bar">
              <button
                type="button"
                className="answer"
                data-tone="plain"
                disabled={busy || !dirty}
                onClick={() => void save()}
              >
                {busy ? words.saving : words.saveSoFar}
              </button>
              {faults.length === 0 && (
                <button
                  type="button"
                  className="answer"
                  data-tone="yes"
                  disabled={busy}
                  onClick={() => void finish()}
                >
                  {words.finish}
                </button>
              )}
              <p role="status">
                {faults.length > 0 ? words.left(faults.length) : words.complete} {!dirty && words.savedSoFar}
              </p>
            </div>
          </EditSections>
          <GiveUp begun={saved} onTrouble={setTrouble} />
        </EditingContext.Provider>
      ) : (
        trouble === null && <p className="empty">{app.fetching}</p>
      )}
    </main>
  );
}

/** Returns what the server would make of it: it sets who is responsible, and which version it is. */
const asType = (entered: Entered, id: string) => ({
  ...entered,
  ...{ id, version: 1, author: "–", approvedBy: null },
});

function faultsOf(entered: Entered, id: string): TypeFault[] {
  const read = readAircraftType(asType(entered, id));
  return "faults" in read ? read.faults : unsourced(read.type);
}

/** Returns what was entered with a blank for everything else that is asked. */
function whatIsAsked(entered: Readonly<Entered>, root: Node): Entered {
  const engines = Array.isArray(entered.engines) ? entered.engines.length : 1;
  const begin = {
    defaultOrder: Array.from({ length: engines }, () => null),
    conditions: blankConditions(),
    requiredPosts: [...POSTS],
  };
  const whole = completed({ ...begin, ...entered }, root, root) as Entered;
  const { id: _id, version: _version, author: _author, approvedBy: _approvedBy, ...own } = whole;
  return own;
}

/** Returns the source in which the path lies, or nothing. */
function sourceAround(root: unknown, path: Path): unknown {
  const at = path.findIndex((step) => step === "source" || step === "orderSource");
  if (at === -1) return null;
  return path.slice(0, at + 1).reduce<unknown>((v, step) => (v as Entered | null)?.[step as string], root);
}
