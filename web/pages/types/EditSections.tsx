import { type ReactNode, useState } from "react";
import type { TypeFault } from "../../../shared/types/validate.ts";
import { TranslatedText } from "../../ui/TranslatedText.tsx";
import { useTypeFaults, useTypeWords } from "../../words/types.ts";
import { fieldId, useEditing } from "./form/context.ts";
import { Field } from "./form/Field.tsx";
import { Faults } from "./form/inputs.tsx";
import { blank, formOf, type Node, resolve } from "./form/node.ts";
import { useTypeNames } from "./names.ts";

/** The server sets these fields of a draft, not its author. */
const HOUSE = new Set(["id", "version", "author", "approvedBy"]);
const GENERAL = "general";

interface Props {
  entered: Record<string, unknown>;
  faults: readonly TypeFault[];
  /** Warnings for the author, who may go on: texts without their translation, and figures far from published ones. */
  untranslated: readonly TypeFault[];
  far: readonly TypeFault[];
  children: ReactNode;
}

/** The type's parts, one at a time, each with its number of faults. */
export function EditSections({ entered, faults, untranslated, far, children }: Props) {
  const words = useTypeWords();
  const names = useTypeNames();
  const { root } = useEditing();
  const [open, setOpen] = useState(GENERAL);
  const parts = Object.entries(resolve(root, root).properties ?? {}).filter(([name]) => !HOUSE.has(name));
  const simple = parts.filter(([, node]) => isSimple(node, root));
  const large = parts.filter((part) => !simple.includes(part));
  const sectionOf = (path: string) => {
    const first = path.split(".")[0] ?? "";
    return large.some(([name]) => name === first) ? first : GENERAL;
  };
  const count = (section: string) => faults.filter((f) => sectionOf(f.path) === section).length;
  const shown = open === GENERAL ? simple : large.filter(([name]) => name === open);
  const goTo = (path: string) => {
    setOpen(sectionOf(path));
    requestAnimationFrame(() => nearestField(path)?.focus());
  };
  return (
    <div className="edit">
      <nav className="edit-nav" aria-label={words.parts}>
        {[[GENERAL, null] as const, ...large].map(([name]) => (
          <button
            key={name}
            type="button"
            aria-current={open === name ? "true" : undefined}
            onClick={() => setOpen(name)}
          >
            <span>{names.name(name)}</span>
            {name !== GENERAL && entered[name] === undefined && (
              <span className="edit-absent">{words.notGiven}</span>
            )}
            {count(name) > 0 && (
              <span className="edit-count">
                {count(name)}
                <span className="visually-hidden"> {words.faults.toLowerCase()}</span>
              </span>
            )}
          </button>
        ))}
      </nav>
      <div className="edit-form">
        {children}
        <FaultList title={words.faults} faults={faults} onPick={goTo} />
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
        {shown.map(([name, node]) => (
          <Part key={name} name={name} node={node} value={entered[name]} />
        ))}
      </div>
    </div>
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
