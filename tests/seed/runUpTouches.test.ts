import { expect, it } from "vitest";
import { personAt, Stage } from "../../seed/crew/stage.ts";
import { demo } from "../../seed/demo-data.ts";
import { fill } from "../../shared/asks/ask.ts";
import { askedOf } from "../../shared/asks/asked.ts";
import { AS_READ } from "../../shared/models/unitChoice.ts";
import { playPost } from "../../shared/partners/play.ts";
import { gaugeFigure, runUpFigure } from "../../shared/partners/pretend.ts";
import { POSTS } from "../../shared/protocol/posts.ts";
import { releaseVerdict } from "../../shared/runUp/verdict.ts";
import { engineOf } from "../../shared/session/state.ts";
import type { AircraftType } from "../../shared/types/schema.ts";
import { askView } from "../../web/posts/shared/askViews.ts";
import { foreseenWords } from "../../web/posts/shared/foreseenWords.ts";
import { gathered } from "../../web/posts/shared/gathered.ts";
import { padView } from "../../web/posts/shared/padView.ts";
import {
  alike,
  BLANK_PAD,
  cellAt,
  missing,
  toSend,
  valueIn,
  withAlike,
  withTouch,
} from "../../web/ui/padEntry.ts";
import type { PadCell } from "../../web/ui/padView.ts";
import { wordsNow } from "../../web/words/words.ts";
import { playOut } from "./stage.ts";

const four = demo.types.find((t) => t.id === "kestle-four") as AircraftType;
const script = { seed: 3, pace: 1, cart: "Knocker" };
const words = wordsNow();
const LOOK_MS = 1_000;
const HOUR_MS = 3_600_000;

const asksOf = ({ state, now }: Stage) => askedOf(state, "cockpit", now);
const padsOf = (stage: Stage) =>
  gathered(
    asksOf(stage).map((ask) => ({ ask, view: askView(stage.state, ask, stage.now, AS_READ, words) })),
    words,
  ).flatMap((a) => (a.pad === null ? [] : [{ pad: a.pad, answers: a.answers }]));

/** Plays until every engine is warm and the first figure of the run-up is asked for. */
function warmed(): Stage {
  const stage = new Stage(four, "groundPower");
  stage.everyoneClaims();
  playOut(stage, script, "warmUp");
  const until = stage.now + HOUR_MS;
  while (!asksOf(stage).some((a) => a.say === "runUp") && stage.now < until) {
    stage.now += LOOK_MS;
    stage.catchUp();
    for (const post of POSTS) {
      const move = playPost(stage.state, post, stage.now, script);
      if (move && move.notBefore <= stage.now) stage.do(personAt(post), move.action);
    }
  }
  return stage;
}

function engineAt(state: Stage["state"], n: number) {
  const engine = engineOf(state, n);
  if (!engine) throw new Error(`no engine ${n}`);
  return engine;
}

function readBy({ state, now }: Stage, { answer, engine }: PadCell): number {
  const draft = answer?.choice.draft;
  const found =
    draft?.type === "recordRunUp"
      ? runUpFigure(state, engineAt(state, draft.engine), draft.item, script)
      : draft?.type === "reading"
        ? gaugeFigure(state, engine === null ? undefined : engineAt(state, engine), draft.gauge, now, script)
        : null;
  if (!found) throw new Error(`no figure for ${JSON.stringify(draft)}`);
  return found.value;
}

/** Enters and sends everything that the first pad asks for. Returns the touches, and the figures sent. */
function enter(stage: Stage): { touches: number; figures: number; digits: number } {
  const [first] = padsOf(stage);
  if (!first) throw new Error("no pad is asked for");
  const { state, now } = stage;
  const view = padView({ state, now, words }, first.pad, first.answers);
  let entry = BLANK_PAD;
  let touches = 0;
  while (missing(view, entry).length > 0) {
    const cell = cellAt(view, entry);
    if (!cell) throw new Error("the pad has no blank figure");
    touches += 1;
    entry = alike(view, entry) ? withAlike(view, entry) : withTouch(view, entry, readBy(stage, cell));
  }
  const actions = toSend(view, entry, () => null).map((c) => {
    const figure = { value: valueIn(entry, c.id) ?? 0, unit: c.spec.unit };
    const action = c.answer && fill(c.answer.choice, { figure });
    if (!action) throw new Error(c.id);
    return action;
  });
  const me = personAt("cockpit");
  const asksOnce = actions.some(
    (a) => foreseenWords({ state, post: "cockpit", me, now, words }, a).length > 0,
  );
  for (const action of actions) stage.do(me, action);
  const digits = actions.reduce(
    (sum, a) => sum + ("reading" in a && a.reading ? String(a.reading.value).length : 0),
    0,
  );
  return { touches: touches + (asksOnce ? 2 : 1), figures: actions.length, digits };
}

// Measured: 40 touches for 42 figures by scale and by "all alike"; typed digit by digit they have 147 digits.
it("[PAN-52] the cockpit enters the whole run-up of four engines with at most 40 touches", () => {
  const stage = warmed();
  const before = asksOf(stage).filter((a) => a.say === "runUp" || a.say === "runUp.plain").length;
  let [touches, figures, digits] = [0, 0, 0];
  while (padsOf(stage).length > 0) {
    const of = enter(stage);
    touches += of.touches;
    figures += of.figures;
    digits += of.digits;
    expect(touches).toBeLessThan(200);
  }
  console.info(
    `run-up: ${figures} figures, ${touches} touches; one by one ${figures * 3}, ${digits} digits typed`,
  );
  expect(touches).toBeLessThanOrEqual(40);
  // A pad that took no figures would need few touches too.
  expect(figures).toBe(before);
  expect(figures).toBeGreaterThanOrEqual(4 * 8);
  expect(releaseVerdict(stage.state)?.ready).toBe(true);
});
