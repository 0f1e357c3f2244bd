import { useTypeWords } from "../../../words/types.ts";
import { type TypeNames, useTypeNames } from "../names.ts";
import { itemTitle } from "../rows.ts";
import { fieldId, keyOf, useEditing } from "./context.ts";
import { moved, type Path } from "./edit.ts";
import {
  ChoiceInput,
  ChoicesInput,
  Faults,
  NumberInput,
  RawInput,
  TextInput,
  YesNoInput,
} from "./inputs.tsx";
import { blank, type Form, formAt, formOf, type Node } from "./node.ts";
import { SourceFields } from "./SourceFields.tsx";

interface Props {
  node: Node;
  path: Path;
  label: string;
  value: unknown;
}

/** The field for a part of the schema, in the form it needs. */
export function Field({ node, path, label, value }: Props) {
  const { root } = useEditing();
  const names = useTypeNames();
  const form = formOf(node, root);
  const own = { path, label, value };
  switch (form.is) {
    case "fixed":
      return (
        <div className="tf">
          <span className="tf-label">{label}</span>
          <span className="tf-fixed">{names.value(form.value)}</span>
          <Faults path={path} />
        </div>
      );
    case "choice":
      return <ChoiceInput {...own} of={form.of} />;
    case "choices":
      return <ChoicesInput {...own} of={form.of} />;
    case "number":
      return <NumberInput {...own} />;
    case "text":
      return <TextInput {...own} long={form.long} />;
    case "yesNo":
      return <YesNoInput {...own} />;
    case "nullable":
      return <Nullable {...own} inner={form.inner} />;
    case "oneOf":
      return <OneOf {...own} of={form.of} />;
    case "parts": {
      const basis = form.figure && form.parts.find(([name]) => name === "basis");
      if (basis) return <SourceFields {...own} basis={basis[1]} />;
      return <Parts {...own} form={form} />;
    }
    case "list":
      return <List {...own} form={form} />;
    case "tuple":
      return (
        <fieldset className="tf-parts">
          <legend>{label}</legend>
          <Faults path={path} />
          {form.items.map((item, i) => (
            <Field
              // biome-ignore lint/suspicious/noArrayIndexKey: an item of a tuple is identified by its index
              key={i}
              node={item}
              path={[...path, i]}
              label={String(i + 1)}
              value={Array.isArray(value) ? value[i] : undefined}
            />
          ))}
        </fieldset>
      );
    case "unknown":
      return <RawInput {...own} />;
  }
}

type Own = Omit<Props, "node">;

/** A value that may be null. An empty number is null; anything else is added and removed by a key. */
function Nullable({ inner, ...own }: Own & { inner: Node }) {
  const words = useTypeWords();
  const { root, change } = useEditing();
  if (formOf(inner, root).is === "number") return <NumberInput {...own} label={words.orNone(own.label)} />;
  if (own.value === null || own.value === undefined)
    return (
      <div className="tf-parts">
        <button type="button" className="small-key" onClick={() => change(own.path, blank(inner, root))}>
          {words.add(own.label)}
        </button>
        <Faults path={own.path} />
      </div>
    );
  return (
    <div className="tf-parts">
      <Field node={inner} {...own} />
      <button type="button" className="small-key" onClick={() => change(own.path, null)}>
        {words.takeOutOf(own.label)}
      </button>
    </div>
  );
}

function OneOf({ path, label, value, of }: Own & { of: readonly Node[] }) {
  const words = useTypeWords();
  const { root, change } = useEditing();
  const called = useTypeNames();
  const at = formAt(value, of, root);
  const names = of.map((node) => distinct(node, of, root, called));
  const id = `${fieldId(keyOf(path))}-form`;
  const chosen = of[at];
  return (
    <div className="tf-parts">
      <div className="tf">
        <label htmlFor={id}>{words.form(label)}</label>
        <select id={id} value={at} onChange={(e) => change(path, blankOf(of[Number(e.target.value)], root))}>
          {names.map((name, i) => (
            <option key={name} value={i}>
              {name}
            </option>
          ))}
        </select>
      </div>
      {chosen && <Field node={chosen} path={path} label={label} value={value} />}
    </div>
  );
}

