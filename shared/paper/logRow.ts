/** One line of a list: an event in words, and its actor. */
export interface LogRow {
  seq: number;
  at: number;
  words: string;
  by: string;
}
