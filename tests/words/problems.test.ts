import { createElement } from "react";
import { renderToStaticMarkup } from "react-dom/server";
import { expect, it } from "vitest";
import { ProblemError } from "../../server/http/problem.ts";
import type { ProblemName } from "../../server/http/problems.ts";
import { POSTS } from "../../shared/protocol/posts.ts";
import { phraseBook } from "../../shared/words/phraseBook.ts";
import { wordsOf } from "../../shared/words/piece.ts";
import { SPOKEN } from "../../shared/words/spoken.ts";
import { type Problem, problemWords } from "../../web/net/problemWords.ts";
import { Trouble } from "../../web/ui/Trouble.tsx";
import { problemPhrases } from "../../web/words/es/problemPhrases.ts";
import { typeFaults } from "../../web/words/es/typeFaults.ts";
import { problemTitles } from "../../web/words/problemTitles.ts";
import { spanish } from "../../web/words/spanish.ts";
import { wordsNow } from "../../web/words/words.ts";
import { nameOf, sourcesIn, standsIn, writtenIn } from "./written.ts";

/** Names of the calls and properties that carry a text to a person. */
const SENT =
  /^(ProblemError|TypeRefused|HouseRefused|OfficeRefused|NoRehearsal|NoSuchSession|fault|message)$/;

/** The compiler requires every problem in the catalogue. */
const TITLES: Readonly<Record<ProblemName, string>> = problemTitles("en");

it("[LNG-7] every problem of the server has its title in the catalogues", () => {
  for (const kind of Object.keys(TITLES) as ProblemName[])
    expect(new ProblemError(kind, "").problem.title).toBe(TITLES[kind]);
});

type ProblemSeen = [problem: Problem, status: number, words: typeof spanish];
const inWords = (...[problem, status, words]: ProblemSeen) =>
  problemWords(problem, status, words, problemTitles(words.say.language));

/** Returns a problem in words. */
const reads = (...[problem, status, words]: ProblemSeen) => wordsOf(inWords(problem, status, words));

it("[LNG-7] says a problem wholly in the person's language, or its title with the server's own detail as it is", () => {
  const { problem } = new ProblemError("locked", "Too many wrong attempts: try again in 30 s");
  expect(reads(problem, 429, wordsNow())).toBe("Too many wrong attempts: try again in 30 s");
  expect(reads(problem, 429, spanish)).toBe("Demasiados intentos equivocados: pruebe otra vez en 30 s");
  const plan = new ProblemError("faultyPlan", "crew.cockpit: no such person; order: say why: 2-1 is advised");
  expect(reads(plan.problem, 422, spanish)).toBe(
    "cabina: no existe esa persona; orden: diga por qué: se aconseja 2-1",
  );
  const duty = "send confirm and your PIN to do it all the same";
  for (const post of POSTS) {
    const [english, other] = [SPOKEN.en, SPOKEN.es].map((say) => say.post(post).toLowerCase());
    const cut = new ProblemError("onDuty", `This cuts off the ${english} of QX-KIV: ${duty}`);
    expect(reads(cut.problem, 409, spanish)).toMatch(`Esto deja a QX-KIV sin ${other}: `);
  }
  const other = new ProblemError("locked", "Come back when the sun is up");
  expect(reads(other.problem, 429, spanish)).toBe("Bloqueado por un rato (Come back when the sun is up)");
});

it("[LNG-7] marks what is left in English of a problem as English, for who hears it read in Spanish", () => {
  const shown = (detail: string, words: typeof spanish) => {
    const { problem } = new ProblemError("locked", detail);
    const of = Object.assign(new Error(), { pieces: inWords(problem, 429, words) });
    return renderToStaticMarkup(createElement(Trouble, { of }));
  };
  expect(shown("Come back when the sun is up", spanish)).toBe(
    '<p class="trouble" role="alert">Bloqueado por un rato (<span lang="en">Come back when the sun is up</span>)</p>',
  );
  for (const [words, detail] of [
    [spanish, "Too many wrong attempts: try again in 30 s"],
    [wordsNow(), "Come back when the sun is up"],
  ] as const)
    expect(shown(detail, words)).not.toContain("lang=");
});

/** These are served to programs alone: no panel requests them. */
const MACHINES = /(health|metrics|docs|live|feeds)\.ts$/;

it("[LNG-7] every detail the server sends a panel is told in Spanish", () => {
  const files = ["http", "house", "types", "auth", "sessions", "print", "rehearsals"].flatMap((folder) =>
    sourcesIn(`server/${folder}`),
  );
  const details = files
    .filter((f) => !MACHINES.test(f))
    .flatMap((file) =>
      writtenIn(file, (text, above) => {
        const at = standsIn(above);
        return (
          / \p{L}/u.test(text) &&
          (SENT.test(at) ||
            above.some((n) => n.type === "VariableDeclarator" && /^(detail|message)$/.test(nameOf(n))))
        );
      }),
    );
  expect(details.length).toBeGreaterThan(35);
  expect(details.filter((d) => spanish.problem(d).some((p) => p.asWritten))).toEqual([]);
});

it("[LNG-7] everything that can be wrong in an aircraft type is told in Spanish", () => {
  const told = phraseBook([...typeFaults, ...problemPhrases]);
  // The names of documents are cited as they are printed.
  const files = sourcesIn("shared/types").filter((f) => !f.endsWith("publishedFigures.ts"));
  const faults = files.flatMap((file) =>
    writtenIn(file, (text, above) => / \p{L}/u.test(text) && !/^(caution|title)$/.test(standsIn(above))),
  );
  // These are not whole texts: they stand before a figure or a source.
  const shown = faults.filter(
    (f) =>
      !/^ or $|support a crew|a second qualified|^About another type$|^(Common|From|at|more|less) \w+$/.test(
        f,
      ),
  );
  expect(shown.length).toBeGreaterThan(50);
  expect(shown.filter((f) => told(f).some((p) => p.asWritten))).toEqual([]);
  expect(wordsOf(told("must be at least 3"))).toBe("debe ser al menos 3");
  expect(wordsOf(told("needs at most 1 item"))).toBe("debe tener a lo más 1 elemento");
  expect(wordsOf(told("must be V or A or ohm"))).toBe("debe ser V o A o ohm");
});

it("[LNG-7] says what there is of a problem it does not know", () => {
  expect(reads({ type: "about:blank", title: "Bad Gateway" }, 502, spanish)).toBe("Bad Gateway");
  expect(reads({ detail: "No upstream" }, 502, wordsNow())).toBe("No upstream");
  expect(reads({}, 502, spanish)).toBe("El servidor dijo 502.");
  expect(reads({ type: "constructor" }, 500, spanish)).toBe("El servidor dijo 500.");
});
