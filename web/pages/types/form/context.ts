import { createContext, useContext } from "react";
import type { Path } from "./edit.ts";
import type { Node } from "./node.ts";

export interface Editing {
  root: Node;
  /** Faults by path: names and indexes from 0, joined by dots. */
  faults: ReadonlyMap<string, readonly string[]>;
  /** Paths where nothing was entered yet. Their faults are marked, and not written out. */
  gaps: ReadonlySet<string>;
  /** The source that was entered last; null before the first. */
  last: { basis: string; text: string } | null;
  change(path: Path, value: unknown): void;
}

export const EditingContext = createContext<Editing | null>(null);

export function useEditing(): Editing {
  const editing = useContext(EditingContext);
  if (!editing) throw new Error("a field stands outside its editor");
  return editing;
}

export const keyOf = (path: Path) => path.join(".");
export const fieldId = (key: string) => `field-${key}`;
