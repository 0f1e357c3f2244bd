/** Around the figures that are worked out. */
export const worked = {
  stage: "Now: worked out",
  engine: (n: number) => `Number ${n}: worked out`,
  aircraft: "Aircraft, air, order: worked out",
  noise: "Noise: worked out",
  fewer: "Fewer figures",
  advice: "The order advised: worked out",
  /** Beside an engine's number: its starter must rest so long before the next crank. */
  rests: (left: string) => `rest ${left}`,
};
