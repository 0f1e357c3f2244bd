import { useEffect, useState } from "react";
import { dayAndMinute } from "../../../shared/words/dates.ts";
import { rehearsals, type TrainingRow } from "../../net/rehearsals.ts";
import { useRehearsalWords } from "../../words/rehearsal.ts";
import { useWords } from "../../words/words.ts";
import { go } from "../route.ts";

interface Props {
  /** Null for the person signed in. */
  person: { id: string; name: string } | null;
  onTrouble(error: Error): void;
}

/** A person's rehearsals, each line with its debrief one touch away. */
export function Training({ person, onTrouble }: Props) {
  const words = useRehearsalWords();
  const [known, setKnown] = useState<{ lines: TrainingRow[]; more: boolean } | null>(null);
  const id = person?.id ?? null;
  // biome-ignore lint/correctness/useExhaustiveDependencies: fetch once for each person
  useEffect(() => {
    rehearsals.training(id).then(setKnown, onTrouble);
  }, [id]);
  if (!known || (person === null && known.lines.length === 0)) return null;
  const title = person ? words.trainingOf(person.name) : words.ownTraining;
  return (
    <section className="own" aria-label={title}>
      <h2>{title}</h2>
      <p>{words.trainingWhat}</p>
      {known.lines.length === 0 && <p className="empty">{words.noTraining}</p>}
      <ul className="device-rows">
        {known.lines.map((line) => (
          <Line key={`${line.session} ${line.post}`} line={line} />
        ))}
      </ul>
      {known.more && <p>{words.moreTraining}</p>}
    </section>
  );
}

function Line({ line }: { line: TrainingRow }) {
  const words = useRehearsalWords();
  const { say } = useWords();
  const watchers = line.watchedBy.map((name) => name ?? words.erased).join(", ");
  const when = dayAndMinute(line.at, say.language);
  const script = line.title?.[say.language] ?? line.script;
  return (
    <li aria-label={`${script}, ${say.post(line.post)}, ${when}`}>
      <strong>{`${script}, ${line.aircraft} (${line.typeName})`}</strong>
      <span>{words.trained(say.post(line.post), Math.round(line.seconds / 60))}</span>
      <span>{`${when} UTC`}</span>
      <span>{line.finishedAt === null ? words.notFinished : words.finished}</span>
      {line.takenBack && <span>{words.takenBack}</span>}
      {watchers !== "" && <span>{words.watchedBy(watchers)}</span>}
      <button type="button" className="small-key" onClick={() => go(`/session/${line.session}/record`)}>
        {words.debrief}
      </button>
    </li>
  );
}
