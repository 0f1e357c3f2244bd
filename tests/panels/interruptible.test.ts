import { expect, it, vi } from "vitest";
import { interruptible } from "../../web/ui/interruptible.ts";
import { allHere, fetchRest, laterPart } from "../../web/ui/later.tsx";

it("[PAN-24] what a touch may interrupt is so drawn once every part has loaded, also one that failed before", async () => {
  vi.useFakeTimers();
  let come = (_part: string) => {};
  let fail = (_why: Error) => {};
  const before = allHere();
  const part = laterPart(
    () =>
      new Promise<string>((resolve, reject) => {
        come = resolve;
        fail = reject;
      }),
  );
  expect(before).toBe(true);
  expect(allHere()).toBe(false);
  let drawn = 0;
  interruptible(() => {
    drawn += 1;
  });
  expect(drawn).toBe(1);
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
