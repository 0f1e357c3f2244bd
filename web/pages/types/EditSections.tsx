import { type KeyboardEvent, type ReactNode, useEffect, useRef, useState } from "react";
import type { TypeFault } from "../../../shared/types/validate.ts";
import { TranslatedText } from "../../ui/TranslatedText.tsx";
import { useTypeFaults, useTypeWords } from "../../words/types.ts";
import { DrawnSoFar } from "./DrawnSoFar.tsx";
import { fieldId, useEditing } from "./form/context.ts";
import { Field } from "./form/Field.tsx";
import { Faults } from "./form/inputs.tsx";
import { blank, formOf, type Node, resolve } from "./form/node.ts";
import { blankSources, sourcesIn, withSource } from "./gaps.ts";
import { useTypeNames } from "./names.ts";
import { SectionKeys, type SectionState } from "./SectionKeys.tsx";

/** The server sets these fields of a draft, not its author. */
const HOUSE = new Set(["id", "version", "author", "approvedBy"]);
const GENERAL = "general";

interface Props {
  entered: Record<string, unknown>;
  faults: readonly TypeFault[];
  /** Warnings for the author, who may go on: texts without their translation, and figures far from published ones. */
  untranslated: readonly TypeFault[];
  far: readonly TypeFault[];
  /** Called when another section is opened. */
  onSection?(): void;
  children: ReactNode;
}

/** The type's parts, one at a time: what is done, what is to be entered or mended, and which part is next. */
export function EditSections({ entered, faults, untranslated, far, onSection, children }: Props) {
  const words = useTypeWords();
  const names = useTypeNames();
  const { root, gaps } = useEditing();
  const [open, setOpen] = useState(GENERAL);
  const [target, setTarget] = useState<string | null>(null);
  const form = useRef<HTMLDivElement>(null);
  const parts = Object.entries(resolve(root, root).properties ?? {}).filter(([name]) => !HOUSE.has(name));
  const simple = parts.filter(([, node]) => isSimple(node, root));
  const large = parts.filter((part) => !simple.includes(part));
  const order = [GENERAL, ...large.map(([name]) => name)];
  const sectionOf = (path: string) => {
    const first = path.split(".")[0] ?? "";
    return large.some(([name]) => name === first) ? first : GENERAL;
  };
  const states = order.map((name): SectionState => {
    const own = faults.filter((f) => sectionOf(f.path) === name);
    const toEnter = own.filter((f) => gaps.has(f.path)).length;
    const absent = name !== GENERAL && entered[name] === undefined;
    return { name, toEnter, toMend: own.length - toEnter, absent };
  });
  const shown = open === GENERAL ? simple : large.filter(([name]) => name === open);
  const following = order[order.indexOf(open) + 1];
  const show = (section: string) => {
    if (section !== open) onSection?.();
    setOpen(section);
  };
  const turnTo = (section: string) => {
    show(section);
    form.current?.scrollIntoView();
  };
  const goTo = (path: string) => {
    show(sectionOf(path));
    setTarget(path);
  };
  // The field is in the document only after its section was drawn.
  useEffect(() => {
    if (target === null) return;
    nearestField(target)?.focus();
    setTarget(null);
  }, [target]);
  const nextGap = () => {
    const sorted = order.flatMap((name) => faults.filter((f) => sectionOf(f.path) === name));
    const at = sorted.findIndex((f) => fieldId(f.path) === document.activeElement?.id);
    const here = sorted.findIndex((f) => sectionOf(f.path) === open);
    const next = sorted[at === -1 ? Math.max(0, here) : (at + 1) % sorted.length];
    if (next) goTo(next.path);
  };
  const onKeyDown = (event: KeyboardEvent) => {
    if (event.key !== "Enter" || !(event.target instanceof HTMLElement)) return;
    if (event.ctrlKey || event.metaKey) {
      event.preventDefault();
      nextGap();
    } else if (event.target.matches("input:not([type=checkbox])")) {
      event.preventDefault();
      const fields = [...(form.current?.querySelectorAll<HTMLElement>(FIELDS) ?? [])];
      fields[fields.indexOf(event.target) + 1]?.focus();
    }
  };
  return (
    <div className="edit">
      <div className="edit-side">
        <DrawnSoFar entered={entered} />
        <SectionKeys states={states} open={open} onOpen={turnTo} />
      </div>
      {/* biome-ignore lint/a11y/noStaticElementInteractions: Enter inside a field leads on; nothing here is pressed */}
      <div className="edit-form" ref={form} onKeyDown={onKeyDown}>
        {children}
        <FaultList title={words.faults} faults={faults.filter((f) => !gaps.has(f.path))} onPick={goTo} />
        {far.length > 0 && (
          <details className="type-warnings" open>
            <summary>{words.far(far.length)}</summary>
            <FaultList title={words.farTitle} faults={far} onPick={goTo} />
          </details>
        )}
        {untranslated.length > 0 && (
          <details className="type-warnings">
            <summary>{words.untranslated(untranslated.length)}</summary>
            <FaultList title={words.warnings} faults={untranslated} onPick={goTo} />
          </details>
        )}
        {open === GENERAL && <h2>{names.name(open)}</h2>}
        {open === GENERAL && <Faults path={[]} />}
        <SameSource names={shown.map(([name]) => name)} entered={entered} />
        {shown.map(([name, node]) => (
          <Part key={name} name={name} node={node} value={entered[name]} />
        ))}
        <datalist id="sources-used">
          {[...new Set(sourcesIn(entered).map((s) => s.text))].map((text) => (
            <option key={text} value={text} />
          ))}
        </datalist>
        <div className="section-next">
          {faults.length > 0 && (
            <button type="button" className="answer" data-tone="plain" onClick={nextGap}>
              {words.nextGap}
            </button>
          )}
          {following !== undefined && (
            <button type="button" className="answer" data-tone="plain" onClick={() => turnTo(following)}>
              {words.nextSection(names.name(following))}
            </button>
          )}
          <p className="keys-help">{words.keysHelp}</p>
        </div>
      </div>
    </div>
  );
}

