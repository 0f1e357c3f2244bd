/** The table of the engines on the cockpit's panel. */
export const engineTable = {
  region: "Engines",
  title: "Engines in order, times against their limits",
  table: "Engines, table",
  number: "No.",
  starter: "Starter",
  firstOil: (within: number) => `First oil, ${within} s`,
  oilNormal: (within: number) => `Oil normal, ${within} s`,
  next: "Next crank",
  inTime: "in time",
  of: (time: string, limit: number) => `${time} of ${limit} s`,
  max: (limit: number) => `max ${limit} s`,
  in: (time: string) => `in ${time}`,
  now: "now",
};
