import { expect } from "vitest";
import { demo } from "../../seed/demo-data.ts";
import type { Crew } from "./crew.ts";
import type { Seat } from "./seat.ts";

const pinOf = (handle: string) => demo.people.find((p) => p.handle === handle)?.pin ?? "";

/** Two people set a defect aside, each with their own PIN on the large keys; then it is closed. */
export async function setAsideByTwo({ cockpit, guard, supervisor }: Crew): Promise<void> {
  await guard.openPosts();
  for (const key of ["Defects", "Write up a defect", "Number 3", "Oil leak", "Blocks the start"])
    await guard.press(key);
  for (const key of ["Close", "Close"]) await guard.press(key);

  await supervisor.press(
    "Set aside…",
    supervisor.page.getByRole("row", { name: /An open defect blocks the start/ }),
  );
  await engineAndReason(supervisor, "Ask to set it aside");
  await byPin(supervisor, "000000", "Ask to set it aside");
  await supervisor.sees("That is not Merryn Tolvadden's PIN: nothing was set aside");
  expect(supervisor.complaints).toEqual([expect.stringContaining("403")]);
  supervisor.complaints.length = 0;
  await byPin(supervisor, pinOf("merryn"), "Ask to set it aside");
  await supervisor.sees(/^Set aside, number 3/);

  await cockpit.asked("Set aside for number 3: No defect blocks the start. Do you agree?");
  await cockpit.press("I agree", cockpit.page.locator(".ask"));
  await engineAndReason(cockpit, "I agree");
  await byPin(cockpit, pinOf("austol"), "I agree");
  await supervisor.sees("SET ASIDE");

  await supervisor.openPosts();
  for (const key of ["Defects", "Close it", "Mended and checked", "Close", "Close"])
    await supervisor.press(key);
}

async function engineAndReason(seat: Seat, word: string): Promise<void> {
  await seat.press("Engine number 3");
  await seat.page.getByLabel("Or in your words").fill("Seen by both of us");
  await seat.press(word);
}

/** Touches the keys instead of typing. */
async function byPin(seat: Seat, pin: string, word: string): Promise<void> {
  const entry = seat.page.locator(".pin-entry");
  for (const digit of pin) await seat.press(digit, entry);
  await seat.press(word, entry);
}
