import { HAND_SIGNALS } from "../../../shared/handSignals/all.ts";
import { keysOf } from "../../../shared/handSignals/motion.ts";
import type { Form, Giver, HandSignal } from "../../../shared/handSignals/signal.ts";
import { still, strip } from "../../../shared/handSignals/strip.ts";
import { SIGNAL_KINDS, type SignalKind } from "../../../shared/protocol/signals.ts";
import { signalOf } from "../../../shared/signals/all.ts";
import { citedIn } from "../../../shared/words/citations.ts";
import { handSignalWords, signalWords } from "../../../shared/words/handSignals.ts";
import { Choice } from "../../ui/Choice.tsx";
import { MovingFigure } from "../../ui/figures/MovingFigure.tsx";
import { SheetDrawing } from "../../ui/figures/SheetDrawing.tsx";
import { TranslatedText } from "../../ui/TranslatedText.tsx";
import { useStudyWords } from "../../words/study.ts";
import { useWords } from "../../words/words.ts";
import { go } from "../route.ts";

const GIVERS: readonly Giver[] = ["pilot", "marshaller", "fireCrew"];
const LARGE = 380;
const SMALL = 110;
const STRIP = 140;

const open = (key: string, form: Form) => go(`/study/${key}${form === "wand" ? "/wand" : ""}`);

/** One hand signal in large with its whole description, and the index of all. */
export function Learn({ shown, form }: { shown: string | null; form: Form }) {
  const words = useStudyWords();
  const at = Math.max(
    0,
    HAND_SIGNALS.findIndex((s) => s.key === shown),
  );
  const signal = HAND_SIGNALS[at];
  if (!signal) return null;
  const next = (by: number) => {
    const other = HAND_SIGNALS[(at + by + HAND_SIGNALS.length) % HAND_SIGNALS.length];
    if (other) open(other.key, form);
  };
  return (
    <div className="study-learn">
      <Plate key={signal.key} signal={signal} form={form} onNext={next} />
      <section className="study-index" aria-label={words.all}>
        {GIVERS.map((giver) => (
          <Group key={giver} giver={giver} chosen={signal.key} form={form} />
        ))}
      </section>
      <NoForm />
    </div>
  );
}

function Plate({ signal, form, onNext }: { signal: HandSignal; form: Form; onNext(by: number): void }) {
  const words = useStudyWords();
  const { language } = useWords().say;
  const own = signalWords(signal, language);
  const around = handSignalWords(language);
  const drawn: Form = signal.wand === null ? "day" : form;
  return (
    <article className="plate" aria-labelledby="plate-name">
      <header className="plate-head">
        <h2 id="plate-name">{own.name}</h2>
        {own !== signal && <p lang="en">{signal.name}</p>}
        <p>{own.direction}</p>
      </header>
      <nav className="plate-next" aria-label={words.others}>
        <button type="button" className="answer" data-tone="plain" onClick={() => onNext(-1)}>
          {words.before}
        </button>
        <button type="button" className="answer" data-tone="yes" onClick={() => onNext(1)}>
          {words.next}
        </button>
      </nav>
      <div className="plate-figure">
        <MovingFigure signal={signal} form={drawn} height={LARGE} label={`${own.name}. ${own.movement}`} />
      </div>
      <Choice
        label={words.form}
        chosen={drawn}
        options={[
          { is: "day", words: words.day },
          { is: "wand", words: words.wand, disabled: signal.wand === null },
        ]}
        className="plate-forms"
        classNameOfKeys="answer"
        onChoose={(is) => open(signal.key, is)}
      />
      {keysOf(signal, drawn).length > 1 && (
        <figure className="plate-strip">
          <SheetDrawing sheet={strip(signal, drawn, STRIP)} label={null} />
          <figcaption>{words.poses}</figcaption>
        </figure>
      )}
      <dl className="plate-words">
        <dt>{words.means}</dt>
        <dd className="plate-meaning">{own.meaning}</dd>
        <dt>{words.movement}</dt>
        <dd>
          {own.movement} {around.courses[signal.course]}
        </dd>
        <dt>{signal.giver === "pilot" ? words.night : words.wand}</dt>
        <dd>{own.wandWords}</dd>
        {own.note && (
          <>
            <dt>{words.mind}</dt>
            <dd>{own.note}</dd>
          </>
        )}
        <dt>{words.reference}</dt>
        {signal.sources.map((s) => (
          <dd key={s.cite}>
            <TranslatedText pieces={citedIn(language)(s.cite)} />{" "}
            <span className="plate-known">({around.known[s.known]})</span>
          </dd>
        ))}
      </dl>
    </article>
  );
}

function Group({ giver, chosen, form }: { giver: Giver; chosen: string; form: Form }) {
  const { language } = useWords().say;
  return (
    <>
      <h2>{handSignalWords(language).givers[giver]}</h2>
      <ul className="study-stills">
        {HAND_SIGNALS.filter((s) => s.giver === giver).map((s) => (
          <li key={s.key}>
            <button
              type="button"
              className="study-still"
              aria-current={s.key === chosen || undefined}
              onClick={() => open(s.key, form)}
            >
              <SheetDrawing sheet={still(s, s.wand === null ? "day" : form, SMALL)} label={null} />
              <span>{signalWords(s, language).name}</span>
            </button>
          </li>
        ))}
      </ul>
    </>
  );
}

/** Messages of the panels without a standard hand signal. */
function NoForm() {
  const words = useStudyWords();
  const { say } = useWords();
  const known: Partial<Record<SignalKind, string>> = handSignalWords(say.language).noForm;
  return (
    <section className="study-none" aria-label={words.none}>
      <h2>{words.none}</h2>
      <p>{words.noneWhy}</p>
      <ul>
        {SIGNAL_KINDS.filter((k) => signalOf(k).standard === null).map((k) => (
          <li key={k}>
            <strong>{say.signal(k, null)}</strong> {known[k]}
          </li>
        ))}
      </ul>
    </section>
  );
}
