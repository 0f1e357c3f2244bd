import { expect, it } from "vitest";
import { ProblemError, type ProblemName } from "../../server/http/problem.ts";
import { problemWords } from "../../web/net/problemWords.ts";
import { text } from "../../web/words/en/text.ts";
import { spanish } from "../../web/words/spanish.ts";
import { wordsNow } from "../../web/words/words.ts";

/** The compiler holds the catalogue to every problem there is. */
const TITLES: Readonly<Record<ProblemName, string>> = text.problems;

it("[LNG-7] every problem of the server has its title in the catalogues", () => {
  for (const kind of Object.keys(TITLES) as ProblemName[])
    expect(new ProblemError(kind, "").problem.title).toBe(TITLES[kind]);
});

it("[LNG-7] says a problem in the person's language, with the server's own detail as it is", () => {
  const { problem } = new ProblemError("locked", "Wait 30 s, then try again");
  expect(problemWords(problem, 429, wordsNow())).toBe("Wait 30 s, then try again");
  expect(problemWords(problem, 429, spanish)).toBe("Bloqueado por un rato (Wait 30 s, then try again)");
});

it("[LNG-7] says what there is of a problem it does not know", () => {
  expect(problemWords({ type: "about:blank", title: "Bad Gateway" }, 502, spanish)).toBe("Bad Gateway");
  expect(problemWords({ detail: "No upstream" }, 502, wordsNow())).toBe("No upstream");
  expect(problemWords({}, 502, spanish)).toBe("El servidor dijo 502.");
  expect(problemWords({ type: "constructor" }, 500, spanish)).toBe("El servidor dijo 500.");
});
