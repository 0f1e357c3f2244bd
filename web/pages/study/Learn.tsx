import { HAND_SIGNALS } from "../../../shared/handSignals/all.ts";
import { keysOf } from "../../../shared/handSignals/motion.ts";
import type { Form, Giver, HandSignal } from "../../../shared/handSignals/signal.ts";
import { still, strip } from "../../../shared/handSignals/strip.ts";
import { SIGNAL_KINDS } from "../../../shared/protocol/signals.ts";
import { CATALOGUE } from "../../../shared/session/catalogue.ts";
import { GIVER_WORDS, KNOWN_WORDS, NO_FORM_WORDS } from "../../../shared/words/en/handSignals.ts";
import { signals } from "../../../shared/words/en/signals.ts";
import { MovingFigure } from "../../ui/figures/MovingFigure.tsx";
import { SheetDrawing } from "../../ui/figures/SheetDrawing.tsx";
import { go } from "../route.ts";

const GIVERS: readonly Giver[] = ["pilot", "marshaller", "fireCrew"];
const LARGE = 380;
const SMALL = 110;
const STRIP = 140;

const COURSE_WORDS = {
  held: "Held still until it is understood.",
  once: "Made once, from beginning to end.",
  again: "Made again and again until it is understood.",
};

const open = (key: string, form: Form) => go(`/study/${key}${form === "wand" ? "/wand" : ""}`);

/** One signal large with all that is said of it, and the index of them all. */
export function Learn({ shown, form }: { shown: string | null; form: Form }) {
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
      <section className="study-index" aria-label="All hand signals">
        {GIVERS.map((giver) => (
          <Group key={giver} giver={giver} chosen={signal.key} form={form} />
        ))}
      </section>
      <NoForm />
    </div>
  );
}

function Plate({ signal, form, onNext }: { signal: HandSignal; form: Form; onNext(by: number): void }) {
  const drawn: Form = signal.wand === null ? "day" : form;
  return (
    <article className="plate" aria-labelledby="plate-name">
      <header className="plate-head">
        <h2 id="plate-name">{signal.name}</h2>
        <p>{signal.direction}</p>
      </header>
      <div className="plate-figure">
        <MovingFigure
          signal={signal}
          form={drawn}
          height={LARGE}
          label={`${signal.name}. ${signal.movement}`}
        />
      </div>
      <fieldset className="plate-forms">
        <legend className="visually-hidden">Form</legend>
        <FormKey words="By day" is="day" drawn={drawn} signal={signal} />
        <FormKey words="With wands" is="wand" drawn={drawn} signal={signal} />
      </fieldset>
      {keysOf(signal, drawn).length > 1 && (
        <figure className="plate-strip">
          <SheetDrawing sheet={strip(signal, drawn, STRIP)} label={null} />
          <figcaption>Key poses in their order</figcaption>
        </figure>
      )}
      <dl className="plate-words">
        <dt>Means</dt>
        <dd className="plate-meaning">{signal.meaning}</dd>
        <dt>Movement</dt>
        <dd>
          {signal.movement} {COURSE_WORDS[signal.course]}
        </dd>
        <dt>{signal.giver === "pilot" ? "By night" : "With wands"}</dt>
        <dd>{signal.wandWords}</dd>
        {signal.note && (
          <>
            <dt>Mind</dt>
            <dd>{signal.note}</dd>
          </>
        )}
        <dt>Reference</dt>
        {signal.sources.map((s) => (
          <dd key={s.cite}>
            {s.cite} <span className="plate-known">({KNOWN_WORDS[s.known]})</span>
          </dd>
        ))}
      </dl>
      <nav className="plate-next" aria-label="Other signals">
        <button type="button" className="answer" data-tone="plain" onClick={() => onNext(-1)}>
          Before
        </button>
        <button type="button" className="answer" data-tone="yes" onClick={() => onNext(1)}>
          Next
        </button>
      </nav>
    </article>
  );
}

function FormKey(p: { words: string; is: Form; drawn: Form; signal: HandSignal }) {
  return (
    <button
      type="button"
      className="answer"
      aria-pressed={p.drawn === p.is}
      disabled={p.is === "wand" && p.signal.wand === null}
      onClick={() => open(p.signal.key, p.is)}
    >
      {p.words}
    </button>
  );
}

function Group({ giver, chosen, form }: { giver: Giver; chosen: string; form: Form }) {
  return (
    <>
      <h2>{GIVER_WORDS[giver]}</h2>
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
              <span>{s.name}</span>
            </button>
          </li>
        ))}
      </ul>
    </>
  );
}

/** Messages of the panels that no standard hand signal says. */
function NoForm() {
  return (
    <section className="study-none" aria-label="No standard hand signal">
      <h2>No standard hand signal</h2>
      <p>
        These are said by interphone or panel. No figure is drawn for them: an invented one could be taken for
        something else.
      </p>
      <ul>
        {SIGNAL_KINDS.filter((k) => CATALOGUE[k].standard === null).map((k) => (
          <li key={k}>
            <strong>{signals[k].plain}</strong> {NO_FORM_WORDS[k]}
          </li>
        ))}
      </ul>
    </section>
  );
}
