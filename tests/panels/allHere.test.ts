import { expect, it, vi } from "vitest";

type Later = typeof import("../../web/ui/later.tsx");

/** A copy of the module that no other test's parts are registered with. */
const fresh = (): Promise<Later> => import(`../../web/ui/later.tsx?${"alone"}`);

it("[PAN-24] every part is here once each has loaded, also one that failed before", async () => {
  const { allHere, fetchRest, laterPart } = await fresh();
  vi.useFakeTimers();
  expect(allHere()).toBe(true);
  let come = (_part: string) => {};
  let fail = (_why: Error) => {};
  const part = laterPart(
    () =>
      new Promise<string>((resolve, reject) => {
        come = resolve;
        fail = reject;
      }),
  );
  for (const end of [() => fail(new Error("the network is gone")), () => come("the part")]) {
    expect(allHere()).toBe(false);
    void fetchRest();
    await vi.advanceTimersByTimeAsync(1_000);
    end();
    await vi.advanceTimersByTimeAsync(0);
  }
  expect(part()).toBe("the part");
  expect(allHere()).toBe(true);
  vi.useRealTimers();
});
