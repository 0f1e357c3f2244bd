import { type AnyEvent, sealedLines } from "./sealed.ts";
import { type Records, threeSessions, twoAtOnce } from "./stories.ts";
import {
  actorOf,
  changed,
  erased,
  forged,
  inSession,
  ofType,
  place,
  sent,
  shifted,
  untold,
} from "./tamper.ts";

export const three = threeSessions();
export const two = twoAtOnce();
export const filesOf = ({ sessions, record }: Records) => [...sessions, record].map(sealedLines);

/** An event of a kind is gone, its number taken by another that says nothing. */
const gone = (session: number, match: Parameters<typeof place>[1], nth = 0, records = three) =>
  inSession(records, session, (events) => erased(events, place(events, match, nth)));

/** The event's fact has other members. */
const altered = (
  session: number,
  match: Parameters<typeof place>[1],
  members: object,
  nth = 0,
  records = three,
) =>
  inSession(records, session, (events) => {
    const i = place(events, match, nth);
    return forged(events, i, { fact: changed(events[i], members) });
  });

/** Another person did it. */
const byOther = (
  session: number,
  match: Parameters<typeof place>[1],
  post: Parameters<typeof actorOf>[0],
  nth = 0,
) =>
  inSession(three, session, (events) => forged(events, place(events, match, nth), { actor: actorOf(post) }));

const inRecord = (change: (events: AnyEvent[]) => AnyEvent[]): Records => ({
  ...three,
  record: change(three.record),
});

/** Contributions of a session without what matches. */
const contributedWithout = (member: "items" | "ended") =>
  inRecord((events) =>
    events.map((event) => {
      const fact = event.fact as unknown as { type: string; contribution: object };
      if (fact.type !== "contributed") return event;
      return {
        ...event,
        fact: { ...fact, contribution: { ...fact.contribution, [member]: [] } },
      } as unknown as AnyEvent;
    }),
  );

/** The supervisor's touch is replaced by something that may not happen there. */
const written = (session: number, fact: { type: string }, post: Parameters<typeof actorOf>[0], nth = 0) =>
  inSession(three, session, (events) =>
    forged(events, place(events, ofType("present"), nth), {
      fact: fact as { type: string; [member: string]: unknown },
      actor: actorOf(post),
    }),
  );

/** A message that was accepted is recorded as refused. */
const refusedAs = (match: Parameters<typeof place>[1]) =>
  inSession(three, 0, (all) => {
    const i = place(all, match);
    const action = { ...changed(all[i], {}), type: "send" };
    return forged(all, i, { fact: { type: "refused", action, refusal: { reason: "wrongPost" } } });
  });

const clearAgain = { type: "sent", kind: "clearToStart", engine: 3, channel: "panel", expiresAt: 0 };
const crankAgain = { type: "sent", kind: "cranking", engine: 3, channel: "panel", ref: 9 };

