import type { ReactNode } from "react";
import { plainUntil } from "./later.tsx";
import { QuickSheet } from "./QuickSheet.tsx";

export interface SheetProps {
  title: string;
  children: ReactNode;
  onClose(): void;
}

/** A sheet laid over the panel; the stops stay in reach below it. */
export const Sheet = plainUntil(QuickSheet, () => import("./DialogSheet.tsx").then((m) => m.DialogSheet));
