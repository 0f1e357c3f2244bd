/** A piece of a text as it is shown. */
export interface Piece {
  words: string;
  /** True when the piece is left as it was written, in English or in its author's language. */
  asWritten: boolean;
}

/**
 * A phrase as the code writes it in English, and its translation. `{1}` to `{9}` hold a figure, a name or another
 * phrase; `{a}` to `{d}` hold an author's words, which stay as they are.
 */
export type Phrase = readonly [english: string, other: string];

/** Returns a text in another language. A text that matches no phrase comes back whole, as it was written. */
export type PhraseBook = (text: string) => readonly Piece[];

/** Returns a piece in the reader's language. */
export const asSaid = (words: string): Piece => ({ words, asWritten: false });

export const wordsOf = (pieces: readonly Piece[]): string => pieces.map((p) => p.words).join("");

/** Returns texts unchanged, because the code writes them in English. */
export const asEnglish: PhraseBook = (text) => [asSaid(text)];
