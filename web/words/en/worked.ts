/** Headings and keys around calculated figures. */
export const worked = {
  stage: "Calculated now",
  engine: (n: number) => `Calculated for number ${n}`,
  aircraft: "Calculated for the aircraft, the air and the order",
  noise: "Calculated noise",
  fewer: "Fewer figures",
  advice: "Advised order, calculated",
  /** Beside an engine's number: the rest its starter still needs before the next crank. */
  rests: (left: string) => `rest ${left}`,
};
