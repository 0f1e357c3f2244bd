import { useTypeWords } from "../../words/types.ts";
import { useTypeNames } from "./names.ts";

/** The progress of one section of a type. */
export interface SectionState {
  name: string;
  /** Entries that are still blank. */
  toEnter: number;
  /** Entries that are wrong. */
  toMend: number;
  /** True if the type says nothing about it, as it may. */
  absent: boolean;
}

interface Props {
  states: readonly SectionState[];
  open: string;
  onOpen(section: string): void;
}

/** The sections of a type as keys, each with what is done, to be entered or to be mended in it. */
export function SectionKeys({ states, open, onOpen }: Props) {
  const words = useTypeWords();
  const names = useTypeNames();
  return (
    <nav className="edit-nav" aria-label={words.parts}>
      {states.map(({ name, toEnter, toMend, absent }) => (
        <button
          key={name}
          type="button"
          aria-current={open === name ? "true" : undefined}
          onClick={() => onOpen(name)}
        >
          <span>{names.name(name)}</span>
          {absent && <span className="edit-absent">{words.notGiven}</span>}
          {toEnter > 0 && <span className="edit-left">{words.toEnter(toEnter)}</span>}
          {toMend > 0 && <span className="edit-count">{words.toMendHere(toMend)}</span>}
          {!absent && toEnter + toMend === 0 && (
            <span className="edit-done">
              <span aria-hidden="true">✓ </span>
              {words.sectionDone}
            </span>
          )}
        </button>
      ))}
    </nav>
  );
}
