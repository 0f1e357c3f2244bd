import type { Root } from "./roots.ts";

/** A rule of the core broken on purpose, and the invariant that the search must then find broken. */
export interface Mutant {
  name: string;
  file: string;
  find: string;
  replace: string;
  expect: string;
  /** The scope in which the search finds it soon. */
  scope: string;
  roots: readonly Root[];
}

type Row = Omit<Mutant, "file" | "scope" | "roots">;

const at = (file: string, scope: string, root: Root, ...rows: Row[]): Mutant[] =>
  rows.map((row) => ({ ...row, file: `shared/${file}`, scope, roots: [root] }));

export const MUTANTS: readonly Mutant[] = [
  ...at("engine/cranking.ts", "clearance", "prepared", {
    name: "a clearance cranks unread",
    find: "if (clearance.readBackAt === null) return null;",
    replace: "",
    expect: "S2",
  }),
  ...at("engine/clearToStart.ts", "clearance", "prepared", {
    name: "any engine's number reads a clearance back",
    find: "if (action.engine === engine) return accept",
    replace: "if (action.engine > 0) return accept",
    expect: "I7",
  }),
  ...at("signals/answer.ts", "services", "warmUp", {
    name: "a signal that is closed is answered all the same",
    find: "const signal = state.signals.find((s) => s.id === action.signal);",
    replace: "const signal = [...state.signals, ...state.ended].find((s) => s.id === action.signal);",
    expect: "I11",
  }),
  ...at("session/consequences.ts", "clearance", "cleared", {
    name: "time ends no clearance",
    find: 'if (now >= clearance.expiresAt) return dead("expired");',
    replace: "",
    expect: "I4",
  }),
  ...at("session/consequences.ts", "clearance", "prepared", {
    name: "a reminder is a millisecond late",
    find: "s.dueAt !== null && now >= s.dueAt",
    replace: "s.dueAt !== null && now > s.dueAt",
    expect: "I19",
  }),
  ...at("session/step.ts", "overrides", "prepared", {
    name: "an act is decided on what stood before time was looked at",
    find: "caughtUp(also.state, now) ? { state: also.state, events: [] } : tick(also.state, now);",
    replace: "clockNoticed(also.state, now);",
    expect: "S9",
  }),
  ...at("session/step.ts", "clearance", "cleared", {
    name: "a clock set back is not noticed",
    find: "if (now >= state.at - CLOCK_SLACK_MS || isOver(state))",
    replace: "if (now >= 0)",
    expect: "S2",
  }),
  ...at("session/step.ts", "clearance", "cleared", {
    name: "a clock set back passes for one that stands still",
    find: "return now <= state.at && now >= state.at - CLOCK_SLACK_MS;",
    replace: "return now <= state.at;",
    expect: "S2",
  }),
  ...at("conditions/guard.ts", "clearance", "cleared", {
    name: "an arc reported not clear counts as clear",
    find: "return said.clear ? fromReport(said, freshSeconds(state, arcClear), now) : reportedNo(said);",
    replace: "return fromReport(said, freshSeconds(state, arcClear), now);",
    expect: "I3",
  }),
  ...at("conditions/finding.ts", "clearance", "cleared", {
    name: "a report is fresh for a millisecond too long",
    find: "until !== null && now >= until",
    replace: "until !== null && now > until",
    expect: "I3",
  }),
  ...at("conditions/wheels.ts", "clearance", "cleared", {
    name: "brakes hold at any pressure",
    find: "if (pressure.value < least.value)",
    replace: "if (pressure.value < 0)",
    expect: "I3",
  }),
  ...at("conditions/card.ts", "card", "prepared", {
    name: "a clearance stands on an item that nobody has answered",
    find: "if (open > 0) return",
    replace: "if (open > answers.length) return",
    expect: "S26",
  }),
  ...at("conditions/card.ts", "card", "cleared", {
    name: "a clearance stands on an item found not good",
    find: "if (bad) return reportedNo(bad.by);",
    replace: "",
    expect: "S26",
  }),
  ...at("card/evolve.ts", "card", "cranking", {
    name: "what was prepared for a start stays answered after it",
    find: 'if (ends) card = without(after, card, engine.n, ["beforeEngine"]);',
    replace: "",
    expect: "S27",
  }),
  ...at("card/due.ts", "card", "cleared", {
    name: "an item is asked while the starter is held",
    find: " || starterHeld(state)",
    replace: "",
    expect: "S28",
  }),
  ...at("card/due.ts", "card", "cranking", {
    name: "an item is asked while a stop stands",
    find: " || stopOpen(state)",
    replace: "",
    expect: "S28",
  }),
  ...at("conditions/engines.ts", "running", "cranking", {
    name: "a clearance is given while another engine cranks",
    find: '(is === "cranking" || is === "clear")',
    replace: 'is === "clear"',
    expect: "I1",
  }),
  ...at("conditions/engines.ts", "running", "cranking", {
    name: "a clearance is given while another engine has only caught",
    find: 'e.life.is === "caught" || ',
    replace: "",
    expect: "I1",
  }),
  ...at("conditions/propellers.ts", "propeller", "prepared", {
    name: "a clearance is given with hands on a propeller",
    find: "if (hands) return",
    replace: "if (hands && state.seq === 0) return",
    expect: "S8",
  }),
  ...at("engine/clearance.ts", "clearance", "prepared", {
    name: "fences do not rise",
    find: "const fence = e.fence + 1;",
    replace: "const fence = e.fence;",
    expect: "I6",
  }),
  ...at("session/epoch.ts", "posts", "cleared", {
    name: "no epoch ever ends",
    find: "epoch: state.epoch + 1,",
    replace: "",
    expect: "I6",
  }),
  ...at("session/evolve.ts", "clearance", "cleared", {
    name: "a restart opens no new epoch",
    find: "return newEpoch(state);",
    replace: "return state;",
    expect: "I6",
  }),
  ...at("session/consequences.ts", "clearance", "cleared", {
    name: "a clearance outlives a restart",
    find: 'if (clearance.epoch !== state.epoch) return dead("epoch");',
    replace: "",
    expect: "I24",
  }),
  ...at("engine/clearToStart.ts", "clearance", "prepared", {
    name: "the cockpit clears itself",
    find: 'from: ["supervisor"],',
    replace: 'from: ["supervisor", "cockpit"],',
    expect: "I5",
  }),
  ...at("stops/hold.ts", "stops", "cranking", {
    name: "anybody releases a hold",
    find: "if (hold.person !== context.person.id && !heir && !supervisor) {",
    replace: "if (hold.person === null) {",
    expect: "S3",
  }),
  ...at("stops/cut.ts", "stops", "cranking", {
    name: "a cut is reset before it was carried out",
    find: "if (cut.doneAt === null)",
    replace: "if (cut.id === 0)",
    expect: "S4",
  }),
  ...at("stops/fire.ts", "stops", "cranking", {
    name: "one person's word ends a fire",
    find: "if (first && !isAnother(context.person, first)) {",
    replace: 'if (first && first.person === "") {',
    expect: "I23",
  }),
  ...at("stops/slip.ts", "stops", "cranking", {
    name: "anybody takes a slip back",
    find: "if (slip.person !== person.id || slip.device !== person.device) {",
    replace: 'if (slip.person === "") {',
    expect: "S16",
  }),
  ...at("stops/fireWords.ts", "stops", "cranking", {
    name: "an engine named for a fire does not burn",
    find: "setAlight(state, engine, id, word.by.at)",
    replace: "state",
    expect: "S17",
  }),
  ...at("session/decide.ts", "clearance", "prepared", {
    name: "a stop that arrives late is refused",
    find: 'if (judgedAs(state, action) === "raises") {',
    replace: 'if (judgedAs(state, action) === "raises" || (late && judgedAs(state, action) === "stop")) {',
    expect: "I9",
  }),
  ...at("stops/fire.ts", "stops", "cranking", {
    name: "fire cuts by itself",
    find: "return { ...struck, fires: [...struck.fires, begun] };",
    replace:
      'return { ...struck, fires: [...struck.fires, begun], cuts: [...struck.cuts, { id, by, person: "", engine: null, doneAt: null }] };',
    expect: "I10",
  }),
  ...at("stops/held.ts", "stops", "cranking", {
    name: "a second hold takes the first's place",
    find: "holds: [...state.holds, {",
    replace: "holds: [{",
    expect: "I9",
  }),
  ...at("posts/decide.ts", "posts", "cleared", {
    name: "a held post is taken without being offered",
    find: 'if (holder) return refuse("postHeld", { found: holder.name });',
    replace: "",
    expect: "I17",
  }),
  ...at("leaves/service.ts", "services", "warmUp", {
    name: "leave given before a stop still serves after it",
    find: "return authority && authority.epoch === state.epoch ? authority : null;",
    replace: "return authority;",
    expect: "I15",
  }),
  ...at("conditions/wheels.ts", "services", "warmUp", {
    name: "chocks come out on brakes that are not set",
    find: 'scope: { clearance: "ifListed", removeChocks: "always" },',
    replace: 'scope: { clearance: "ifListed" },',
    expect: "S6",
  }),
  ...at("session/decide.ts", "clearance", "prepared", {
    name: "a report that lowers confidence is refused for its age",
    find: 'if (judgedAs(state, action) === "raises") {',
    replace: 'if (judgedAs(state, action) !== "stop") {',
    expect: "S21",
  }),
  ...at("leaves/service.ts", "services", "warmUp", {
    name: "what is found done without leave is refused",
    find: "const leave = leaveOf(state, kind);",
    replace: 'const leave = leaveOf(state, kind); if (!leave) return refuse("noAuthority");',
    expect: "S20",
  }),
  ...at("engine/cranking.ts", "clearance", "cleared", {
    name: "a crank reported late is refused, and the engine stays cleared",
    find: "context.late === true) return seenTurning(state, send);",
    replace: 'context.late === true) return refuse("tooLate");',
    expect: "S21",
  }),
  ...at("guard/arcs.ts", "clearance", "prepared", {
    name: "a guard who moves makes every arc unknown that was not clear",
    find: ".filter(([, seen]) => !seen.clear)",
    replace: ".filter(() => false)",
    expect: "S22",
  }),
  ...at("conditions/engines.ts", "running", "firstStable", {
    name: "a clearance is given beside an engine that lost its oil pressure",
    find: " || oilLost(state, e)),",
    replace: "),",
    expect: "S23",
  }),
  ...at("engine/running.ts", "running", "cranking", {
    name: "an engine is called stable with its oil pressure gone",
    find: 'if (!gone) return accept({ ...send, type: "sent" });',
    replace: 'return accept({ ...send, type: "sent" });',
    expect: "S23",
  }),
  ...at("wheels/mayRoll.ts", "services", "warmUp", {
    name: "nobody is told that nothing holds the aircraft",
    find: "return !hold && engines.some",
    replace: "return !hold && allClearAt !== null && engines.some",
    expect: "S25",
  }),
  ...at("overrides/decide.ts", "overrides", "prepared", {
    name: "one person sets a condition aside alone",
    find: "if (!isAnother(context.person, open.first)) {",
    replace: 'if (open.first.person === "") {',
    expect: "S9",
  }),
  ...at("session/step.ts", "clearance", "prepared", {
    name: "a refusal changes nothing and leaves no trace",
    find: "if (verdict.refusal && kept) facts.push",
    replace: "if (verdict.refusal && !kept) facts.push",
    expect: "I18",
  }),
  ...at("conditions/barring.ts", "leaves", "prepared", {
    name: "a clearance is given while people work at the aircraft on leave",
    find: "return out ?",
    replace: "return out && state.seq === 0 ?",
    expect: "S10",
  }),
  ...at("session/epoch.ts", "leaves", "prepared", {
    name: "a stop counts as everybody clear of the aircraft",
    find: "allClearAt: null }",
    replace: "allClearAt: null, leavesOut: [] }",
    expect: "S11",
  }),
  ...at("drills/bars.ts", "leaves", "prepared", {
    name: "a clearance is given while a drill bars the engine",
    find: 'if (bars !== "nothing" && here)',
    replace: 'if (bars === "all" && here)',
    expect: "S10",
  }),
  ...at("overrides/seen.ts", "overrides", "cleared", {
    name: "what was set aside covers a newer and worse report",
    find: "if (present.is !== seen.is && !aged) return false;",
    replace: "return true;",
    expect: "S12",
  }),
  ...at("engine/fireCrank.ts", "stops", "cranking", {
    name: "a burning engine is cranked beside one that cranks",
    find: 'plain(e.life).is === "cranking");',
    replace: 'plain(e.life).is === "waiting" && e.n === 0);',
    expect: "S13",
  }),
  ...at("propeller/still.ts", "stopping", "stopping", {
    name: "who stopped an engine also sees its propeller still",
    find: "if (!isAnother(person, stopped)) return",
    replace: 'if (person.id === "") return',
    expect: "S31",
  }),
  ...at("propeller/still.ts", "stopping", "stopping", {
    name: "the word about one propeller counts for another",
    find: "const seen = withEngine(state, engine ?? 0,",
    replace: "const seen = withEngine(state, 1,",
    expect: "S31",
  }),
  ...at("engine/evolve.ts", "stopping", "stopping", {
    name: "a stopped engine counts as seen still",
    find: 'if (!isTurning(engine.life) || actor.kind !== "person") return engine;',
    replace: 'if (actor.kind !== "system") return engine;',
    expect: "S30",
  }),
  ...at("conditions/stopped.ts", "propeller", "cranking", {
    name: "hands go to a propeller that nobody saw still",
    find: "n === engine || state.returning !== undefined",
    replace: "n === engine && state.returning !== undefined",
    expect: "S32",
  }),
  ...at("stopping/switches.ts", "stopping", "lastStopped", {
    name: "the switches stay proved off while an engine turns again",
    find: "if (!state.returning?.switchesOff) return state;",
    replace: 'if (state.stage !== "plan") return state;',
    expect: "S33",
  }),
  ...at("stopping/coolDown.ts", "stopping", "stopping", {
    name: "an engine stopped a moment early passes for cooled",
    find: "idled >= rule.atIdle.value",
    replace: "idled >= rule.atIdle.value - 0.001",
    expect: "S35",
  }),
  ...at("stopping/requirements.ts", "stopping", "lastStopped", {
    name: "the stowing begins before the last propeller is seen still",
    find: '...of("still", notSeenStill(state)),',
    replace: "",
    expect: "S36",
  }),
  ...at("runUp/signals.ts", "idle", "firstStable", {
    name: "an engine is set faster while a stop stands",
    find: 'if (stopOpen(state)) return refuse("stopOpen");',
    replace: "",
    expect: "S37",
  }),
  ...at("runUp/idleSteps.ts", "idle", "firstStable", {
    name: "an engine is set faster without its oil pressure",
    find: " || oilLost(state, engine)",
    replace: "",
    expect: "S38",
  }),
  ...at("runUp/asks.ts", "idle", "firstStable", {
    name: "a faster idle is asked for while a stop stands",
    find: "starterHeld(state) || stopOpen(state)) return [];",
    replace: "starterHeld(state)) return [];",
    expect: "S38",
  }),
  ...at("engine/evolve.ts", "idle", "firstStable", {
    name: "an engine that stopped keeps its faster idle",
    find: ", idleStep: _idled,",
    replace: ",",
    expect: "S39",
  }),
  ...at("engine/clearToStart.ts", "standing", "prepared", {
    name: "a supervisor of several clears from another aircraft",
    find: "if (state.supervisesAlso && send.standsAt !== state.aircraft)",
    replace: "if (state.supervisesAlso && send.standsAt === undefined)",
    expect: "S40",
  }),
  ...at("readings/decide.ts", "night", "stopping", {
    name: "a forecast of nobody is taken",
    find: "if (isForecast(state.type, check.id) && action.note === undefined)",
    replace: 'if (state.stage === "plan")',
    expect: "S41",
  }),
];
