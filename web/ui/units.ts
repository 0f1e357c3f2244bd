import { createContext, useContext } from "react";
import { AS_READ, type UnitChoice } from "../../shared/models/unitChoice.ts";

/** The units this person chose on this device. */
export const UnitsContext = createContext<UnitChoice>(AS_READ);

export const useUnits = (): UnitChoice => useContext(UnitsContext);
