/** Words common to every post's panel. */
export const times = {
  now: "just now",
  ago: (time: string) => `${time} ago`,
  since: (time: string) => `For ${time}`,
  left: (time: string) => `${time} left`,
};

export const ask = {
  weights: {
    danger: "Danger: answer now",
    alert: "Alert",
    now: "Asked of you now",
    later: "When you are ready",
  },
  sending: "Sending… not yet recorded",
  blocked: "Not heard from the server: nothing that lowers safety can be sent.",
  again: (what: string, age: string) => `${what}: reported ${age} ago, asked for again`,
  others: "Asked of others now",
  queue: "Also asked of you",
  region: "Asked of you",
  closed: "This session is closed.",
  abandoned: "This session was abandoned.",
  watching: "You hold no post: you watch. Anyone may hold, cut and report fire.",
  timeLeft: "Time left",
  left: (of: string) => `left ${of}`,
  past: (of: string) => `past ${of}`,
  dueOf: {
    toAnswer: "to answer",
    clearToStart: "to read back",
    crank: "of the clearance",
    cranking: "on the starter",
    oilFirst: "for first oil pressure",
    oilNormal: "for normal oil pressure",
    starterCooling: "until the starter is rested",
    lightning: "until work may go on",
  },
};

export const figure = {
  none: (most: number) => `No hand signal goes beyond ${most}: say the number.`,
  label: (name: string) => `Hand signal: ${name}`,
  toYou: "By hand it looks like this",
  byYou: "By hand you give this, seen from the front",
  cutsAll: "It names no engine: it means all",
};

export const entry = {
  back: "Back",
  record: "Record",
  readBack: "Read back: which engine?",
  engine: "Enter the engine",
  engineKey: (n: number) => `Engine number ${n}`,
  reason: "Give the reason",
  defect: "What is wrong?",
  ownReason: (n: number) => `Number ${n}: give your own reason`,
  ownWords: "Or in your words",
  less: (size: string) => `Less by ${size}`,
  more: (size: string) => `More by ${size}`,
  inRange: "in range",
  low: "low",
  high: "high",
  set: "Set what the gauge shows",
  scale: (from: number, to: number) => `Scale from ${from} to ${to}`,
  range: (from: number, to: number) => `${from} to ${to}`,
  last: (figure: string, ago: string) => `Last: ${figure}, ${ago}`,
  notRead: "Not read yet.",
  still: (figure: string) => `Reads ${figure} again`,
  between: (low: string, high: string) => `${low} to ${high}`,
  least: (low: string) => `at least ${low}`,
  most: (high: string) => `at most ${high}`,
  outside: (figure: string, band: string) => `${figure} is outside ${band}: send or change?`,
  ifSent: "If you send it:",
  send: (figure: string) => `Send ${figure}`,
  change: "Change it",
  /** The effects of a figure. */
  follows: {
    alert: (alert: string, posts: string) => `Alert to ${posts}: ${alert}`,
    drill: (title: string) => `The drill opens at every post: ${title}`,
    clearance: (n: number) => `The clearance of number ${n} ends`,
    lowers: "It counts as a report that something is not right",
  },
  gaugeOf: (gauge: string, n: number) => `${gauge}, number ${n}`,
  itemOf: (item: string, n: number) => `Number ${n}: ${item}`,
  powerVolts: "Ground power volts",
  brakePressure: "Brake pressure",
  gravity: (at80F: string, charge: number | null) =>
    charge === null ? `At 80 °F ${at80F}: no acid has that` : `At 80 °F ${at80F}, ${charge} % charged`,
  gravityWaits: "Read the electrolyte's temperature first: this figure is corrected by it.",
};

export const blades = {
  title: "Blades counted",
  head: "Blades turned through",
  atLeast: (n: number) => `At least ${n}. Any resistance: stop and say so.`,
  unit: "blades",
  enough: "enough",
  more: (n: number) => `${n} more`,
  free: "No resistance",
  resistance: "Resistance",
};

export const weather = {
  title: "Weather",
  wind: "Wind",
  gusts: "Gusts",
  air: "Air",
  calm: "Calm",
  noGusts: "No gusts",
  none: "none",
  lacks: {
    wind: "Set the wind",
    gusts: "Set the gusts, or none",
    gustsBelow: "Gusts are above the wind, or none",
  },
  record: (wind: number, gusts: number | null, air: number | null) =>
    `Record ${wind === 0 ? "calm" : `wind ${wind} kt`}, ${gusts === null ? "no gusts" : `gusts ${gusts}`}${air === null ? "" : `, ${air} °C`}`,
};

export const stops = {
  keys: "Hold, cut, fire",
  hold: "Hold",
  cut: "Cut",
  fire: "Fire",
  cutWhich: "Cut: which engine?",
  cutPrompt: "Touch the engine to cut. This is a message to the crew: show the hand signal too.",
  cutAll: "Cut all engines",
  fireWhich: "Fire: at which engine?",
  firePrompt: "Touch the engine. This is a message to the crew: shout and show it too.",
  noEngine: "Not at an engine",
  fireWhere: "Fire: where?",
  fireWhereAt: (n: number) => `Fire at number ${n}: where?`,
};

export const standing = {
  region: "Stops that stand",
  notRecorded: "NOT RECORDED: the server could not write it down. Act on it and pass it on by hand signals.",
  takenIn: "Taken in",
  fire: (place: string) => `Fire: ${place}`,
  fireAt: (n: number, place: string) => `Fire at number ${n}: ${place}`,
  outOnce: (name: string) => `${name} says it is out. A second person must say so too.`,
  outTwice: "Ends when two people on two devices say it is out.",
  cut: (n: number) => `Cut number ${n}`,
  cutWaits: "Waits for the cockpit to report stopped.",
  cutDone: "Reported stopped. Can be stood down.",
  hold: "Hold",
  holdTurning: (n: string) => `Hold: number ${n} turning without clearance`,
  holdSilent: (post: string) => `Hold: ${post} silent`,
  yours: "Yours to release.",
  crews: "Released by the cockpit or the supervisor.",
  owners: (name: string) => `Released by ${name} alone.`,
  orphaned: (name: string) => `${name} holds no post: also released by the supervisor, with a reason.`,
  release: "Release",
};
