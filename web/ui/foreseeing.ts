import { createContext, useContext } from "react";
import type { Action } from "../../shared/protocol/commands.ts";

/** Returns what an action would set off, one sentence each; null while that is not known. */
export type Foresee = (action: Action) => readonly string[] | null;

export const ForeseeContext = createContext<Foresee>(() => null);

export const useForesee = (): Foresee => useContext(ForeseeContext);
