/** What makes one scripted crew differ from another. The same script on the same events plays the same. */
export interface Script {
  seed: number;
  /** How many times faster than a person it plays; 1 is human pace. */
  pace: number;
  /** The cart's name, said with the ground power signals. */
  cart: string;
}
