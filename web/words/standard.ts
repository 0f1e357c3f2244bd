/** The stop words as crews of every language know them: they stand beside those of another language. */
export const STANDARD = { hold: "Hold", cut: "Cut", fire: "Fire" } as const;
