import { randomUUID } from "node:crypto";
import { io } from "socket.io-client";
import { expect } from "vitest";
import type { Action } from "../../shared/protocol/commands.ts";
import type { CommandResult } from "../../shared/protocol/refusal.ts";
import { type Crew, passTime } from "./crew.ts";
import { PATIENCE, type Seat } from "./seat.ts";
import type { TestServer } from "./server.ts";
import { WARM_UP } from "./startSteps.ts";

type Give = (action: Action) => Promise<CommandResult>;

/** Gives commands over a separate socket as the person in the seat. */
export async function onTheWire<T>(
  seat: Seat,
  session: string,
  what: (give: Give) => Promise<T>,
): Promise<T> {
  const socket = io(new URL(seat.page.url()).origin, {
    path: "/live",
    transports: ["websocket"],
    auth: { token: await seat.token(), proto: 1 },
  });
  try {
    return await what((action) => {
      const command = { v: 1, id: randomUUID(), session, clientAt: Date.now(), action };
      return socket.timeout(PATIENCE).emitWithAck("command", command);
    });
  } finally {
    socket.disconnect();
  }
}

/** On the plan page: the advised order with its reasons and the cost of others; another order needs a reason. */
export async function orderAdvised(seat: Seat): Promise<void> {
  const { page } = seat;
  await seat.press("Plan a start");
  await seat.press(/^Morning Tide/);
  await page.getByRole("textbox", { name: "Place" }).fill("Stand 4, north apron");
  const advice = await seat.worked("Order advised", /3-4-2-1.*good/);
  await advice.locator("summary").click();
  const made = (await advice.textContent()) ?? "";
  expect(made).toMatch(/because.*number 3, in place 1, is the first with hydraulic/i);
  expect(made).toMatch(/number 4 first\d+\.\d4-3-2-1, points more/);
  expect(made).toMatch(/number 1 firstnot possible/);
  expect(made).toContain("Held and Karp 1962");
  await seat.press("Start the order again");
  for (const n of [4, 3, 2, 1]) await seat.press(new RegExp(`^Engine ${n}:`));
  await seat.worked("Order advised", /the plan has 4-3-2-1.*check/);
  const go = page.getByRole("button", { name: "Plan this start" });
  await seat.sees("Still needed: why another order");
  expect(await go.count()).toBe(0);
  await page
    .getByLabel(/^The advice is 3-4-2-1, \d+\.\d points better. Why another order\?$/)
    .fill("A truck stands by number 3");
  await go.waitFor();
  await seat.press("Back to the ramp");
}

/** On the plan page: what stands near is placed by the heading, judged, drawn and kept with the plan. */
export async function standJudged(seat: Seat): Promise<void> {
  const { page } = seat;
  await seat.press("Plan a start");
  await seat.press(/^Morning Tide/);
  await page.getByRole("textbox", { name: "Place" }).fill("Stand 4, north apron");
  await seat.press("Add an object");
  const fields = { Name: "Bowser 5", "Bearing from the nose": "250", "Distance from the nose": "9" };
  for (const [label, value] of Object.entries(fields))
    await page.getByLabel(new RegExp(`^${label}`)).fill(value);
  await page.getByLabel("What it is").selectOption("fuelling");
  await seat.sees("Enter the heading of the nose: without it nothing can be placed.");
  await page.getByLabel(/^Heading of the nose/).fill("250");
  await seat.sees("Bowser 5: give how wide it is, 0.1 to 500");
  expect(await page.getByRole("button", { name: "Plan this start" }).count()).toBe(0);
  await page.getByLabel("How wide it is").fill("6");
  // The type asks for 50 ft around fuelling. The bowser is 9 m ahead of the nose.
  await seat.worked("Fuelling near", /Bowser 5: 9\.0 m around, more than 15\.2 m needed9(\.00)? mnot good/);
  await page.locator(".stand-near[data-too-near]").waitFor();
  await seat.press("Plan this start");
  await seat.worked("Fuelling near", /9(\.00)? mnot good/);
  await page.locator(".panel-plan .stand-near[data-too-near]").waitFor();
  expect(await page.locator(".stand-behind").count()).toBe(4);
  await page.goto(new URL("/", page.url()).href);
  await page.getByRole("heading", { name: "The ramp" }).waitFor();
}

/**
 * Before the clearance, every panel shows the lowest volts to expect while the starter turns, and the inputs of
 * that figure.
 */
