import { expect, it } from "vitest";
import { Turnstile } from "../../server/live/turnstile.ts";

const CROWD = 30;
const PER_TURN = 4;
const turn = () => new Promise<void>((done) => setImmediate(done));

it("[LIV-18] a crowd goes through four in each turn, in the order of its arrival", async () => {
  const turnstile = new Turnstile();
  const through: number[] = [];
  for (let n = 0; n < CROWD; n += 1) void turnstile.enter().then(() => through.push(n));
  for (let turns = 1; through.length < CROWD; turns += 1) {
    await turn();
    expect(through.length).toBe(Math.min(turns * PER_TURN, CROWD));
  }
  expect(through).toEqual([...Array(CROWD).keys()]);
});

it("[LIV-18] who comes later waits for those before them, and nobody waits for an empty turnstile longer than a turn", async () => {
  const turnstile = new Turnstile();
  const through: string[] = [];
  const enter = (name: string) => void turnstile.enter().then(() => through.push(name));
  for (let n = 0; n < PER_TURN; n += 1) enter("crowd");
  await turn();
  enter("late");
  await turn();
  expect(through).toEqual([...Array(PER_TURN).fill("crowd"), "late"]);
});
