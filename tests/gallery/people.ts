import type { Browser } from "playwright-core";
import { demo } from "../../seed/demo-data.ts";
import { giveLock } from "../browser/authenticator.ts";
import type { Seat } from "../browser/seat.ts";
import type { Camera } from "./camera.ts";

const PERSON = demo.people.find((p) => p.handle === "perran");

/** Photographs the office's page of people, and everything about passkeys on a device with a lock. */
export async function photographPeople(
  browser: Browser,
  url: string,
  camera: Camera,
  office: Seat,
): Promise<void> {
  const { page } = office;
  await page.goto(`${url}/people`);
  const others = page.getByRole("list").last();
  await others.getByRole("button", { name: "Block sign-in" }).first().waitFor();
  await camera.take("People, by the office", "Supervisor", page, true);
  await office.press("Block sign-in", others);
  await camera.take("Stopping a person", "Supervisor", page, false, ".own:last-of-type");
  await office.press("Change it");
  await camera.take("Another PIN", "Anybody", page, false, ".pin-entry");

  const code = await newDevice(office, url);
  const device = await browser.newContext();
  const own = await device.newPage();
  await giveLock(own);
  await own.goto(`${url}/enrol#${code}`);
  const press = (name: string | RegExp) => own.getByRole("button", { name }).first().click();
  await press("Enrol");
  await own.getByText("This device is now known as").waitFor();
  await camera.take("A device enrolled", "Anybody", own);
  await press("Sign in");
  await own.getByRole("button", { name: "Sign in by passkey" }).waitFor();
  await camera.take("Sign-in, passkeys here", "Anybody", own, true);
  await press(new RegExp(`^${PERSON?.name}`));
  await press("People");
  await press("Make a passkey");
  await own.getByLabel("Your PIN again").waitFor();
  await camera.take("Making a passkey", "Anybody", own, false, ".own:last-of-type");
  await own.getByLabel("Your PIN again").fill(PERSON?.pin ?? "");
  await press("Make a passkey");
  await own.getByRole("button", { name: "Remove it" }).waitFor();
  await camera.take("One's own sign-ins and passkeys", "Anybody", own, true);
  await device.close();
}

async function newDevice({ page }: Seat, url: string): Promise<string> {
  await page.goto(`${url}/devices`);
  await page.getByLabel("Name of the new device").fill("Guard's tablet 3");
  await page.getByRole("button", { name: "Show a code" }).click();
  return (await page.locator(".enrol-code").textContent()) ?? "";
}
