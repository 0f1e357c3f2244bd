/** The three lights a panel is read in. */
export type Light = "sun" | "indoor" | "night";

/** Always towards the darker, so that on the way to night nothing brighter comes between; from night to the sun. */
export const NEXT_LIGHT: Readonly<Record<Light, Light>> = { sun: "indoor", indoor: "night", night: "sun" };
