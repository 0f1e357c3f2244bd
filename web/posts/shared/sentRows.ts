import type { UnitChoice } from "../../../shared/models/unitChoice.ts";
import type { Action } from "../../../shared/protocol/commands.ts";
import type { SessionState, Signal } from "../../../shared/session/state.ts";
import { isStop } from "../../../shared/session/stop.ts";
import type { AircraftType } from "../../../shared/types/schema.ts";
import { say } from "../../../shared/words/en.ts";
import { writtenBoth } from "../../../shared/words/quantity.ts";
import { timeOfDay } from "../../ui/numbers.ts";
import type { SentRow } from "../../ui/Sent.tsx";
import type { SentItem } from "./model.ts";

const ANSWER_WORD: Readonly<Record<string, string>> = { done: "stopped" };

/** An action in words, for its sender. */
export function sayAction(state: SessionState, action: Action, units: UnitChoice): string {
  switch (action.type) {
    case "send": {
      const said = say.signal(action.kind, action.engine ?? null);
      const figure = action.volts ?? action.pressure;
      const seen = action.seenFrom ? `, seen from ${say.post(action.seenFrom).toLowerCase()}` : "";
      return `${said}${figure ? `, ${writtenBoth(figure, units)}` : ""}${seen}`;
    }
    case "answer": {
      const signal = [...state.signals, ...state.ended].find((s) => s.id === action.signal);
      const to = signal ? `${say.signal(signal.kind, signal.engine)}: ` : "";
      const engine = action.engine === undefined ? "" : ` ${action.engine}`;
      return `${to}${say.choice(ANSWER_WORD[action.answer] ?? action.answer).toLowerCase()}${engine}`;
    }
    case "reading": {
      const gauge = state.type.gauges.find((g) => g.id === action.gauge);
      const engine = action.engine === undefined ? "" : `, number ${action.engine}`;
      return `${gauge?.name ?? action.gauge}${engine}: ${writtenBoth(action.reading, units)}`;
    }
    case "recordRunUp":
      return `Run-up of number ${action.engine}, ${say.runUpItem(action.item)}: ${writtenBoth(action.reading, units)}`;
    case "recordFlash":
      return "Lightning seen";
    case "recordCheck": {
      const words = state.type.checks.find((c) => c.id === action.check)?.words ?? action.check;
      if (action.reading) return `${words}: ${writtenBoth(action.reading, units)}`;
      return `${words}: ${action.good ? "good" : "not good"}`;
    }
    case "claimPost":
    case "acceptPost":
      return `Take the post: ${say.post(action.post).toLowerCase()}`;
    case "leavePost":
      return `Leave the post: ${say.post(action.post).toLowerCase()}`;
    case "offerPost":
      return `Hand over: ${say.post(action.post).toLowerCase()}`;
    case "vacatePost":
      return `Take off the post: ${say.post(action.post).toLowerCase()}`;
    case "confirmBrief":
      return "Briefed";
    case "amendPlan":
      return action.order ? `Order ${action.order.join("-")}` : "Change of plan";
    case "advance":
      return `Go on to ${say.stage(action.to).toLowerCase()}`;
    case "abandon":
      return "Abandon the session";
    case "present":
      return "I am here";
    case "delivered":
      return "Shown on this panel";
    case "shelveAlert":
      return "Alert put aside";
    case "override":
      return `Set aside, number ${action.engine}: ${say.conditionName(action.condition).toLowerCase()}`;
    case "countBlades":
      return `Number ${action.engine}: ${action.blades} blades${action.resistance ? ", resistance" : ""}`;
    case "recordWeather":
      return `Wind ${action.windKt} kt`;
    case "writeDefect":
      return `Defect: ${action.words}`;
    case "closeDefect":
      return "Defect closed";
    case "startDrill":
      return `Drill: ${state.type.drills.find((d) => d.id === action.drill)?.title ?? action.drill}`;
    case "drillStep":
      return `Drill step ${action.step + 1}: ${action.done ? "done" : "does not apply"}`;
    case "endDrill":
      return "Drill ended";
    case "acknowledgeAlert": {
      const alert = state.alerts.find((a) => a.id === action.alert);
      return alert ? `Seen: ${say.alert(alert.kind, alert.engine)}` : "Alert seen";
    }
  }
}

const SHOWN = 3;

/** The last few things this person sent: recorded or not, and who has answered. */
export function sentRows(state: SessionState, sent: readonly SentItem[], units: UnitChoice): SentRow[] {
  // What the device says by itself is not this person's word.
  const own = sent.filter((s) => s.action.type !== "delivered");
  const asking = own.filter((s) => s.fate.is === "lapsed" || s.fate.is === "sending");
  const rest = own.filter((s) => !asking.includes(s));
  return [...asking, ...rest].slice(0, Math.max(SHOWN, asking.length)).map((item) => ({
    id: item.id,
    words: sayAction(state, item.action, units),
    is: item.fate.is,
    fate: fateWords(item, units, state.type),
    answers: answersTo(state, item),
  }));
}

function fateWords(item: SentItem, units: UnitChoice, type: AircraftType): string {
  const { fate } = item;
  switch (fate.is) {
    case "sending":
      return isStop(item.action)
        ? "Sending… not yet heard by anyone. Use the hand signal."
        : "Sending… not yet recorded";
    case "recorded":
      return `Recorded as number ${fate.seq}`;
    case "refused":
      return say.refusal(fate.refusal, units, type);
    case "lapsed":
      return fate.tries === 0
        ? "Not sent in time. Does it still hold?"
        : "Not answered in time: it may have been heard. Does it still hold?";
    case "failed":
      return fate.words;
  }
}

function answersTo(state: SessionState, { fate }: SentItem): string[] {
  if (fate.is !== "recorded") return [];
  const signal = [...state.signals, ...state.ended].find((s) => s.id === fate.seq);
  return signal ? answerWords(signal) : [];
}

/** Each post an answer is due from, and what it said. */
function answerWords(signal: Signal): string[] {
  return signal.due.map((post) => {
    const given = signal.answers[post];
    if (!given) return `${say.post(post)}: no answer yet`;
    const word = say.choice(ANSWER_WORD[given.answer] ?? given.answer).toLowerCase();
    return `${say.post(post)}: ${word}, ${timeOfDay(given.at)}`;
  });
}
