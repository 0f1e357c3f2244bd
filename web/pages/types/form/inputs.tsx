import { type ReactNode, useState } from "react";
import { TranslatedText } from "../../../ui/TranslatedText.tsx";
import { useTypeFaults, useTypeWords } from "../../../words/types.ts";
import { useTypeNames } from "../names.ts";
import { fieldId, keyOf, useEditing } from "./context.ts";
import type { Path } from "./edit.ts";

interface Props {
  path: Path;
  label: string;
  value: unknown;
}

/** A label, the input, and its faults beside it. */
export function Labelled({ path, label, children }: { path: Path; label: string; children: ReactNode }) {
  const key = keyOf(path);
  const { faults, gaps } = useEditing();
  return (
    <div className="tf" data-faulty={faults.has(key) || undefined} data-gap={gaps.has(key) || undefined}>
      <label htmlFor={fieldId(key)}>{label}</label>
      {children}
      <Faults path={path} />
    </div>
  );
}

/** The faults of exactly this path. */
export function Faults({ path }: { path: Path }) {
  const key = keyOf(path);
  const translate = useTypeFaults();
  const { faults: all, gaps } = useEditing();
  const faults = gaps.has(key) ? [] : (all.get(key) ?? []);
  return (
    <p className="tf-fault" id={`${fieldId(key)}-fault`} aria-live="polite">
      {faults.length > 0 && (
        <span>
          ✕ <TranslatedText pieces={translate(faults.join("; "))} />
        </span>
      )}
    </p>
  );
}

function useInput(path: Path) {
  const { faults, gaps } = useEditing();
  const key = keyOf(path);
  const [wrong, gap] = [faults.has(key) && !gaps.has(key), gaps.has(key)];
  const about = { "aria-invalid": wrong, "aria-describedby": `${fieldId(key)}-fault` };
  return { id: fieldId(key), ...about, "data-gap": gap || undefined };
}

export function NumberInput({ path, label, value }: Props) {
  const { change } = useEditing();
  const [typed, setTyped] = useState(() => shown(value));
  // The value may change from elsewhere, e.g. when an item moves up; then show the new value instead of the typed
  // text.
  const text = read(typed) === value ? typed : shown(value);
  return (
    <Labelled path={path} label={label}>
      <input
        {...useInput(path)}
        inputMode="decimal"
        autoComplete="off"
        value={text}
        onChange={(e) => {
          setTyped(e.target.value);
          change(path, read(e.target.value));
        }}
      />
    </Labelled>
  );
}

const shown = (value: unknown) => (value === null || value === undefined ? "" : String(value));

/** Returns a number, null for an empty text, or the text itself when it is no number, so that its fault is reported. */
function read(text: string): unknown {
  const trimmed = text.trim();
  if (trimmed === "") return null;
  return /^[-+]?(\d+\.?\d*|\.\d+)$/.test(trimmed) ? Number(trimmed) : trimmed;
}

interface TextProps extends Props {
  long: boolean;
  /** Id of a list of texts to choose from. */
  list?: string;
  /** True if an empty text is left out of the type. */
  optional?: boolean;
}

export function TextInput({ path, label, value, long, list, optional }: TextProps) {
  const { change } = useEditing();
  const props = {
    ...useInput(path),
    autoComplete: "off",
    value: shown(value),
    ...(list ? { list } : {}),
    onChange: ({ target }: { target: { value: string } }) =>
      change(path, optional && target.value === "" ? undefined : target.value),
  };
  return (
    <Labelled path={path} label={label}>
      {long ? <textarea rows={2} {...props} /> : <input {...props} />}
    </Labelled>
  );
}

export function ChoiceInput({ path, label, value, of }: Props & { of: readonly (string | number)[] }) {
  const words = useTypeWords();
  const names = useTypeNames();
  const { change } = useEditing();
  const at = of.indexOf(value as string | number);
  return (
    <Labelled path={path} label={label}>
      <select {...useInput(path)} value={at} onChange={(e) => change(path, of[Number(e.target.value)])}>
        {at === -1 && <option value={-1}>{words.choose}</option>}
        {of.map((one, i) => (
          <option key={one} value={i}>
            {names.value(one)}
          </option>
        ))}
      </select>
    </Labelled>
  );
}

export function YesNoInput({ path, label, value }: Props) {
  const { change } = useEditing();
  return (
    <div className="tf tf-yes">
      <input
        {...useInput(path)}
        type="checkbox"
        checked={value === true}
        onChange={(e) => change(path, e.target.checked)}
      />
      <label htmlFor={fieldId(keyOf(path))}>{label}</label>
      <Faults path={path} />
    </div>
  );
}

/** Entry of any number of the values of an enumeration, kept in the schema's order. */
export function ChoicesInput({ path, label, value, of }: Props & { of: readonly (string | number)[] }) {
  const names = useTypeNames();
  const { change } = useEditing();
  const chosen: readonly unknown[] = Array.isArray(value) ? value : [];
  return (
    <fieldset className="tf-parts" id={fieldId(keyOf(path))} tabIndex={-1}>
      <legend>{label}</legend>
      <Faults path={path} />
      <div className="tf-checks">
        {of.map((one) => (
          <label key={one} className="tf-check">
            <input
              name={`${keyOf(path)}/${one}`}
              type="checkbox"
              checked={chosen.includes(one)}
              onChange={(e) =>
                change(path, e.target.checked ? [...chosen, one] : chosen.filter((c) => c !== one))
              }
            />
            {names.value(one)}
          </label>
        ))}
      </div>
    </fieldset>
  );
}

/** Entry as JSON of a part without a form of its own. */
export function RawInput({ path, label, value }: Props) {
  const words = useTypeWords();
  const { change } = useEditing();
  const [typed, setTyped] = useState(() => JSON.stringify(value ?? null, null, 2));
  return (
    <Labelled path={path} label={words.raw(label)}>
      <textarea
        {...useInput(path)}
        rows={6}
        value={typed}
        onChange={(e) => {
          setTyped(e.target.value);
          try {
            change(path, JSON.parse(e.target.value));
          } catch {
            change(path, e.target.value);
          }
        }}
      />
    </Labelled>
  );
}
