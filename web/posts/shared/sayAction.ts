import type { UnitChoice } from "../../../shared/models/unitChoice.ts";
import type { Action } from "../../../shared/protocol/commands.ts";
import type { Post } from "../../../shared/protocol/posts.ts";
import type { SessionState } from "../../../shared/session/state.ts";
import { writtenBoth } from "../../../shared/words/quantity.ts";
import type { Words } from "../../words/catalogue.ts";
import type { LaterWords } from "../../words/en/later.ts";
import { laterWords } from "../../words/later.ts";
import { saidWords } from "../../words/said.ts";

/** Returns an action in words, for its sender. */
export function sayAction(state: SessionState, action: Action, units: UnitChoice, words: Words): string {
  const { say, text } = words;
  const { actions } = saidWords(say.language);
  const small = (post: Post) => say.post(post).toLowerCase();
  switch (action.type) {
    case "send": {
      const figure = action.volts ?? action.pressure;
      const signalWords = say.signal(action.kind, action.engine ?? null);
      const where = action.place
        ? `${signalWords}, ${say.firePlace(action.place).toLowerCase()}`
        : signalWords;
      const whole = figure ? `${where}, ${writtenBoth(figure, units)}` : where;
      return action.seenFrom ? actions.seenFrom(whole, small(action.seenFrom)) : whole;
    }
    case "answer": {
      const signal = [...state.signals, ...state.ended].find((x) => x.id === action.signal);
      const to = signal ? `${say.signal(signal.kind, signal.engine)}: ` : "";
      const engine = action.engine === undefined ? "" : ` ${action.engine}`;
      return `${to}${say.answer(action.answer).toLowerCase()}${engine}`;
    }
    case "reading": {
      const gauge = state.type.gauges.find((g) => g.id === action.gauge)?.name ?? action.gauge;
      const of = action.engine === undefined ? gauge : text.entry.gaugeOf(gauge, action.engine);
      return `${of}: ${writtenBoth(action.reading, units)}`;
    }
    case "recordRunUp":
      return `${actions.runUp(action.engine, say.runUpItem(action.item))}: ${writtenBoth(action.reading, units)}`;
    case "recordFlash":
      return flashWords(action, laterWords(say.language).air);
    case "recordCheck": {
      const check = state.type.checks.find((c) => c.id === action.check)?.words ?? action.check;
      const from = action.note === undefined ? "" : ` (${action.note})`;
      if (action.reading) return `${check}: ${writtenBoth(action.reading, units)}${from}`;
      return `${check}: ${action.good ? actions.good : actions.notGood}`;
    }
    case "answerCard":
    case "readCard": {
      const words = state.type.card?.find((i) => i.id === action.item)?.words ?? action.item;
      const item = action.engine === undefined ? words : text.entry.gaugeOf(words, action.engine);
      if (action.type === "readCard") return actions.readOut(item);
      if (action.reading) return `${item}: ${writtenBoth(action.reading, units)}`;
      return `${item}: ${action.good ? actions.good : actions.notGood}`;
    }
    case "showEquipment":
      return actions.atStand(action.label);
    case "giveVoltTrace":
      return actions.trace(action.samples.length);
    case "claimPost":
    case "acceptPost":
      return actions.takePost(small(action.post));
    case "leavePost":
      return actions.leavePost(small(action.post));
    case "offerPost":
      return actions.handOver(small(action.post));
    case "vacatePost":
      return actions.vacate(small(action.post));
    case "confirmBrief":
      return actions.briefed;
    case "amendPlan":
      return action.order ? actions.order(action.order.join("-")) : actions.planChanged;
    case "advance":
      return actions.advance(say.stage(action.to).toLowerCase());
    case "abandon":
      return actions.abandon;
    case "present":
      return actions.present;
    case "delivered":
      return actions.shown;
    case "shelveAlert":
      return actions.shelved;
    case "override":
      return actions.setAside(action.engine, say.conditionName(action.condition).toLowerCase());
    case "countBlades":
      return actions.blades(action.engine, action.blades, action.resistance);
    case "recordWeather":
      return action.metar ?? actions.wind(action.windKt);
    case "writeDefect":
      return actions.defect(action.words);
    case "closeDefect":
      return actions.defectClosed;
    case "startDrill":
      return actions.drill(state.type.drills.find((d) => d.id === action.drill)?.title ?? action.drill);
    case "drillStep":
      return actions.drillStep(action.step + 1, action.done);
    case "endDrill":
      return actions.drillEnded;
    case "acknowledgeAlert": {
      const alert = state.alerts.find((a) => a.id === action.alert);
      return alert ? actions.alertSeen(say.alert(alert.kind, alert.engine)) : actions.seen;
    }
  }
}

/** Returns a flash in words, with its distance when reported. */
function flashWords(
  { thunderAfterS, miles }: Extract<Action, { type: "recordFlash" }>,
  air: LaterWords["air"],
): string {
  if (thunderAfterS !== undefined) return air.flashThunder(thunderAfterS);
  return miles === undefined ? air.flash : air.flashFar(miles);
}
