import { afterEach, beforeEach, expect, it, vi } from "vitest";
import { CALM_MS, calmed } from "../../web/net/calm.ts";
import type { ConnectionView } from "../../web/net/connectionView.ts";
import { given } from "../spec/given.ts";

beforeEach(() => {
  vi.useFakeTimers({ now: 1_000_000 });
});
afterEach(() => {
  vi.useRealTimers();
});

/** Returns a connection whose view the test sets, and counts the calls to its watchers. */
function watched() {
  const story = given({}).upTo("starting");
  let view = {
    phase: "live",
    lastHeard: 1,
    outgoing: [],
    state: story.state,
    events: [],
  } as unknown as ConnectionView;
  let tell = () => {};
  const connection = {
    view: () => view,
    subscribe: (listener: () => void) => {
      tell = listener;
      return () => {};
    },
  };
  const calm = calmed(connection, () => Date.now());
  let told = 0;
  calm.subscribe(() => {
    told += 1;
  });
  const set = (change: Partial<ConnectionView>) => {
    view = { ...view, ...change };
    tell();
  };
  const report = () => {
    story.send("cockpit", "brakesSet", { pressure: { value: 900, unit: "psi" } });
    set({ state: story.state, events: [...story.log] });
  };
  return { story, calm, set, report, told: () => told };
}

it("[PAN-24] draws five times a second when twenty reports a second come, and draws the last one", () => {
  const { calm, report, told, story } = watched();
  for (let i = 0; i < 20; i += 1) {
    report();
    vi.advanceTimersByTime(50);
  }
  vi.advanceTimersByTime(CALM_MS);
  expect(told()).toBeGreaterThanOrEqual(5);
  expect(told()).toBeLessThanOrEqual(6);
  expect(calm.view().state?.seq).toBe(story.state.seq);
});

it("[PAN-24] shows a stop, the state of the link and this person's own act at once", () => {
  const { calm, set, report, told, story } = watched();
  report();
  const before = told();
  report();
  expect(told()).toBe(before);
  story.send("fireGuard", "hold");
  set({ state: story.state });
  expect(told()).toBe(before + 1);
  expect(calm.view().state?.holds.length).toBe(1);
  set({ phase: "lost" });
  set({ outgoing: [{} as ConnectionView["outgoing"][number]] });
  expect(told()).toBe(before + 3);
});
