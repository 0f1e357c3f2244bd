import type { Browser } from "playwright-core";
import type { Post } from "../../shared/protocol/posts.ts";
import { Seat } from "./seat.ts";
import type { TestServer } from "./server.ts";

export interface Crew {
  cockpit: Seat;
  guard: Seat;
  power: Seat;
  supervisor: Seat;
  all: Seat[];
}

/** Returns the seat of a post. */
export const seatAt = (crew: Crew, post: Post): Seat =>
  ({
    cockpit: crew.cockpit,
    fireGuard: crew.guard,
    groundPower: crew.power,
    supervisor: crew.supervisor,
  })[post];

/** Signs four people in, each in their own window. */
export async function signInCrew(browser: Browser, url: string): Promise<Crew> {
  const cockpit = await Seat.open(browser, url, "austol");
  const guard = await Seat.open(browser, url, "cador", { width: 390, height: 844 });
  const power = await Seat.open(browser, url, "lowen", { width: 390, height: 844 });
  const supervisor = await Seat.open(browser, url, "merryn", { width: 1600, height: 1000 });
  return { cockpit, guard, power, supervisor, all: [cockpit, guard, power, supervisor] };
}

/** After so long a sign-in that nobody used is near its end. Milliseconds. */
const LONG_MS = 20 * 60_000;

/**
 * Lets time pass on the server and makes every panel connect again: only then does it compare its clock with the
 * server's. After a long time it loads its page anew, because the server keeps a sign-in whose panel it still sees when
 * it looks the next time, and a link that was cut at once would be gone by then.
 */
export async function passTime(server: TestServer, { all }: Crew, ms: number): Promise<void> {
  if (ms >= LONG_MS) {
    server.pass(ms);
    await Promise.all(all.map((seat) => seat.page.reload()));
    return;
  }
  const linked = all.map((seat) => seat.linkedAnew());
  server.pass(ms);
  server.cutLinks();
  await Promise.all(linked);
}

/** In a session just planned the others join by the code, and each takes a post and confirms the brief. Returns the code. */
export async function takePostsAndBrief({ cockpit, guard, power, supervisor, all }: Crew): Promise<string> {
  const { page } = supervisor;
  await supervisor.openPosts();
  const code = (await page.locator(".code").textContent()) ?? "";
  await supervisor.press("Take supervisor");
  await supervisor.press("Close");
  for (const [seat, key] of [
    [cockpit, "Take cockpit"],
    [guard, "Take fire guard"],
    [power, "Take ground power"],
  ] as const) {
    await seat.page.getByLabel("Joining code").fill(code);
    await seat.press("Join");
    await seat.press("Take a post");
    await seat.press(key);
    await seat.press("Close");
  }
  await supervisor.answer("The plan is made. Go on to the brief?", "Go on");
  for (const seat of all)
    await seat.answer("Were you briefed: order, signals, fire plan, way out?", "I was briefed");
  return code;
}

/** The supervisor plans, the others join by the code, each takes a post and confirms the brief. */
export async function planAndBrief(crew: Crew): Promise<string> {
  const { supervisor } = crew;
  const { page } = supervisor;
  await supervisor.press("Plan a start");
  await supervisor.press(/^Morning Tide/);
  await page.getByRole("textbox", { name: "Place" }).fill("Stand 4, north apron");
  await supervisor.sees("Order of starting: 3-4-2-1");
  await supervisor.press("Plan this start");
  const code = await takePostsAndBrief(crew);
  await supervisor.answer("Everybody is briefed. Go on to securing the aircraft?", "Go on");
  return code;
}

/** Does chocks, brakes, checks and blades. */
export async function secure({ cockpit, guard, power, supervisor }: Crew): Promise<void> {
  await power.answer("Chock the wheels, fore and aft.", "Chocks in");
  await cockpit.answer("Chocks are in.", "Received");
  await cockpit.read("Set the brakes and read their pressure.", "Brakes set");
  for (const words of [
    "Nose into the wind; blast reaches no people, aircraft or buildings",
    "Ground beneath the propellers free of loose gravel",
    "No fuelling or spill within 50 ft",
  ])
    await supervisor.answer(words, "Good");
  for (const words of [
    "Fire extinguisher in hand: gauge in range, seal whole",
    "Larger extinguisher immediately available",
  ])
    await guard.answer(words, "Good");
  for (const n of [3, 4, 2, 1]) await countBlades(n, cockpit, power);
  await supervisor.answer("Chocks are in and brakes are set. Go on to the power-up checks?", "Go on");
}

async function countBlades(n: number, cockpit: Seat, power: Seat): Promise<void> {
  await power.answer(
    `Blades of number ${n} must be counted. Ask the cockpit for ignition off.`,
    "Ask ignition off",
  );
  await cockpit.answer(
    `Hands on the propeller of number ${n}? Confirm ignition and mixture off.`,
    "Ignition off, authorised",
  );
  await power.asked(`Turn number ${n} by hand and count the blades. Any resistance: stop.`);
  await power.press("Count blades");
  // The type's rule asks more blades the longer the engine stood.
  const least = Number(
    /At least (\d+)/.exec((await power.page.getByText(/^At least \d+/).textContent()) ?? "")?.[1],
  );
  for (let counted = 0; counted < least; counted += 5) await power.press("More by 5 blades");
  await power.press("No resistance");
  await power.answer(`The blades of number ${n} are counted. Hands off and stand clear.`, "Hands off, clear");
}

/** Checks each battery and inverter, connects the cart and reads its volts. */
export async function powerUp({ cockpit, power, supervisor }: Crew): Promise<void> {
  for (const words of [
    "Battery 1 alone: inverter volts",
    "Battery 2 alone: inverter volts",
    "Inverter 1: volts",
    "Inverter 2: volts",
  ])
    await cockpit.read(words, "Enter reading");
  await supervisor.answer("Power-up checks are done. Go on to ground power?", "Go on");
  for (const words of [
    "Cart, cable and plug sound; cart's wheels chocked",
    "Polarity the same as the aircraft's",
    "Cart's output off before the plug goes in",
  ])
    await power.answer(words, "Good");
  await power.answer("Cart checked and output off? Ask to connect.", "Ready to connect");
  await cockpit.answer("Ground power asks to connect.", "Authorised");
  await power.read("The crew says connect. Plug in, output on, read the volts.", "On: enter volts");
  await cockpit.answer("Ground power is on. Read your bus volts.", "Received");
  await supervisor.asked("Read the wind and the gusts.");
  await supervisor.press("Enter reading");
  await supervisor.press("More by 5 kt wind");
  await supervisor.press("No gusts");
  // Warm enough that no engine must be preheated.
  for (let degrees = 0; degrees < 15; degrees += 5) await supervisor.press("More by 5 °C air");
  await supervisor.press(/^Record wind/);
  await supervisor.answer("The electrical source is known. Go on to starting?", "Go on");
}
