import { plainUntil } from "./later.tsx";
import { QuickSheet } from "./QuickSheet.tsx";

/** A sheet over the panel. The stop keys below it stay usable. */
export const Sheet = plainUntil(QuickSheet, () => import("./DialogSheet.tsx").then((m) => m.DialogSheet));
