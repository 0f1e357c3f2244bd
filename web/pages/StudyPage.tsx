import { useStudyWords } from "../words/study.ts";
import { useWords } from "../words/words.ts";
import "../styles/study.css";
import { Caution } from "../posts/shared/Caution.tsx";
import { go } from "./route.ts";
import { Alike } from "./study/Alike.tsx";
import { Learn } from "./study/Learn.tsx";
import { QuizBegin, QuizRound } from "./study/Quiz.tsx";

const PARTS = [
  ["learn", "/study"],
  ["alike", "/study/alike"],
  ["quiz", "/study/quiz"],
] as const;

/** The study page of hand signals: each by itself, look-alikes side by side, and a quiz. Stores nothing. */
export function StudyPage({ page, more }: { page: string | null; more: string | null }) {
  const words = useStudyWords();
  const { ramp } = useWords().text;
  const part = page === "alike" || page === "quiz" ? page : "learn";
  return (
    <main className="page study">
      <header className="page-head page-head-row">
        <div>
          <h1>{words.title}</h1>
          <p>{words.seen}</p>
        </div>
        <nav className="head-keys" aria-label={words.title}>
          {PARTS.map(([is, path]) => (
            <button
              key={is}
              type="button"
              className="answer"
              data-tone="plain"
              aria-current={is === part ? "page" : undefined}
              onClick={() => go(path)}
            >
              {words.parts[is]}
            </button>
          ))}
          <button type="button" className="answer" data-tone="plain" onClick={() => go("/")}>
            {ramp.title}
          </button>
        </nav>
      </header>
      {part === "learn" && <Learn shown={page} form={more === "wand" ? "wand" : "day"} />}
      {part === "alike" && <Alike />}
      {part === "quiz" && <Quiz round={more} />}
      <Caution />
    </main>
  );
}

function Quiz({ round }: { round: string | null }) {
  const number = Number(round);
  return round !== null && Number.isInteger(number) ? <QuizRound round={number} /> : <QuizBegin />;
}
