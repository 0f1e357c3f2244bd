import "../styles/study.css";
import { Caution } from "../posts/shared/Caution.tsx";
import { go } from "./route.ts";
import { Alike } from "./study/Alike.tsx";
import { Learn } from "./study/Learn.tsx";
import { QuizBegin, QuizRound } from "./study/Quiz.tsx";

const PARTS = [
  ["learn", "/study", "Learn"],
  ["alike", "/study/alike", "Look-alikes"],
  ["quiz", "/study/quiz", "Quiz"],
] as const;

/** The hand signals to learn: each by itself, those easily mistaken side by side, and a quiz. Keeps nothing. */
export function StudyPage({ page, more }: { page: string | null; more: string | null }) {
  const part = page === "alike" || page === "quiz" ? page : "learn";
  return (
    <main className="page study">
      <header className="page-head page-head-row">
        <div>
          <h1>Hand signals</h1>
          <p>
            Drawn as you see a giver who faces you, a little from above: the giver's right arm is on your
            left.
          </p>
        </div>
        <nav className="head-keys" aria-label="Hand signals">
          {PARTS.map(([is, path, words]) => (
            <button
              key={is}
              type="button"
              className="answer"
              data-tone="plain"
              aria-pressed={is === part}
              onClick={() => go(path)}
            >
              {words}
            </button>
          ))}
          <button type="button" className="answer" data-tone="plain" onClick={() => go("/")}>
            The ramp
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