export async function voltsForetold({ all, cockpit }: Crew, n: number): Promise<void> {
  // 27.5 V at the cart, 900 A through its 3 milliohms and 60 ft of 4/0 (AC 43.13-1B Table 11-9: 0.06 ohm/1000 ft).
  const lowest = (27.5 - 900 * (0.003 + 60 * 0.00006)).toFixed(1);
  for (const seat of all) {
    await seat.page.getByRole("heading", { name: `Calculated for number ${n}` }).waitFor();
    await seat.worked("Lowest volts to expect", new RegExp(`on ground power${lowest} Vgood`));
    await seat.worked("Starter rests for", /0 sgood/);
  }
  const figure = await cockpit.worked("Lowest volts to expect");
  await figure.locator("summary").click();
  const made = (await figure.textContent()) ?? "";
  expect(made).toMatch(
    /ground power volts, steady27\.5 Vsaid by Lowen Chygarder, (just now|(\d+ s|\d:\d\d) ago)/,
  );
  expect(made).toMatch(/breakaway current900 A[^.]*invented/i);
  expect(made).toContain("V = Voc - I (Rint + Rcable)");
  expect(made).toContain("Ohm's law");
}

/** After the crank: the lowest volts read beside those expected, the starter's rest and both oil timers. */
export async function crankTold(n: number, { all, cockpit, power }: Crew): Promise<void> {
  await cockpit.answer(`You are cleared for number ${n}. Engage the starter.`, "Starter engaged");
  await cockpit.answer(`Number ${n} is cranking. Did it catch?`, "It caught");
  await power.read(`Number ${n} was cranked. How low did the volts go?`, "Lowest: enter volts", {
    "Less by 1.0 V": 6,
  });
  for (const seat of all) await seat.worked("Lowest volts seen", /21\.5 V|0\.1 V below what was expected/);
  for (const seat of all) {
    await seat.worked("Starter rests for", /\d+ snot good/);
    await seat.worked("First oil pressure within", /\d+ s|\d+:\d\d/);
    await seat.worked("Normal oil pressure within", /\d+ s|\d+:\d\d/);
  }
}

/**
 * Warms the last engine on a curve to 60 °C with a time constant of 80 s, and expects a forecast of its gate of 40
 * °C.
 */
export async function warmUpTold(crew: Crew, session: string, server: TestServer): Promise<void> {
  const { all, cockpit } = crew;
  await cockpit.readOnPad(WARM_UP, ["3, Cylinder head temperature"]);
  const begun = server.now();
  await onTheWire(cockpit, session, async (give) => {
    for (let i = 0; i < 9; i += 1) {
      if (i > 0) server.pass(6_000);
      const value = 60 - 55 * Math.exp(-(server.now() - begun) / 80_000);
      const told = await give({
        type: "reading",
        gauge: "oilTemp",
        engine: 3,
        reading: { value, unit: "degC" },
      });
      expect(told.status).toBe("accepted");
    }
  });
  await passTime(server, crew, 0);
  for (const seat of all)
    await seat.worked("Warm-up left", /plus or minus \d+ s; number 3 is waited for\d+ s/);
}

/** A meter's record of ground power: a text that is no record is refused, and the verdict is shown at both posts. */
export async function traceJudged({ cockpit, power, guard }: Crew): Promise<void> {
  for (const seat of [power, cockpit]) await seat.worked("Ground power over time", /–cannot say/);
  await power.press("Enter a meter's record");
  const samples = power.page.getByLabel("Seconds and volts");
  await samples.fill("0 27.5\n0.02 volts");
  await power.sees("line 2: seconds and volts are needed, and nothing else");
  expect(await power.page.getByRole("button", { name: "Paste the record" }).isDisabled()).toBe(true);
  // Two seconds every 20 ms, at 31 V from 1.00 s on. The volts leave the band of 29 V at 0.989 s. The limit is 50 V for
  // 12.5 ms, then falls by 0.3 V per ms, and is 31 V 75.8 ms after the volts left the band.
  await samples.fill(
    Array.from({ length: 101 }, (_, i) => `${(i * 0.02).toFixed(2)};${i < 50 ? "27.5" : "31"}`).join("\n"),
  );
  expect(await power.page.getByRole("button", { name: "Record 101 samples, 2.00 s" }).isDisabled()).toBe(
    true,
  );
  await power.page.getByLabel("The record ended so many seconds ago").fill("0");
  await power.press("Record 101 samples, 2.00 s");
  for (const seat of [power, cockpit])
    await seat.worked("Ground power over time", /31\.0 V, over 31\.0 Vleft at 1\.064 snot good/);
  expect(await guard.page.getByText("Ground power over time").count()).toBe(0);
}
