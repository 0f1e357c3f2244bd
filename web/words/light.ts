/** The three lighting modes of a panel. */
export type Light = "sun" | "indoor" | "night";

/** Each step goes darker, so that nothing brighter appears on the way to night; night returns to sun. */
export const NEXT_LIGHT: Readonly<Record<Light, Light>> = { sun: "indoor", indoor: "night", night: "sun" };
