import type { Ask, Offer } from "../../../shared/asks/ask.ts";
import type { AskSay } from "../../../shared/asks/askSay.ts";
import { findAll, findUnmet } from "../../../shared/conditions/all.ts";
import { renewals } from "../../../shared/conditions/renewal.ts";
import { engineStands } from "../../../shared/models/facing.ts";
import type { UnitChoice } from "../../../shared/models/unitChoice.ts";
import type { ConditionReport } from "../../../shared/protocol/conditionReport.ts";
import { POSTS, type Post } from "../../../shared/protocol/posts.ts";
import type { SessionState } from "../../../shared/session/state.ts";
import type { AnswerKey, AskView, Weight } from "../../ui/askView.ts";
import { ago, seconds } from "../../ui/numbers.ts";
import type { Words } from "../../words/catalogue.ts";
import type { Text } from "../../words/en/text.ts";
import { askHand } from "./askHand.ts";
import { makesNothingLessSafe } from "./safety.ts";

const WEIGHTS: readonly Weight[] = ["danger", "alert", "now", "now", "later"];

/** Keys of the words beside the time left, by ask. An ask missing here uses the words for time to answer. */
const DUE_OF: Readonly<Partial<Record<AskSay, keyof Text["ask"]["dueOf"]>>> = {
  "answer.clearToStart": "clearToStart",
  crank: "crank",
  cranking: "cranking",
  oilFirst: "oilFirst",
  oilNormal: "oilNormal",
  starterCooling: "starterCooling",
  lightning: "lightning",
  coolDownGauge: "coolDown",
  coolDownTime: "coolDown",
};

export function askView(
  state: SessionState,
  ask: Ask,
  now: number,
  units: UnitChoice,
  words: Words,
): AskView {
  const { say, text } = words;
  const { dueOf } = text.ask;
  return {
    key: ask.key,
    weight: WEIGHTS[ask.weight] ?? "later",
    rank: ask.weight,
    sentence: say.ask(ask),
    engine: ask.engine,
    place: ask.engine === null ? null : say.stands(engineStands(ask.engine, state.engines.length)),
    asked: askedWords(ask, now, words),
    since: ask.since,
    hand: askHand(ask, state.engines.length),
    dueAt: ask.dueAt,
    dueOf: dueOf[DUE_OF[ask.say] ?? "toAnswer"],
    answers: ask.choices.map((c, i) =>
      answerKey(state, c, say.choice(c.word, ask.engine), `${ask.key}/${i}`),
    ),
    lacking: lacking(state, ask, now, units, words),
    pad: null,
  };
}

export function answerKey(state: SessionState, choice: Offer, word: string, id: string): AnswerKey {
  return {
    id,
    word,
    tone: choice.tone,
    choice,
    offline: makesNothingLessSafe(choice.draft),
    reportMostAge: state.type.timing.weather.value * 1000,
  };
}

function askedWords(ask: Ask, now: number, { say, text }: Words): string | null {
  if (ask.since === null) return null;
  const by = isPost(ask.from) ? say.post(ask.from) : ask.from;
  return by ? `${by}, ${ago(now - ask.since, text)}` : text.times.since(seconds(now - ask.since));
}

function isPost(from: string | null): from is Post {
  return from !== null && (POSTS as readonly string[]).includes(from);
}

/**
 * Returns each condition that a request must wait for, with the posts that can meet it: first those that are not met,
 * then those whose reports are asked for again.
 */
function lacking(
  state: SessionState,
  ask: Ask,
  now: number,
  units: UnitChoice,
  { say, text }: Words,
): string[] {
  if ((ask.say !== "clearWaits" && ask.say !== "clearRenews") || ask.engine === null) return [];
  const unmet = findUnmet(state, ask.engine, now);
  const again = new Set(renewals(state, ask.engine, now));
  const renewed = findAll(state, ask.engine, now).filter((r) => again.has(r.id));
  const whose = (report: ConditionReport) => report.owners.map((o) => say.post(o).toLowerCase()).join(", ");
  return [
    ...unmet.map((u) => `${say.condition(u, units)} (${whose(u)})`),
    ...renewed.map((r) => `${text.ask.again(say.conditionName(r.id), seconds(r.age ?? 0))} (${whose(r)})`),
  ];
}
