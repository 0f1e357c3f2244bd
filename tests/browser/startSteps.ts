import type { Crew } from "./crew.ts";
import type { Seat } from "./seat.ts";

/** The guard goes to the engine and reports; past turning engines they walk around. */
export async function guardTo(n: number, { guard }: Crew): Promise<void> {
  await guard.answer(`Go to number ${n} and stand guard.`, /^In place/);
}

export const ready = (n: number, { cockpit }: Crew) =>
  cockpit.answer(`Next is number ${n}. Ready to start it?`, "Ready to start");
export const arcClear = (n: number, { guard }: Crew) =>
  guard.answer(`Is the arc of number ${n} clear?`, "Arc clear");

/** Asks to start an engine again that was shut down without oil pressure: it needs a reason. */
export async function readyWithReason(n: number, { cockpit }: Crew, reason: string): Promise<void> {
  await cockpit.asked(
    `Number ${n} was shut down without oil pressure. Do not start it before the reason is known.`,
  );
  await cockpit.press("Ready to start");
  await cockpit.page.getByLabel("Or in your words").fill(reason);
  await cockpit.press("Ready to start");
}

/** Does everything from the request to the read-back, with every post's answers. */
export async function clearedToStart(n: number, crew: Crew): Promise<void> {
  await ready(n, crew);
  await guardTo(n, crew);
  await arcClear(n, crew);
  await clearAndReadBack(n, crew);
}

export async function clearAndReadBack(n: number, { cockpit, supervisor }: Crew): Promise<void> {
  await supervisor.answer(`The crew is ready to start number ${n}. Clear it?`, "Clear to start");
  await cockpit.asked(`Clear to start number ${n}. Read back: which engine?`);
  await cockpit.press("Read back");
  await cockpit.press(`Engine number ${n}`);
  await cockpit.asked(`You are cleared for number ${n}. Engage the starter.`);
}

export async function crankAndCatch(n: number, cockpit: Seat): Promise<void> {
  await cockpit.answer(`You are cleared for number ${n}. Engage the starter.`, "Starter engaged");
  await cockpit.answer(`Number ${n} is cranking. Did it catch?`, "It caught");
}

export async function oilAndSettle(n: number, cockpit: Seat): Promise<void> {
  await cockpit.read(`Number ${n} caught. Watch for oil pressure.`, "Enter reading");
  await cockpit.answer(`Number ${n} runs. Set the idle; is it stable?`, "Stable");
}

/** The generators take over, ground power goes, and the accessories that the engines drive are checked. */
export async function onToWarmUp({ cockpit, power, supervisor }: Crew): Promise<void> {
  await cockpit.read("Bus volts, generators alone", "Enter reading");
  await cockpit.answer("All engines run. Have ground power disconnected.", "Disconnect, please");
  await power.answer("Disconnect ground power.", "Will comply");
  await power.answer("The crew says disconnect. Output off, unplug, cart away.", "Off and unplugged");
  await cockpit.answer("Ground power is off and unplugged.", "Received");
  await supervisor.answer("All engines are stable. Go on to warm-up?", "Go on");
  for (const words of [
    "Hydraulic pressure from engine 3's pump",
    "Suction with engine 2's vacuum pump selected",
    "Suction with engine 3's vacuum pump selected",
  ])
    await cockpit.read(words, "Enter reading");
}

/** The sentence of the pad that takes the readings of the warm-up. */
export const WARM_UP = "Warm-up: read these gauges.";

export async function warm(n: number, { cockpit }: Crew): Promise<void> {
  await cockpit.readOnPad(WARM_UP, [`${n}, Oil inlet temperature`, `${n}, Cylinder head temperature`]);
}

/** Takes the chocks out and gives all clear. */
export async function release({ cockpit, power, supervisor }: Crew): Promise<void> {
  // The release stands on items of the card, which wait behind the readings of the warm-up.
  await cockpit.answerCard();
  await supervisor.answer("The engines are warm and ground power is off. Go on to release?", "Go on");
  for (const n of [2, 3])
    await cockpit.answer(
      `Number ${n} turns beside the wheels. Shut it down before the chocks come out.`,
      `Shut down ${n}`,
    );
  await cockpit.answer("Ready to go: have the chocks removed.", "Chocks out, please");
  await power.answer("Remove the chocks.", "Will comply");
  await power.answer("The crew says chocks out. Pull them and show them.", "Out and shown");
  await cockpit.answer("Chocks are out and shown.", "Received");
  await supervisor.answer("Chocks are out. Everybody and everything clear?", "All clear");
  await cockpit.answer("All clear.", "Received");
  await supervisor.answer("Chocks are out and all clear was answered. Close the session?", "Go on");
  await supervisor.sees("This session is closed.");
}
