/** The aircraft and its posts, shown around the current ask. */
export const plan = {
  region: "The aircraft",
  port: "PORT",
  starboard: "STARBOARD",
  guard: "Guard",
  engine: (n: number, state: string) => `Engine ${n}: ${state}`,
  nose: "Drawn as you face the nose",
  cockpit: "Drawn as you sit, facing forward",
  tail: "Drawn as you face the tail, from behind",
  forward: "Drawn facing forward",
  turnToTail: "I stand behind the tail",
  turnToNose: "I stand before the nose",
  oil: (time: string) => `oil ${time}`,
  unseen: "not seen still",
};

export const title = {
  rehearsal: "REHEARSAL",
  partner: "simulated",
  aircraft: "Aircraft",
  stage: (step: string) => `Stage ${step}`,
  step: (step: number, of: number) => `${step} of ${of}`,
  posts: "Posts and session",
  vacant: "vacant",
  clock: "Server, UTC",
};

export const options = {
  head: (n: number, place: string, state: string) => `Number ${n}, ${place}: ${state}`,
  close: "Close",
  report: "Report",
  seen: "You saw it given by hand",
  gauge: "Read a gauge",
  drill: "Open a drill",
  danger: "Danger",
  own: { revokeClearance: "Take the clearance back", guardAway: "I am leaving this engine" },
  early: (report: string) => `${report}, before its turn`,
};

export const checks = {
  title: "Checks of this stage",
  done: (done: number, of: number) => `Checks of this stage: ${done} of ${of} good`,
  open: "not done",
  good: "good",
  bad: "not good",
};

export const ground = {
  title: "You can also send",
  volts: "Volts again",
  chocks: "Ask: chocks out?",
  connect: "Ask to connect",
  disconnect: "Ask to disconnect",
};

export const posts = {
  offered: "A post is offered to you",
  take: "Take a post",
};
