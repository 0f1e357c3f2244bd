import { type Crew, takePostsAndBrief } from "./crew.ts";

/**
 * Plans the return of the aircraft called Morning Tide with engine 3 already stopped, on its own batteries; everybody
 * takes their post, confirms the brief and waits for the aircraft.
 */
export async function planReturn(crew: Crew): Promise<void> {
  const { cockpit, guard, power, supervisor } = crew;
  const { page } = supervisor;
  await supervisor.turnTo("/plan");
  await supervisor.press(/^Morning Tide/);
  await supervisor.press("A return: engines turn");
  await page.getByRole("textbox", { name: "Place" }).fill("Stand 4, north apron");
  await supervisor.press("Usual order");
  await supervisor.sees("Order of stopping: 2-3-1-4");
  await supervisor.press(/^Engine 3\b/);
  await supervisor.sees("Order of stopping: 2-1-4");
  await supervisor.press("Aircraft batteries");
  await supervisor.press("Plan this return");
  for (const seat of [cockpit, guard, power]) await seat.turnTo("/");
  await takePostsAndBrief(crew);
  await supervisor.answer(
    "Everybody is briefed. Go on to the arrival, before the aircraft comes in?",
    "Go on",
  );
}

/** Marshals the aircraft in. The brakes hold it: an inboard engine turns beside the wheels. */
export async function standsBraked({ cockpit, supervisor }: Crew): Promise<void> {
  await supervisor.answer("Marshal the aircraft in. Does it stand on its place?", "On the stand");
  await cockpit.answer("You stand on your place. Stop here.", "Received");
  await cockpit.read("Set the brakes and read their pressure.", "Brakes set");
  await supervisor.answer(
    "The aircraft stands on its place and is held. Go on to stopping the engines?",
    "Go on",
  );
}

/** The cockpit stops an engine that has cooled, and the guard sees its propeller still. */
export async function stopAndSee(n: number, { cockpit, guard }: Crew): Promise<void> {
  await cockpit.answer(`Number ${n} has cooled. Stop it.`, `Shut down ${n}`);
  await seeStill(n, guard);
}

export const seeStill = (n: number, guard: Crew["guard"]) =>
  guard.answer(`Number ${n} should be stopped. Does its propeller stand still?`, "Stands still");

/** Chocks go in on the cockpit's leave. */
export async function chocked({ cockpit, power }: Crew): Promise<void> {
  await cockpit.answer("On the stand, brakes set: have the wheels chocked.", "Chocks in, please");
  await power.answer("Insert the chocks.", "Will comply");
  await power.answer("Chock the wheels, fore and aft.", "Chocks in");
  await cockpit.answer("Chocks are in.", "Received");
}

/** Stows everything and closes the session. */
export async function stowed({ cockpit, guard, supervisor }: Crew): Promise<void> {
  await supervisor.answer("Propellers still, switches off: hands are allowed. Go on to stowing?", "Go on");
  // On batteries no cart is stowed.
  await guard.answer("Bottle back in its place, seal looked at", "Good");
  await cockpit.answer("Fuel of every tank noted in the log", "Good");
  await supervisor.answer("Oil of every engine dipped and noted", "Good");
  await cockpit.answer("Defects of this run written up, or none", "Good");
  await cockpit.answerCard();
  await supervisor.answer("Stopped and stowed. Close the session?", "Go on");
  await supervisor.sees("This session is closed.");
}