/** The act of a forger, and the rule by which the judge must find it. The forger also corrects the hash chain. */
export const FORGERIES: readonly [did: string, rule: string, records: () => Records][] = [
  ["leaves out an event", "EVT-1", () => inSession(three, 0, (all) => all.filter((_, i) => i !== 20))],
  [
    "doubles an event",
    "EVT-1",
    () => inSession(three, 0, (all) => all.flatMap((e, i) => (i === 20 ? [e, e] : [e]))),
  ],
  ["sets an event's time back", "EVT-7", () => inSession(three, 0, (all) => shifted(all, 20, -60_000))],
  [
    "adds an event after the end",
    "STG-14",
    () => inSession(three, 0, (all) => [...all, { ...all[3], seq: all.length + 1 } as AnyEvent]),
  ],
  ["clears an engine under a hold", "CON-3", () => written(0, clearAgain, "supervisor")],
  ["clears an engine that nobody requested", "CLR-1", () => written(2, clearAgain, "supervisor")],
  [
    "clears an engine while another cranks",
    "CON-9",
    () => written(2, { ...clearAgain, engine: 1 } as never, "supervisor"),
  ],
  ["cranks without a clearance", "CLR-12", () => written(2, crankAgain, "cockpit")],
  ["takes away the guard's place", "CON-4", () => gone(2, sent("guardInPlace", 3))],
  ["takes away the arc's report", "CON-5", () => gone(2, sent("arcClear", 3))],
  [
    "puts the arc's report before the guard's arrival",
    "CON-15",
    () =>
      inSession(three, 2, (all) => {
        const [guard, arc] = [place(all, sent("guardInPlace", 3)), place(all, sent("arcClear", 3))];
        return forged(forged(all, guard, { fact: changed(all[arc], {}) }), arc, {
          fact: changed(all[guard], {}),
        });
      }),
  ],
  [
    "lets the guard's report grow old",
    "CON-4",
    () => inSession(three, 2, (all) => shifted(all, place(all, sent("clearToStart")), 91_000)),
  ],
  ["takes away the chocks", "CON-7", () => gone(2, sent("chocksIn"))],
  ["takes away the brakes", "CON-6", () => gone(2, sent("brakesSet"))],
  ["takes away a post's brief", "CON-12", () => gone(2, ofType("briefed"), 1)],
  [
    "takes away the read-back",
    "RBK-1",
    () => gone(2, (f) => f.type === "answered" && f.answer === "readBack"),
  ],
  [
    "calls a wrong read-back right",
    "RBK-2",
    () => altered(2, (f) => f.type === "answered" && f.answer === "readBack", { engine: 4 }),
  ],
  ["cranks on another clearance", "CLR-12", () => altered(2, sent("cranking"), { ref: 7 })],
  [
    "cranks when the clearance has expired",
    "CLR-13",
    () => inSession(three, 2, (all) => shifted(all, place(all, sent("cranking")), 30_000)),
  ],
  ["takes away the end of a clearance", "CLR-7", () => gone(0, ofType("clearanceVoid"))],
  [
    "clears without a word of where the supervisor of several stands",
    "PST-13",
    () =>
      inSession(three, 2, (all) =>
        forged(all, place(all, sent("clearToStart")) - 1, {
          fact: { type: "supervisesAlso", aircraft: ["CH-OTH"] },
        }),
      ),
  ],
  ["gives the clearance by the guard", "CLR-1", () => byOther(2, sent("clearToStart"), "fireGuard")],
  [
    "gives the clearance by a device that holds no post",
    "PST-11",
    () =>
      inSession(three, 2, (all) =>
        forged(all, place(all, sent("clearToStart")), {
          actor: { ...actorOf("supervisor"), device: "another" },
        }),
      ),
  ],
  [
    "lets a starter off its rest",
    "CON-11",
    () => inSession(three, 0, (all) => shifted(all, place(all, sent("readyToStart", 3)), -58_000)),
  ],
  ["releases a hold by another person", "HLD-3", () => byOther(0, sent("release"), "groundPower")],
  ["says where a fire burns that is no fire", "FIR-11", () => altered(0, sent("fireAt"), { ref: 9 })],
  [
    "leaves out of the record where a fire burns",
    "FIR-15",
    () =>
      inRecord((all) =>
        all.map((event) => {
          const fact = JSON.parse(JSON.stringify(event.fact)) as {
            contribution?: { items: { said?: unknown }[] };
          };
          for (const item of fact.contribution?.items ?? []) item.said = undefined;
          return { ...event, fact: JSON.parse(JSON.stringify(fact)) } as AnyEvent;
        }),
      ),
  ],
  ["refuses a word of where a fire burns", "FIR-11", () => refusedAs(sent("fireAt"))],
  ["takes back the slip of another person", "STP-1", () => byOther(0, sent("disregard"), "supervisor")],
  [
    "takes a slip back too late",
    "STP-1",
    () => inSession(three, 0, (all) => shifted(all, place(all, sent("disregard")), 5_000)),
  ],
  [
    "takes a slip back that was acted on",
    "STP-3",
    () =>
      inSession(three, 0, (all) => {
        const cut = all[place(all, sent("cutAll"))]?.seq;
        const alert = place(all, (f) => f.type === "alertRaised" && f.kind === "cut");
        const done = { type: "answered", signal: cut, answer: "unable", channel: "panel" };
        return forged(all, alert, { fact: done, actor: actorOf("cockpit") });
      }),
  ],
  ["takes back as a slip what is no stop", "STP-2", () => altered(0, sent("disregard"), { ref: 9 })],
  ["ends a fire by one person twice", "FIR-5", () => byOther(0, sent("fireOut"), "fireGuard", 1)],
  [
    "resets a cut that was not done",
    "CUT-5",
    () => gone(0, (f) => f.type === "answered" && f.answer === "done"),
  ],
  ["abandons alone what others depend on", "STG-18", () => gone(0, (f) => f.type === "abandonAsked")],
  [
    "abandons with an engine turning",
    "STG-13",
    () => gone(0, (f) => f.type === "answered" && f.answer === "done"),
  ],
  ["refuses a stop", "HLD-1", () => refusedAs(sent("hold"))],
  [
    "shelves the alert of a stop",
    "ALR-6",
    () =>
      inSession(three, 2, (all) => {
        const alert = all[place(all, (f) => f.type === "alertRaised" && f.kind === "cut")]?.seq;
        return forged(all, place(all, ofType("present"), -1), {
          fact: { type: "alertShelved", alert, post: "supervisor", until: 1 },
        });
      }),
  ],
  ["sets a condition aside by one person", "OVR-2", () => byOther(0, ofType("overrideGiven"), "cockpit")],
  ["takes away the second of two people", "CON-6", () => gone(0, ofType("overrideGiven"))],
  [
    "lets one command act twice",
    "WIR-6",
    () =>
      inSession(three, 2, (all) =>
        forged(all, place(all, sent("cranking")), {
          command: all[place(all, sent("clearToStart"))]?.command ?? null,
        }),
      ),
  ],
  ["connects power on no leave", "PWR-3", () => gone(0, sent("connectPower"))],
  ["removes chocks on no leave", "CHK-2", () => gone(1, sent("removeChocks"))],
  ["leaves people at the aircraft on a leave", "LEV-1", () => gone(0, sent("powerConnected"))],
  ["leaves hands on a propeller", "HND-3", () => gone(0, sent("propellerFree"))],
  ["counts blades without leave", "HND-4", () => gone(0, sent("handlePropeller"))],
  [
    "leaves a stage under a stop",
    "STG-4",
    () => written(0, { type: "stageReached", stage: "warmUp" } as never, "supervisor"),
  ],
  ["gives a post to two people", "PST-2", () => altered(0, ofType("postTaken"), { post: "cockpit" }, 1)],
  ["loses a stop between two sessions", "STN-1", () => inSession(three, 1, (all) => untold(all, "hold"))],
  [
    "loses hands on a propeller between two sessions",
    "STN-6",
    () => inSession(three, 1, (all) => untold(all, "hands")),
  ],
  [
    "loses a turning engine between two sessions",
    "STN-7",
    () => inSession(three, 2, (all) => untold(all, "turning")),
  ],
  ["starts with a propeller left turning", "STN-7", () => gone(2, sent("propellerStill"))],
  ["leaves what a session adds out of the record", "STN-1", () => contributedWithout("items")],
  ["leaves what a session ended out of the record", "STN-2", () => contributedWithout("ended")],
  [
    "takes a report without a session out of the record",
    "STN-1",
    () =>
      inRecord((all) => {
        const i = place(all, ofType("reported"));
        return forged(all, i, {
          fact: {
            type: "contributed",
            session: "none",
            through: 1,
            over: true,
            contribution: { items: [], ended: [] },
          },
        });
      }),
  ],
  [
    "cranks under a hold of another session",
    "STN-2",
    () =>
      inSession(two, 0, (all) => {
        const void_ = place(all, ofType("clearanceVoid"));
        const clearance = changed(all[void_], {}).clearance;
        const without = erased(erased(all, place(all, ofType("aircraftKnown"), -1)), void_);
        return forged(
          without,
          place(without, (fact) => fact.type === "sent" && fact.kind === "turning"),
          {
            fact: { ...crankAgain, ref: clearance },
          },
        );
      }),
  ],
  [
    "takes a second session past its brief",
    "STG-17",
    () =>
      inSession(two, 1, (all) =>
        forged(all, place(all, ofType("present")), { fact: { type: "stageReached", stage: "secure" } }),
      ),
  ],
];
