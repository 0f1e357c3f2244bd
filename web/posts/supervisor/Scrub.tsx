interface Props {
  /** Number of the event on display, and of the newest event. */
  at: number;
  head: number;
  /** The moment on display, in words. */
  moment: string;
  words: { scrub: string; earlier: string; later: string };
  onAt(seq: number): void;
}

/** Steps through the record event by event, with keys for gloves and a slider for long distances. */
export function Scrub({ at, head, moment, words, onAt }: Props) {
  const to = (seq: number) => onAt(Math.min(head, Math.max(1, seq)));
  return (
    <section className="scrub" aria-label={words.scrub}>
      <button type="button" className="small-key" disabled={at <= 1} onClick={() => to(at - 1)}>
        {words.earlier}
      </button>
      <input
        name="at"
        type="range"
        min={1}
        max={head}
        value={at}
        aria-label={words.scrub}
        aria-valuetext={moment}
        onChange={(e) => to(Number(e.target.value))}
      />
      <button type="button" className="small-key" disabled={at >= head} onClick={() => to(at + 1)}>
        {words.later}
      </button>
    </section>
  );
}
