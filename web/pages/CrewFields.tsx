import type { Lapse } from "../../shared/house/lapses.ts";
import { POSTS, type Post } from "../../shared/protocol/posts.ts";
import type { PersonRow } from "../net/api.ts";
import { usePlannedWords } from "../words/planned.ts";
import { useWords } from "../words/words.ts";
import { Lapses } from "./people/Lapses.tsx";

/** The person planned for each post; null while not decided. */
type PlannedCrew = Record<Post, string | null>;

export const NOBODY: PlannedCrew = { cockpit: null, fireGuard: null, groundPower: null, supervisor: null };

interface Props {
  people: readonly PersonRow[];
  crew: PlannedCrew;
  onCrew(next: PlannedCrew): void;
  /** Currencies that are over or end soon, by the person's id. */
  lapses: Readonly<Record<string, readonly Lapse[]>>;
}

/** One field for each post, with the people who may hold it and what speaks against the one chosen. */
export function CrewFields({ people, crew, onCrew, lapses }: Props) {
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
          <Lapses lapses={(lapses[crew[post] ?? ""] ?? []).filter((l) => l.post === post)} />
        </label>
      ))}
    </div>
  );
}
