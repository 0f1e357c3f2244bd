import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Browser } from "playwright-core";
import { ADA } from "../browser/houseSteps.ts";
import { Seat } from "../browser/seat.ts";
import { prepareServer, ServerProcess } from "../live/server-process.ts";
import type { Camera } from "./camera.ts";

/** Photographs a house from its first link to the first sections of its own type, on a server without the demo. */
export async function photographFirstRun(browser: Browser, camera: Camera): Promise<void> {
  prepareServer();
  const folder = mkdtempSync(join(tmpdir(), "chockside-gallery-"));
  const server = await ServerProcess.start(join(folder, "chockside.db"), {
    ...{ CHOCKSIDE_DEMO: "off", CHOCKSIDE_TLS: "off" },
  });
  try {
    const [, link = ""] = await server.printed(/(http:\S+\/first#\S+)/);
    const context = await browser.newContext({ viewport: { width: 1180, height: 820 } });
    const seat = await Seat.at(context, link);
    await firstSteps(camera, seat);
    await emptyPages(camera, seat, new URL(link).origin);
    await begunType(camera, seat, new URL(link).origin);
    await context.close();
  } finally {
    await server.kill();
    rmSync(folder, { recursive: true, force: true });
  }
}

async function firstSteps(camera: Camera, seat: Seat): Promise<void> {
  const { page } = seat;
  await seat.sees("This device");
  await camera.take("First run, this device", "Anybody", page);
  await seat.press("Begin on this device");
  await page.getByLabel("Name of the house").fill("Wheal Hope Flight");
  await page.getByLabel("Your name").fill(ADA.name);
  await page.getByLabel(/^Your short name/).fill(ADA.handle);
  await camera.take("First run, the house and its supervisor", "Anybody", page, true);
  await seat.press("Go on");
  const pin = page.getByLabel(/^Your PIN/).first();
  await pin.fill(ADA.pin);
  await camera.take("First run, a PIN", "Anybody", page);
  await seat.press("Go on");
  await pin.fill(`${ADA.pin}0`);
  await seat.press("Enter this house");
  await page.locator(".trouble").waitFor();
  await camera.take("First run, two PINs that differ", "Anybody", page, true);
  await pin.fill(ADA.pin);
  await seat.press("Go on");
  await pin.fill(ADA.pin);
  await seat.press("Enter this house");
  await page.getByRole("heading", { name: "The ramp" }).waitFor();
  await page.getByRole("button", { name: "Add people" }).waitFor();
  await camera.take("The ramp of an empty house", "Supervisor", page, true);
}

async function emptyPages(camera: Camera, { page }: Seat, url: string): Promise<void> {
  const at = async (path: string, scene: string, until: string) => {
    await page.goto(`${url}${path}`);
    await page.getByText(until).filter({ visible: true }).first().waitFor();
    await camera.take(scene, "Supervisor", page, true);
  };
  await at("/aircraft", "No aircraft yet", "No aircraft yet");
  await at("/aircraft/new", "No type for an aircraft yet", "No aircraft type is approved yet");
  await at("/equipment", "No equipment yet", "No equipment yet");
  await at("/plan", "Nothing to plan yet", "No aircraft yet");
  await at("/rehearse", "Nothing to rehearse yet", "No aircraft can be rehearsed yet");
  await at("/board", "Wall board, nothing is started", "No aircraft is being started");
}

async function begunType(camera: Camera, seat: Seat, url: string): Promise<void> {
  const { page } = seat;
  await page.goto(`${url}/types`);
  await seat.press("New type");
  await page.getByLabel(/^Name/).first().fill("Wren twin");
  await page
    .getByLabel(/^Identifier/)
    .first()
    .fill("wren-twin");
  await camera.take("A new type", "Supervisor", page);
  await seat.press("Make the draft");
  const parts = page.getByRole("navigation", { name: "Parts of the type" });
  await parts.waitFor();
  await camera.take("A type begun from nothing", "Supervisor", page, true);
  for (const part of ["Engines", "Oil"]) {
    await seat.press(new RegExp(`^${part}\\b`), parts);
    await camera.take(`A type begun: ${part}`, "Supervisor", page, true);
  }
}

/** Photographs the house's registers with something in them: a piece of equipment, its form, and an account. */
export async function photographRegisters(camera: Camera, seat: Seat, url: string): Promise<void> {
  const { page } = seat;
  await page.goto(`${url}/equipment`);
  await seat.press("Add equipment");
  await seat.press("Ground power cart");
  await page.locator("input[name=id]").fill("CART-7");
  await page.getByLabel("Name", { exact: true }).fill("South cart");
  await page.getByLabel(/^Volts/).fill("28");
  await camera.take("Equipment to add", "Supervisor", page, true);
  await page.getByLabel(/^Amperes all the time/).fill("400");
  await page.getByLabel(/^Amperes at its peak/).fill("1500");
  await page.getByLabel(/^Size of the cable/).selectOption({ label: "2/0" });
  await page.getByLabel(/^Cable from cart to plug/).fill("9");
  await seat.press("Add equipment");
  await seat.sees("Can be used");
  await camera.take("A piece of equipment", "Supervisor", page, true);
  await page.goto(`${url}/house`);
  await seat.press("Make an account");
  await camera.take("An account to make", "Supervisor", page, false, 'section[aria-label="Other systems"]');
}
