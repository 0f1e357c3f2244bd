import { POSTS, type Post } from "../../shared/protocol/posts.ts";
import type { PersonRow } from "../net/api.ts";
import { usePlannedWords } from "../words/planned.ts";
import { useWords } from "../words/words.ts";

/** The person planned for each post; null while not decided. */
type PlannedCrew = Record<Post, string | null>;

export const NOBODY: PlannedCrew = { cockpit: null, fireGuard: null, groundPower: null, supervisor: null };

interface Props {
  people: readonly PersonRow[];
  crew: PlannedCrew;
  onCrew(next: PlannedCrew): void;
}

/** One field for each post, with the people who may hold it. */
export function CrewFields({ people, crew, onCrew }: Props) {
  const { say } = useWords();
  const { planning } = usePlannedWords();
  return (
    <div className="plan-crew">
      {POSTS.map((post) => (
        <label key={post} className="field">
          <span>{say.post(post)}</span>
          <select
            name={post}
            value={crew[post] ?? ""}
            onChange={(e) => onCrew({ ...crew, [post]: e.target.value || null })}
          >
            <option value="">{planning.notDecided}</option>
            {people
              .filter((p) => p.mayHold.includes(post))
              .map((p) => (
                <option key={p.id} value={p.id}>
                  {p.name}
                </option>
              ))}
          </select>
        </label>
      ))}
    </div>
  );
}
