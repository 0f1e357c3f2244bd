import { setTimeout } from "node:timers/promises";
import type { Ask, Choice } from "../../shared/asks/ask.ts";
import { askedOf } from "../../shared/asks/asked.ts";
import { POSTS } from "../../shared/protocol/posts.ts";
import { isOver, type SessionState } from "../../shared/session/state.ts";
import { say } from "../../shared/words/en.ts";
import { type Crew, seatAt } from "./crew.ts";
import type { Seat } from "./seat.ts";

/** Milliseconds between two looks at the session. */
const LOOK_MS = 50;
/** Looks without anything to answer, after which nobody will ever have to. */
const STUCK = 200;

/** Answers one ask at the panel by touch, with what its entry begins with. */
async function answer(seat: Seat, ask: Ask, { word, need }: Choice): Promise<void> {
  const sentence = say.ask(ask);
  const box = seat.page.locator(".ask");
  const pressed = say.choice(word, ask.engine);
  switch (need?.is) {
    case undefined:
      return seat.answer(sentence, pressed);
    case "figure":
      return seat.read(sentence, pressed);
    case "engine":
      await seat.asked(sentence);
      await seat.press(pressed, box);
      await seat.press(`Engine number ${ask.engine}`, box);
      break;
    case "blades":
      await seat.asked(sentence);
      await seat.press(pressed, box);
      for (let counted = 0; counted < need.atLeast; counted += 5) await seat.press("More by 5 blades", box);
      await seat.press("No resistance", box);
      break;
    case "weather":
      await seat.asked(sentence);
      await seat.press(pressed, box);
      await seat.press("More by 5 kt wind", box);
      await seat.press("No gusts", box);
      for (let degrees = 0; degrees < 15; degrees += 5) await seat.press("More by 5 °C air", box);
      await seat.press(/^Record wind/, box);
      break;
    case "forecast":
    case "reason":
    case "words":
    case "engineAndReason":
    case "standsAt":
      throw new Error(`a start without trouble asks for no ${need.is}: ${sentence}`);
  }
  await seat.askedNoMore(sentence);
}

/**
 * Plays a session to its end at four panels, by touch alone: each post answers the first of its asks that has an answer
 * which continues the start.
 * @param read returns the session as it is recorded now
 * @throws Error when nobody is asked anything that continues it
 */
export async function playByTouch(crew: Crew, read: () => SessionState): Promise<SessionState> {
  let state = read();
  for (let looks = 0; looks < STUCK && !isOver(state); looks += 1) {
    const next = POSTS.flatMap((post) => {
      const ask = askedOf(state, post, Date.now()).find((a) => a.choices.some(continues));
      const choice = ask?.choices.find(continues);
      return ask && choice ? [{ post, ask, choice }] : [];
    })[0];
    const { seq } = state;
    if (next) {
      await answer(seatAt(crew, next.post), next.ask, next.choice);
      looks = 0;
    }
    // An answer that left the panel is recorded soon, and what follows from it too.
    for (let waits = 0; waits < STUCK && state.seq === seq && (next || waits < 1); waits += 1) {
      await setTimeout(LOOK_MS);
      state = read();
    }
  }
  if (isOver(state)) return state;
  const asked = POSTS.map((p) => `${p}: ${askedOf(state, p, Date.now()).map((a) => say.ask(a))}`);
  throw new Error(`stuck in ${state.stage}: ${asked.join("; ")}`);
}

const continues = (choice: Choice) => choice.tone === "yes";
