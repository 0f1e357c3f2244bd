import { lazy, Suspense, useState } from "react";
import type { Confirmed, Given } from "../../shared/asks/ask.ts";
import { useWords } from "../words/words.ts";
import type { AnswerKey, AskView } from "./askView.ts";
import { Need } from "./Need.tsx";
import { together } from "./numbers.ts";
import { TimeLeft } from "./TimeLeft.tsx";

/** Fetched beside the panel, not before it: what is asked must not wait for its figure, nor fail with it. */
const SignalFigure = lazy(() =>
  import("./figures/SignalFigure.tsx").then(
    (m) => ({ default: m.SignalFigure }),
    () => ({ default: () => null }),
  ),
);

interface Props {
  ask: AskView;
  now: number;
  /** Engine numbers as this person sees them. */
  numbers: readonly number[];
  /** What is heard from the server is fresh. Without that only answers that make nothing less safe can be given. */
  fresh: boolean;
  /** An answer to this was given and is not yet recorded. */
  sending: boolean;
  /** Something is being put in, or no longer. */
  onBusy(busy: boolean): void;
  /** Asks the server whether this is the person's PIN. */
  confirm(pin: string): Promise<Confirmed>;
  onAnswer(answer: AnswerKey, given: Given): void;
}

/** The one thing asked of this post now. */
export function AskNow({ ask, now, numbers, fresh, sending, onBusy, confirm, onAnswer }: Props) {
  const { text } = useWords();
  const [open, setOpen] = useState<{ ask: string; answer: AnswerKey } | null>(null);
  const put = (next: typeof open) => {
    setOpen(next);
    onBusy(next !== null);
  };
  // An entry begun for another ask is gone with it.
  const answer = open?.ask === ask.key ? open.answer : null;
  const give = (given: Given) => {
    if (!answer) return;
    onAnswer(answer, given);
    put(null);
  };
  return (
    <section
      className="ask"
      data-weight={ask.weight}
      data-open={answer !== null || undefined}
      aria-live="polite"
    >
      <p className="ask-weight">
        <WeightMark weight={ask.weight} />
        {text.ask.weights[ask.weight]}
      </p>
      <div className="ask-body">
        {ask.engine !== null && (
          <div className="ask-engine">
            <span className="ask-number">{ask.engine}</span>
            <span className="ask-place">{ask.place}</span>
          </div>
        )}
        <div className="ask-words">
          <h2>{together(ask.sentence)}</h2>
          {ask.asked && <p className="ask-since">{ask.asked}</p>}
          {ask.lacking.length > 0 && (
            <ul className="ask-lacking">
              {ask.lacking.map((l) => (
                <li key={l}>{l}</li>
              ))}
            </ul>
          )}
          {ask.dueAt !== null && <TimeLeft since={ask.since} dueAt={ask.dueAt} now={now} of={ask.dueOf} />}
        </div>
      </div>
      {sending ? (
        <p className="ask-sending">{text.ask.sending}</p>
      ) : answer === null ? (
        <Answers
          ask={ask}
          fresh={fresh}
          onPress={(a) => {
            if (a.choice.need === null) onAnswer(a, {});
            else put({ ask: ask.key, answer: a });
          }}
        />
      ) : (
        <div ref={intoView}>
          <Need
            answer={answer}
            numbers={numbers}
            now={now}
            blocked={!fresh && !answer.offline}
            confirm={confirm}
            onGive={give}
            onBack={() => put(null)}
          />
        </div>
      )}
      {ask.hand && (
        <Suspense fallback={<FigureToCome />}>
          <SignalFigure {...ask.hand} />
        </Suspense>
      )}
    </section>
  );
}

/** The place of the figure, so that nothing below it moves when it comes. */
function FigureToCome() {
  return (
    <div className="ask-figure">
      <div className="hand-figure" />
    </div>
  );
}

/**
 * On a small screen the keys of an entry must not begin below its edge; but the sentence they answer, and the time
 * left, must not stay scrolled away when there is room for both.
 */
function intoView(entry: HTMLElement | null) {
  entry?.closest(".ask")?.scrollIntoView({ block: "start" });
  entry?.scrollIntoView({ block: "nearest" });
}

function Answers({ ask, fresh, onPress }: { ask: AskView; fresh: boolean; onPress(a: AnswerKey): void }) {
  const { text } = useWords();
  const blocked = ask.answers.some((a) => !fresh && !a.offline);
  return (
    <>
      {blocked && <p className="ask-blocked">{text.ask.blocked}</p>}
      <div className="answers">
        {ask.answers.map((a) => (
          <button
            key={a.id}
            type="button"
            className="answer"
            data-tone={a.tone}
            disabled={!fresh && !a.offline}
            onClick={() => onPress(a)}
          >
            {together(a.word)}
          </button>
        ))}
      </div>
    </>
  );
}

function WeightMark({ weight }: { weight: AskView["weight"] }) {
  return (
    <svg viewBox="0 0 24 24" className="weight-mark" aria-hidden="true">
      {weight === "danger" && <path d="M8 1h8l7 7v8l-7 7H8l-7-7V8z" />}
      {weight === "alert" && <path d="M12 2l11 20H1z" />}
      {weight === "now" && <circle cx="12" cy="12" r="11" />}
      {weight === "later" && <path d="M3 3h18v18H3z" />}
    </svg>
  );
}

const SENTENCES = /(?<=\.) /;

/** Nothing asked: said in words, with what everybody waits for. */
export function NothingAsked({ words, waits }: { words: string; waits: readonly string[] }) {
  const { text } = useWords();
  return (
    <section className="ask ask-idle" aria-live="polite">
      <h2>
        {words.split(SENTENCES).map((sentence) => (
          <span key={sentence}>{sentence} </span>
        ))}
      </h2>
      {waits.length > 0 && (
        <dl className="ask-waits">
          <dt>{text.ask.others}</dt>
          {waits.map((w) => (
            <dd key={w}>{w}</dd>
          ))}
        </dl>
      )}
    </section>
  );
}
