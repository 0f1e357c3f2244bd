/** The figure of a hand signal beside an ask. */
export const figure = {
  none: (most: number) => `No hand signal exists above ${most}: say the number.`,
  label: (name: string) => `Hand signal: ${name}`,
  toYou: "By hand it looks like this",
  byYou: "You give this by hand, seen from the front",
  cutsAll: "It names no engine: it means all",
};
