import type { Browser } from "playwright-core";
import { afterAll, beforeAll } from "vitest";
import { type Crew, signInCrew } from "./crew.ts";
import { Prompter } from "./prompter.ts";
import { openBrowser, type Seat } from "./seat.ts";
import { TestServer } from "./server.ts";

/** Given to every test of a file: four posts at their panels and their session in the stage secure. */
export interface Secured {
  server: TestServer;
  browser: Browser;
  crew: Crew;
  session: Prompter;
}

/** Starts everything before the file's tests and ends it after them. */
export function secured(): Secured {
  const at = { server: new TestServer() } as Secured;
  beforeAll(async () => {
    await at.server.start();
    at.browser = await openBrowser();
    at.crew = await signInCrew(at.browser, at.server.url);
    at.session = await Prompter.begin(at.crew, at.server, "QX-KIV");
    await at.session.playUntil((s) => s.stage === "secure");
  });
  afterAll(async () => {
    at.session?.close();
    await at.browser?.close();
    await at.server.end();
  });
  return at;
}

/** Returns the panels with the names of their posts. */
export const seats = ({ cockpit, guard, power, supervisor }: Crew): [string, Seat][] => [
  ["cockpit", cockpit],
  ["fire guard", guard],
  ["ground power", power],
  ["supervisor", supervisor],
];
