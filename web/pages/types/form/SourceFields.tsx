import { useTypeWords } from "../../../words/types.ts";
import { useTypeNames } from "../names.ts";
import { fieldId, keyOf, useEditing } from "./context.ts";
import type { Path } from "./edit.ts";
import { ChoiceInput, Faults, TextInput } from "./inputs.tsx";
import { formOf, type Node } from "./node.ts";

interface Props {
  path: Path;
  label: string;
  value: unknown;
  /** The schema of its basis. */
  basis: Node;
}

/** The source of a figure: what it rests on, the document and its page. One touch takes the source used before. */
export function SourceFields({ path, label, value, basis }: Props) {
  const words = useTypeWords();
  const names = useTypeNames();
  const { root, change, last } = useEditing();
  const form = formOf(basis, root);
  const source = (typeof value === "object" && value !== null ? value : {}) as Record<string, unknown>;
  const isBlank = !source.basis && !source.text;
  return (
    <fieldset className="tf-figure tf-source" id={fieldId(keyOf(path))} tabIndex={-1}>
      <legend>{label}</legend>
      <Faults path={path} />
      {form.is === "choice" && (
        <ChoiceInput
          path={[...path, "basis"]}
          label={names.name("basis")}
          value={source.basis}
          of={form.of}
        />
      )}
      <TextInput
        path={[...path, "text"]}
        label={names.name("text")}
        value={source.text}
        long={false}
        list="sources-used"
      />
      <TextInput
        path={[...path, "page"]}
        label={names.name("page")}
        value={source.page}
        long={false}
        optional
      />
      {isBlank && last && (
        <button
          type="button"
          className="small-key"
          onClick={() => change(path, { ...source, basis: last.basis, text: last.text })}
        >
          {words.asLast(last.text)}
        </button>
      )}
      {typeof source.by === "string" && <p className="tf-by">{words.enteredBy(source.by)}</p>}
    </fieldset>
  );
}
