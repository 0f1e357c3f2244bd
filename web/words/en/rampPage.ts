/** The ramp page: one row for each aircraft, and what this device keeps. */
export const rampPage = {
  rehearse: "Rehearse",
  device: "This device",
  light: "Light",
  mine: (post: string) => `You: ${post}`,
  elsewhere: (post: string) => `You: ${post}, on another device`,
  offered: (post: string) => `Offered to you: ${post}`,
  take: "Take it",
  waitsFor: (post: string, what: string) => `${post}: ${what}`,
  starts: "How starts went",
  search: "Search",
  history: (aircraft: string) => `History of ${aircraft}`,
};
