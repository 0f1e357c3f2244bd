import { lazy, Suspense, useState } from "react";
import type { Confirmed, Given } from "../../shared/asks/ask.ts";
import type { Quantity } from "../../shared/protocol/quantity.ts";
import { useWords } from "../words/words.ts";
import { AuthorsWords } from "./AuthorsWords.tsx";
import type { AnswerKey, AskView } from "./askView.ts";
import { later } from "./later.tsx";
import { Need } from "./Need.tsx";
import { together } from "./numbers.ts";
import { TimeLeft } from "./TimeLeft.tsx";

const FigurePad = later(() => import("./FigurePad.tsx").then((m) => m.FigurePad));

/** Loaded beside the panel, so that an ask neither waits for its figure nor fails with it. */
const SignalFigure = lazy(() =>
  import("./figures/SignalFigure.tsx").then(
    (m) => ({ default: m.SignalFigure }),
    () => ({ default: () => null }),
  ),
);

interface Props {
  ask: AskView;
  now: number;
  /** Engine numbers in the order this person sees them. */
  numbers: readonly number[];
  /** True while messages from the server are recent. Otherwise only answers that reduce no safety are enabled. */
  fresh: boolean;
  /** True while an answer to this ask is sent but not recorded. */
  sending: boolean;
  /** Called when the person starts or ends an entry. */
  onBusy(busy: boolean): void;
  /** Checks the person's PIN at the server. */
  confirm(pin: string): Promise<Confirmed>;
  onAnswer(answer: AnswerKey, given: Given): void;
  /** Sends figures, each as a command of its own. Returns their ids; null for one that cannot be sent. */
  onFigures(of: readonly { answer: AnswerKey; figure: Quantity }[]): (string | null)[];
}

/** The current ask of this post, with its answers. */
export function AskNow({ ask, now, numbers, fresh, sending, onBusy, confirm, onAnswer, onFigures }: Props) {
  const { text } = useWords();
  const [open, setOpen] = useState<{ ask: string; answer: AnswerKey } | null>(null);
  const put = (next: typeof open) => {
    setOpen(next);
    onBusy(next !== null);
  };
  // An entry started for another ask is discarded.
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
      data-open={answer !== null || ask.pad !== null || undefined}
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
          <h2>
            <AuthorsWords text={ask.sentence} form={together} />
          </h2>
          {ask.asked && <p className="ask-since">{ask.asked}</p>}
          {ask.dueAt !== null && <TimeLeft since={ask.since} dueAt={ask.dueAt} now={now} of={ask.dueOf} />}
        </div>
      </div>
      {ask.pad ? (
        <Suspense>
          <FigurePad ask={ask} fresh={fresh} onBusy={onBusy} onAnswer={onAnswer} onFigures={onFigures} />
        </Suspense>
      ) : sending ? (
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
        <Need
          answer={answer}
          numbers={numbers}
          now={now}
          blocked={!fresh && !answer.offline}
          confirm={confirm}
          onGive={give}
          onBack={() => put(null)}
          onDrawn={intoView}
        />
      )}
      {/* Below the keys: a long list must not push them out of sight. */}
      {ask.lacking.length > 0 && answer === null && (
        <ul className="ask-lacking">
          {ask.lacking.map((l) => (
            <li key={l}>{l}</li>
          ))}
        </ul>
      )}
      {ask.hand && (
        <Suspense fallback={<FigureToCome />}>
          <SignalFigure {...ask.hand} />
        </Suspense>
      )}
    </section>
  );
}

/** Reserves the place of the figure, so that nothing below it moves when it arrives. */
function FigureToCome() {
  return (
    <div className="ask-figure">
      <div className="hand-figure" />
    </div>
  );
}

/**
 * Scrolls so that the entry's keys are visible on a small screen, with the ask's sentence and time left above them
 * when there is room for both.
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

/** Shown when nothing is asked of this post: the reason, and the asks other posts have. */
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
            <dd key={w}>
              <AuthorsWords text={w} />
            </dd>
          ))}
        </dl>
      )}
    </section>
  );
}
