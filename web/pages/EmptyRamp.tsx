import { useLaterWords } from "../words/later.ts";
import { useWords } from "../words/words.ts";

/** An outlined aircraft where the first one will stand: nothing is being started. */
export function EmptyRamp({ onPlan }: { onPlan(): void }) {
  const { ramp } = useWords().text;
  const { rampPage } = useLaterWords();
  return (
    <div className="ramp-empty">
      <svg viewBox="0 0 400 300" aria-hidden="true">
        <g fill="none" stroke="var(--rule-soft)" strokeWidth="2.5" strokeLinejoin="round">
          <path d="M200 12c9 0 15 14 15 34v176c0 22 -7 46 -15 62c-8 -16 -15 -40 -15 -62V46c0 -20 6 -34 15 -34z" />
          <path d="M215 96l172 34c6 1 8 5 8 9v7l-180 2z" />
          <path d="M185 96L13 130c-6 1 -8 5 -8 9v7l180 2z" />
          <path d="M212 246l52 12v12l-58 3zM188 246l-52 12v12l58 3z" />
          {[70, 128, 272, 330].map((x) => (
            <path key={x} d={`M${x - 9} 132V96c0 -9 4 -14 9 -14s9 5 9 14v36M${x - 26} 82h52`} />
          ))}
        </g>
      </svg>
      <p className="empty">{rampPage.none}</p>
      <button type="button" className="answer" data-tone="yes" onClick={onPlan}>
        {ramp.plan}
      </button>
    </div>
  );
}