const blankOf = (node: Node | undefined, root: Node) => (node ? blank(node, root) : null);

/** Returns words that distinguish one form from the others: members only it has, or its fixed value. */
function distinct(node: Node, of: readonly Node[], root: Node, names: TypeNames): string {
  const parts = (n: Node) => {
    const form = formOf(n, root);
    return form.is === "parts" ? form.parts : [];
  };
  const others = new Set(of.filter((o) => o !== node).flatMap((o) => parts(o).map(([name]) => name)));
  const own = parts(node).filter(([name]) => !others.has(name));
  if (own.length > 0) return own.map(([name]) => names.name(name)).join(", ");
  const fixed = parts(node).flatMap(([, part]) => {
    const form = formOf(part, root);
    return form.is === "fixed" ? [names.value(form.value)] : [];
  });
  return fixed.join(", ") || names.name(formOf(node, root).is);
}

function Parts({ path, label, value, form }: Own & { form: Extract<Form, { is: "parts" }> }) {
  const words = useTypeWords();
  const names = useTypeNames();
  const { root, change } = useEditing();
  const members = (typeof value === "object" && value !== null ? value : {}) as Record<string, unknown>;
  const there = form.parts.filter(([name]) => form.required.has(name) || members[name] !== undefined);
  const absent = form.parts.filter((part) => !there.includes(part));
  const optional = there.filter(([name]) => !form.required.has(name));
  return (
    <fieldset className={form.figure ? "tf-figure" : "tf-parts"} id={fieldId(keyOf(path))} tabIndex={-1}>
      <legend>{label}</legend>
      <Faults path={path} />
      {there.map(([name, node]) => (
        <Field key={name} node={node} path={[...path, name]} label={names.name(name)} value={members[name]} />
      ))}
      {absent.length + optional.length > 0 && (
        <div className="tf-keys">
          {absent.map(([name, node]) => (
            <button
              key={name}
              type="button"
              className="small-key"
              onClick={() => change([...path, name], blank(node, root))}
            >
              {words.add(names.name(name))}
            </button>
          ))}
          {optional.map(([name]) => (
            <button
              key={name}
              type="button"
              className="small-key"
              onClick={() => change([...path, name], undefined)}
            >
              {words.takeOutOf(names.name(name))}
            </button>
          ))}
        </div>
      )}
    </fieldset>
  );
}

function List({ path, label, value, form }: Own & { form: Extract<Form, { is: "list" }> }) {
  const words = useTypeWords();
  const names = useTypeNames();
  const { root, change } = useEditing();
  const list: readonly unknown[] = Array.isArray(value) ? value : [];
  const change1 = (i: number, next: number) => change(path, moved(list, i, next));
  return (
    <fieldset className="tf-parts" id={fieldId(keyOf(path))} tabIndex={-1}>
      <legend>{label}</legend>
      <Faults path={path} />
      {list.length === 0 && <p className="tf-none">{words.empty}</p>}
      <ol className="tf-list">
        {list.map((item, i) => {
          const title = itemTitle(item, i, names);
          return (
            // biome-ignore lint/suspicious/noArrayIndexKey: an item's id is itself being edited
            <li key={i}>
              <Field node={form.item} path={[...path, i]} label={title} value={item} />
              <div className="tf-keys">
                <button
                  type="button"
                  className="small-key"
                  aria-label={words.upOf(title)}
                  disabled={i === 0}
                  onClick={() => change1(i, i - 1)}
                >
                  {words.up}
                </button>
                <button
                  type="button"
                  className="small-key"
                  aria-label={words.downOf(title)}
                  disabled={i === list.length - 1}
                  onClick={() => change1(i, i + 1)}
                >
                  {words.down}
                </button>
                <button
                  type="button"
                  className="small-key"
                  aria-label={words.takeOutOf(title)}
                  onClick={() =>
                    change(
                      path,
                      list.filter((_, j) => j !== i),
                    )
                  }
                >
                  {words.takeOut}
                </button>
              </div>
            </li>
          );
        })}
      </ol>
      <button
        type="button"
        className="small-key"
        disabled={list.length >= form.most}
        onClick={() => change(path, [...list, blank(form.item, root)])}
      >
        {words.addTo(label)}
      </button>
    </fieldset>
  );
}
