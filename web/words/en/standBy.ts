/** Words of the screens of a post of which nothing is asked, read from 3 m. */
export const standBy = {
  region: (n: number) => `Standing by at number ${n}`,
  stay: (n: number) => `Stay at number ${n}.`,
  /** In a return, at an engine that is stopped next or was just stopped. */
  watch: (n: number) => `Stay at number ${n} until you see its propeller still.`,
  leave: (n: number) => `You may leave number ${n}.`,
  out: "Way out",
  /** The way out past the wing tip of the engine's own side. */
  outboard: {
    port: "Past the port wing tip, ahead of the wing",
    starboard: "Past the starboard wing tip, ahead of the wing",
  },
  ahead: (closed: string) => `Straight ahead. Number ${closed} closes the way to the wing tip`,
  next: "Next",
  goTo: (n: number) => `Go to number ${n} when it is asked for.`,
  goAround: (n: number, around: number) => `Then number ${n}: walk around number ${around}, it turns.`,
  noNext: "No more engines of the order wait for a start.",
  watchNext: (n: number) => `Then look at the propeller of number ${n}.`,
  allStill: "Every propeller was seen still.",
  for: (time: string) => `for ${time}`,
  toWheels: "To the chocks",
  toCart: "To the cart",
  arcClear: "Arc clear",
  arcNotClear: "Arc not clear",
  leaving: (n: number) => `Leaving number ${n}`,
};

export type StandByWords = typeof standBy;