const FIELDS = ":is(input,select,textarea)";

/** One touch gives all blank sources of the open section the source that was entered last, without a page. */
function SameSource({ names, entered }: { names: readonly string[]; entered: Record<string, unknown> }) {
  const words = useTypeWords();
  const { last, change } = useEditing();
  const there = names.filter((name) => blankSources(entered[name]) > 0);
  const count = there.reduce((sum, name) => sum + blankSources(entered[name]), 0);
  if (!last || count < 2) return null;
  return (
    <button
      type="button"
      className="small-key same-source"
      onClick={() => {
        for (const name of there) change([name], withSource(entered[name], last));
      }}
    >
      {words.allFrom(count, last.text)}
    </button>
  );
}

interface ListProps {
  title: string;
  faults: readonly TypeFault[];
  onPick(path: string): void;
}

/** Faults or warnings. A touch leads to the field. */
function FaultList({ title, faults, onPick }: ListProps) {
  const names = useTypeNames();
  const translate = useTypeFaults();
  if (faults.length === 0) return null;
  return (
    <ul className="fault-list" aria-label={title}>
      {faults.map((f) => (
        <li key={f.path + f.message}>
          <button type="button" onClick={() => onPick(f.path)}>
            {names.faultPath(f.path)}: <TranslatedText pieces={translate(f.message)} />
          </button>
        </li>
      ))}
    </ul>
  );
}

/** One part of a type. An optional part is added and removed as a whole. */
function Part({ name, node, value }: { name: string; node: Node; value: unknown }) {
  const words = useTypeWords();
  const names = useTypeNames();
  const { root, change } = useEditing();
  const optional = !resolve(root, root).required?.includes(name);
  if (value === undefined && optional)
    return (
      <div className="tf-parts">
        <p className="tf-none">{words.nothing}</p>
        <button type="button" className="small-key" onClick={() => change([name], blank(node, root))}>
          {words.add(names.name(name))}
        </button>
      </div>
    );
  return (
    <>
      <Field node={node} path={[name]} label={names.name(name)} value={value} />
      {optional && (
        <button type="button" className="small-key" onClick={() => change([name], undefined)}>
          {words.takeOutOf(names.name(name))}
        </button>
      )}
    </>
  );
}

/** True for text, numbers and sources, which share a page. A part with members or items has a page of its own. */
function isSimple(node: Node, root: Node): boolean {
  const form = formOf(node, root);
  return form.is === "parts" ? form.figure : !["list", "tuple", "choices", "oneOf"].includes(form.is);
}

/** Returns the field at the path, or the nearest one that contains it. */
function nearestField(path: string): HTMLElement | null {
  const steps = path.split(".");
  for (let n = steps.length; n > 0; n -= 1) {
    const field = document.getElementById(fieldId(steps.slice(0, n).join(".")));
    if (field) return field;
  }
  return null;
}
