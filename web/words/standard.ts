/** The stop words that crews of every language know. They stand beside the words of another language. */
export const STANDARD = { hold: "Hold", cut: "Cut", fire: "Fire" } as const;
