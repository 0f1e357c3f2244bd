import { useEffect, useRef, useState } from "react";
import { handSignal } from "../../../shared/handSignals/all.ts";
import { type Question, quiz } from "../../../shared/handSignals/quiz.ts";
import { signalWords } from "../../../shared/words/handSignals.ts";
import { MovingFigure } from "../../ui/figures/MovingFigure.tsx";
import { useStudyWords } from "../../words/study.ts";
import { useWords } from "../../words/words.ts";
import { go } from "../route.ts";

const COUNT = 10;
const HEIGHT = 360;

function begin(): void {
  const [round = 1] = crypto.getRandomValues(new Uint16Array(1));
  go(`/study/quiz/${round}`);
}

export function QuizBegin() {
  const words = useStudyWords();
  return (
    <section className="quiz">
      <h2>{words.figures(COUNT)}</h2>
      <p>{words.how}</p>
      <button type="button" className="answer" data-tone="yes" onClick={begin}>
        {words.begin}
      </button>
    </section>
  );
}

/** One round of the quiz: a figure and four names. Each answer is shown at once, the score at the end. */
export function QuizRound({ round }: { round: number }) {
  const words = useStudyWords();
  const questions = quiz(round, COUNT);
  const [given, setGiven] = useState<readonly string[]>([]);
  const [revealed, setRevealed] = useState(false);
  const at = revealed ? given.length - 1 : given.length;
  const question = questions[at];
  if (!question) return <Score questions={questions} given={given} />;
  return (
    <Asked
      key={question.key}
      question={question}
      place={words.place(at + 1, questions.length)}
      given={revealed ? (given[at] ?? null) : null}
      onGive={(key) => {
        setGiven([...given, key]);
        setRevealed(true);
      }}
      onNext={() => setRevealed(false)}
    />
  );
}

interface AskedProps {
  question: Question;
  place: string;
  given: string | null;
  onGive(key: string): void;
  onNext(): void;
}

function Asked({ question, place, given, onGive, onNext }: AskedProps) {
  const words = useStudyWords();
  const { language } = useWords().say;
  const signal = handSignal(question.key);
  const own = signalWords(signal, language);
  const next = useRef<HTMLButtonElement>(null);
  useEffect(() => {
    if (given !== null) next.current?.focus();
  }, [given]);
  useEffect(() => {
    const press = (e: KeyboardEvent) => {
      const key = question.options[Number(e.key) - 1];
      if (key && given === null && !e.repeat) onGive(key);
    };
    addEventListener("keydown", press);
    return () => removeEventListener("keydown", press);
  });
  return (
    <section className="quiz quiz-asked" aria-label={words.question(place)}>
      <p className="quiz-place">{place}</p>
      <h2>{words.which}</h2>
      <div className="quiz-figure">
        <MovingFigure signal={signal} form={question.form} height={HEIGHT} label={own.movement} />
      </div>
      <ol className="quiz-options">
        {question.options.map((key, i) => (
          <li key={key}>
            <button
              type="button"
              className="answer quiz-option"
              data-is={given === null ? undefined : mark(key, question.key, given)}
              disabled={given !== null}
              onClick={() => onGive(key)}
            >
              <span className="quiz-digit">{i + 1}</span>
              <span>{signalWords(handSignal(key), language).name}</span>
              {given !== null && <Verdict is={mark(key, question.key, given)} />}
            </button>
          </li>
        ))}
      </ol>
      <div className="quiz-result" aria-live="polite">
        {given !== null && (
          <p>
            <strong>{given === question.key ? words.right : words.wrong(own.name)}</strong> {own.meaning}
          </p>
        )}
      </div>
      {given !== null && (
        <button ref={next} type="button" className="answer" data-tone="yes" onClick={onNext}>
          {words.goOn}
        </button>
      )}
    </section>
  );
}

type Is = "right" | "wrong" | "other";

function mark(key: string, right: string, given: string): Is {
  if (key === right) return "right";
  return key === given ? "wrong" : "other";
}

function Verdict({ is }: { is: Is }) {
  const words = useStudyWords();
  if (is === "other") return null;
  return <span className="quiz-mark">{is === "right" ? words.this : words.notThis}</span>;
}

function Score({ questions, given }: { questions: readonly Question[]; given: readonly string[] }) {
  const words = useStudyWords();
  const { language } = useWords().say;
  const missed = questions.filter((q, i) => given[i] !== q.key);
  return (
    <section className="quiz" aria-label={words.score}>
      <h2 className="quiz-score">{words.scored(questions.length - missed.length, questions.length)}</h2>
      {missed.length > 0 && (
        <>
          <p>{words.again}</p>
          <ul className="quiz-missed">
            {missed.map((q) => (
              <li key={q.key}>
                <button type="button" className="small-key" onClick={() => go(`/study/${q.key}`)}>
                  {signalWords(handSignal(q.key), language).name}
                </button>
              </li>
            ))}
          </ul>
        </>
      )}
      <button type="button" className="answer" data-tone="yes" onClick={begin}>
        {words.round}
      </button>
    </section>
  );
}
