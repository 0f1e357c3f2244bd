/** Headings and keys around calculated figures. */
export const worked = {
  stage: "Now: calculated",
  engine: (n: number) => `Number ${n}: calculated`,
  aircraft: "Aircraft, air, order: calculated",
  noise: "Noise: calculated",
  fewer: "Fewer figures",
  advice: "Advised order: calculated",
  /** Beside an engine's number: the rest its starter still needs before the next crank. */
  rests: (left: string) => `rest ${left}`,
};
