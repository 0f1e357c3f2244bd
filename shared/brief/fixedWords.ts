/**
 * Standing sentences of the brief. They follow the session's rules (PST, CHK, HLD, CUT, FIR, TRN) or are common practice
 * without a source; nothing in them is a figure of a type.
 */
export const STOP_WORDS: readonly { say: string; means: string }[] = [
  { say: "HOLD", means: "Nobody begins anything new. What turns goes on. Whoever raised it releases it." },
  { say: "CUT NUMBER …", means: "The cockpit stops that engine and reports it stopped." },
  { say: "CUT ALL", means: "The cockpit stops every engine and reports them stopped." },
  {
    say: "FIRE NUMBER …",
    means: "Fire, with its place if it is seen. Work the fire card; the crew decides to cut.",
  },
  { say: "NUMBER … TURNING", means: "An engine turns without clearance. It is a hold, and all stand clear." },
];

export const ANYONE_STOPS =
  "Anyone says them, at any time, by voice, hand or panel. Nobody needs leave to stop a start, and nobody argues with one.";

export const BACK_UP_SIGNALS: readonly string[] = [
  "Hand signals come first when anything is in doubt; the panel is the record of what was signalled.",
  "Panel silent, interphone out or words not heard: hold, look at the cockpit, go on by hand signals alone.",
  "By day: hands or bats. By night: lit wands; a wand that fails is a hold.",
  "Whoever cannot see the other person does not signal go; out of sight is a hold.",
  "The whole system lost: take the printed card and begin that engine's start anew from its beginning.",
];

export const CHOCK_RULE: readonly string[] = [
  "Chocks fore and aft of the main wheels before the power-up checks; brakes set with pressure besides, never instead.",
  "Chocks come out on the cockpit's leave alone, and only with brakes set, under pressure and freshly read.",
  "Go to the wheels by the way the supervisor points, never between a turning propeller and the wheel.",
  "Pull them, carry them away and show them to the cockpit. One was forgotten: hold; the engine by it is stopped before anybody goes for it.",
];
export const CHOCK_RULE_INBOARD =
  "On this type both inboard engines stand still before anybody goes to the chocks.";

export const HAND_OVER_RULE: readonly string[] = [
  "A post is offered by its holder and accepted by the person named; until accepted, the holder keeps it.",
  "Say before you go: which engine is next, what turns, what stands on hold, where the guard and the cart are.",
  "Every change of post ends clearances and leave. A new fire guard reports in place and the arc anew.",
  "The new holder confirms this brief before acting.",
];

export const FIRE_RULE: readonly string[] = [
  "The guard stands by with the checked extinguisher from before the crank until the engine is stable.",
  "The guard comes to an engine from outboard or ahead, never from behind a propeller and never past one that turns.",
  "Fire does not cut by itself. The cockpit works its card; the guard fights only while the way out stays open.",
  "Two people on two devices say that a fire is out.",
];

export const ESCAPE_RULE: readonly string[] = [
  "No way out leads through the arc of an engine that turns, or behind it. Give a propeller that stands still its room too.",
  "Look before you move; walk, do not run, near a propeller.",
];

export const SPECTATOR_RULE: readonly string[] = [
  "Whoever sees somebody come nearer who is not of this crew raises hold at once.",
  "The start goes on only when the supervisor saw them outside and said so. The guard does not leave an engine for them.",
];
