const WAY_TO_WHEELS =
  "Go to the wheels by the way the supervisor points, never between a turning propeller and the wheel.";

/**
 * The brief's sentences. The fixed ones follow the session's rules (PST, CHK, HLD, CUT, FIR, TRN) or common practice
 * without a source; none of them contains a figure of a type.
 */
export const brief = {
  stops: [
    {
      say: "HOLD",
      means: "Nobody begins anything new. Engines that turn go on. The person who raised it releases it.",
    },
    { say: "CUT NUMBER …", means: "The cockpit stops that engine and reports it stopped." },
    { say: "CUT ALL", means: "The cockpit stops every engine and reports them stopped." },
    {
      say: "FIRE NUMBER …",
      means: "Fire, with its place if it is seen. Follow the fire card; the crew decides to cut.",
    },
    {
      say: "NUMBER … TURNING",
      means: "An engine turns without clearance. It is a hold, and all stand clear.",
    },
  ],
  anyoneStops:
    "Anyone says them, at any time, by voice, hand or panel. Nobody needs permission to stop a start, and nobody argues.",
  backUp: [
    "Hand signals come first when anything is in doubt; the panel is the record of what was signalled.",
    "Panel silent, interphone out or words not heard: hold, look at the cockpit, go on by hand signals alone.",
    "By day: hands or bats. By night: lit wands; a wand that fails is a hold.",
    "If you cannot see the other person, do not signal go. Out of sight is a hold.",
    "The whole system is lost: take the printed card and begin that engine's start again from its beginning.",
  ],
  chocks: [
    "Chocks fore and aft of the main wheels before the power-up checks. Set the brakes with pressure too, never instead of chocks.",
    "Chocks come out only with the cockpit's permission, and only with brakes set and their pressure just read.",
    WAY_TO_WHEELS,
    "Pull them, carry them away and show them to the cockpit. If one was forgotten: hold. Stop the engine beside it before anybody goes for it.",
  ],
  chocksReturn: [
    "The aircraft stands on its place, with its brakes set and their pressure read. Then chocks go in, only with the cockpit's permission.",
    WAY_TO_WHEELS,
    "Chock the main wheels fore and aft, and show it to the cockpit. The brakes stay set until then.",
  ],
  wayToWheels: WAY_TO_WHEELS,
  chocksInboard: "On this type both inboard engines stand still before anybody goes to the chocks.",
  handOver: [
    "A post is offered by its holder and accepted by the person named; until accepted, the holder keeps it.",
    "Say before you go: which engine is next, what turns, what is on hold, where the guard and the cart are.",
    "Every change of post ends clearances and permissions. A new fire guard reports in place and the arc again.",
    "The new holder confirms this brief before acting.",
  ],
  /** The guard stands by: the first sentence of the fire plan. */
  standsBy: {
    start:
      "The guard stands by with the checked extinguisher from before the crank until the engine is stable.",
    return:
      "The guard stands by with the checked extinguisher from the arrival until the last propeller was seen still.",
  },
  fire: [
    "The guard comes to an engine from outboard or ahead, never from behind a propeller and never past one that turns.",
    "Fire does not cut by itself. The cockpit works its card; the guard fights only while the way out stays open.",
    "Two people on two devices say that a fire is out.",
  ],
  escape: [
    "No way out leads through the arc of an engine that turns, or behind it. Give a propeller that stands still its room too.",
    "Look before you move; walk, do not run, near a propeller.",
  ],
  spectators: [
    "If somebody who is not of this crew comes nearer, raise hold at once.",
    "The start goes on only when the supervisor saw them outside and said so. The guard does not leave an engine for them.",
  ],
  stopTimes: (within: number, told: number) =>
    `An answer to a stop is due within ${within} s; without one the supervisor is told after ${told} s.`,
  centreLine: "centre line",
  brings: (list: string) => `first to bring ${list}`,
  adds: (list: string) => `adds ${list}`,
  drivesNothing: "drives nothing the others wait for",
  asUsual: "as usual on this type",
  notUsual: "not in the usual order",
  usualStart: (nth: number) => `usually start ${nth}`,
  takes: (list: string) => `${list} stops with it`,
  takesNothing: "nothing that others drive stops with it",
  besideWheels: "turns beside the wheels: nobody goes to them before it stands still",
  usualStop: (nth: number) => `usually stop ${nth}`,
  idle: (time: string) => `Every engine idles for ${time} before it is stopped.`,
  idleFigure: (gauge: string, most: string) => `${gauge}, read at idle: ${most} at most.`,
  later: "The later of these governs. An engine can always be stopped at once; the cockpit then writes why.",
  stillBy: {
    guard: "The fire guard alone reports each propeller still, after looking at it.",
    another: "Another person than the one who stopped the engine reports its propeller still.",
  },
  dilution: (from: string) =>
    `The cockpit is asked for the least temperature of the night, and where it is from. Below ${from} the oil is diluted before an engine is stopped.`,
  dilutionStep: (downTo: string, percent: string, time: string) =>
    `Night down to ${downTo}: ${percent} of fuel in the oil, ${time} for each engine.`,
  dilutionLeast: (least: string) => `Oil pressure below ${least}: stop diluting.`,
  handsLast: "No hands at a propeller before each was seen still and the switches were proved off.",
  batteries: "The aircraft's own batteries. No cart is connected.",
  steady: (from: number, to: string) =>
    `Ground power, steady between ${from} and ${to}. Outside: say so, and hold.`,
  plug: "Output off before the plug goes in or out. Connect and disconnect only with the cockpit's permission.",
  approach: {
    port: "From the port wing tip or from ahead.",
    centre: "From ahead, to port of the propeller.",
    starboard: "From the starboard wing tip or from ahead.",
  },
  engine: (n: number) => `number ${n}`,
  engines: (but: string, last: number) => `numbers ${but} and ${last}`,
  way: (n: number, stands: string, turns: string) => `Number ${n} (${stands}), ${turns}`,
  nothingTurns: "nothing turns yet",
  turns: (engine: string) => `${engine} turns`,
  turn: (engines: string) => `${engines} turn`,
  outboard: (way: string, to: string) => `${way}: straight out to ${to}, ahead of the wing and past its tip.`,
  ahead: (way: string, to: string, through: string) =>
    `${way}: stand and leave straight ahead of the propellers. The way out to ${to} is closed: it leads through the arc of ${through}.`,
  receptacleAhead:
    "Ground power, at the receptacle: straight ahead past the nose. The receptacle lies ahead of every propeller; never go aft between them.",
  receptacleAft:
    "Ground power, at the receptacle: aft along the fuselage and past the tail. Propellers lie ahead of the receptacle; never go forward or sideways in front of one.",
  stopper: (name: string) => `${name}, as supervisor, turns spectators back.`,
  noStopper: "The supervisor turns spectators back; nobody is named for that post yet.",
  defect: (words: string) => words,
  defectAt: (n: number, words: string) => `Number ${n}: ${words}`,
  bars: (defect: string) => `${defect} (blocks the start)`,
  deferred: (defect: string, left: string, name: string) =>
    `${defect} (deferred ${left}, by ${name}; then it blocks the start)`,
  mended: (defect: string, name: string) =>
    `${defect} (mended by ${name}; another person has not inspected it yet)`,
  mendedBars: (defect: string, name: string) =>
    `${defect} (mended by ${name}; it blocks the start until another person inspects it)`,
  kinds: { fuelling: "fuelling", building: "building", aircraft: "other aircraft", public: "public" },
  nearIs: (name: string, kind: string, bearing: number, distance: string, across: string) =>
    `${name} (${kind}): bearing ${bearing}°, ${distance} from the nose, ${across} across`,
  tooNear: (words: string) => `TOO NEAR. ${words}.`,
  anyone: "Anyone",
  everybody: "everybody",
  /** Outcome of an attempt to start an engine. */
  ends: { waiting: "Not cranked", cooling: "Given up", shutDown: "Shut down" },
  firstOut: "First to say it is out",
  groundPower: "Ground power",
  gaugeOf: (gauge: string, n: number) => `${gauge}, number ${n}`,
  above: (gauge: string, n: number, found: string, most: string, seconds: number) =>
    `ABOVE ITS MOST, number ${n}: ${gauge} up to ${found}, most ${most}, for at least ${seconds} s`,
  /** Added where no reading at or below followed. */
  stillAbove: ", not read lower since",
  atMost: (most: string) => `at most ${most}`,
  atLeast: (least: string) => `at least ${least}`,
  trace: (samples: number) => `Ground power over time, ${samples} samples`,
  envelope: "the type's envelope",
  noVerdict: "no verdict",
  range: (from: number, to: string) => `${from} to ${to}`,
};

export type BriefWords = typeof brief;
