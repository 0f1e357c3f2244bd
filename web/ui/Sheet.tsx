import type { ReactNode } from "react";
import { plainUntil } from "./later.tsx";
import { QuickSheet } from "./QuickSheet.tsx";

export interface SheetProps {
  title: string;
  children: ReactNode;
  onClose(): void;
}

/** A sheet over the panel. The stop keys below it stay usable. */
export const Sheet = plainUntil(QuickSheet, () => import("./DialogSheet.tsx").then((m) => m.DialogSheet));
