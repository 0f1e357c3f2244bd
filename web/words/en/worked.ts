/** Headings and keys around calculated figures. */
export const worked = {
  stage: "Now: worked out",
  engine: (n: number) => `Number ${n}: worked out`,
  aircraft: "Aircraft, air, order: worked out",
  noise: "Noise: worked out",
  fewer: "Fewer figures",
  advice: "The order advised: worked out",
  /** Beside an engine's number: the rest its starter still needs before the next crank. */
  rests: (left: string) => `rest ${left}`,
};
