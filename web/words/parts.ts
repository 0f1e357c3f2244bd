/** The parts of a type are named by the published schema, in English: these names read badly when only taken apart. */
export const PARTS: Readonly<Record<string, string>> = {
  n: "Engine number",
  x: "Aft of the nose (m)",
  y: "To starboard of the centre line (m)",
  id: "Identifier",
  note: "Note",
  withinS: "Within (s)",
  mainGearX: "Main gear aft of the nose (m)",
  gearTrack: "Gear track (m)",
  span: "Span (m)",
  length: "Length (m)",
  diameter: "Diameter (m)",
  perEngine: "One for each engine",
  onMax: "On at most",
  min: "Least",
  max: "Most",
  plan: "Plan of the aircraft",
  overridable: "Conditions two people may set aside",
  defaultOrder: "Usual order of starting",
  orderSource: "Source of the order",
};

export const BASES: Readonly<Record<string, string>> = {
  published: "Published",
  commonPractice: "Common practice",
  fromMemory: "From memory",
  invented: "Invented",
};

export const WHOLE = "The whole type";
