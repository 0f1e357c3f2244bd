import { createContext, useContext } from "react";

/** The texts of the aircraft type that have no translation in this person's language. Empty outside a session. */
export const LeftAsWritten = createContext<ReadonlySet<string>>(new Set());

interface Props {
  text: string;
  /** Changes the text for display. */
  form?(text: string): string;
}

/** A text that may hold words of a type's author. Those left in English are marked as English. */
export function AuthorsWords({ text, form = (t) => t }: Props) {
  const left = useContext(LeftAsWritten);
  const found = writtenIn(text, left);
  if (found === null) return form(text);
  const at = text.indexOf(found);
  return (
    <>
      {form(text.slice(0, at))}
      <span lang="en">{form(found)}</span>
      {form(text.slice(at + found.length))}
    </>
  );
}

/** Returns the longest of the author's texts in a text; a gauge's name stands in small letters inside a sentence. */
function writtenIn(text: string, left: ReadonlySet<string>): string | null {
  const found = [...left].flatMap((w) => [w, w.toLowerCase()]).filter((w) => text.includes(w));
  return found.reduce<string | null>((most, w) => (w.length > (most?.length ?? 0) ? w : most), null);
}
