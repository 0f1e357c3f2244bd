import type { Browser, BrowserContext, Locator } from "playwright-core";
import type { Post } from "../../shared/protocol/posts.ts";
import { say } from "../../shared/words/en.ts";
import { KEEPS_NOTHING, Seat } from "./seat.ts";

/** Somebody of the house of these tests. Invented. */
export interface Somebody {
  name: string;
  handle: string;
  pin: string;
  posts: readonly Post[];
}

export const ADA: Somebody = { name: "Ada Penrose", handle: "ada", pin: "730182", posts: ["supervisor"] };
export const BEN: Somebody = {
  ...{ name: "Ben Tregear", handle: "ben", pin: "918306", posts: ["cockpit", "supervisor"] },
};
export const CAS: Somebody = { name: "Cas Rowe", handle: "cas", pin: "402957", posts: ["fireGuard"] };
export const DEE: Somebody = { name: "Dee Nance", handle: "dee", pin: "615840", posts: ["groundPower"] };

const TABLET = { width: 1180, height: 820 };

/** One person who works on a house's pages. Keeps the names of the screens that were seen, and counts entries. */
export class Hand {
  readonly seat: Seat;
  readonly screens: string[] = [];
  entries = 0;

  constructor(seat: Seat) {
    this.seat = seat;
  }

  /** Waits for a screen by its heading, and notes it. */
  async on(heading: string | RegExp): Promise<void> {
    await this.seat.page.getByRole("heading", { name: heading }).first().waitFor();
    this.screens.push(String(heading));
  }

  async fill(label: string, value: string): Promise<void> {
    await this.#labelled(label).fill(value);
    this.entries += 1;
  }

  async choose(label: string, option: string): Promise<void> {
    await this.#labelled(label).selectOption({ label: option });
    this.entries += 1;
  }

  /** A field by the beginning of its label, which its note may follow. */
  #labelled(label: string): Locator {
    const whole = label.replace(/[.*+?^${}()|[\]\\]/g, "\\$&");
    return this.seat.page.getByLabel(new RegExp(`^${whole}`)).first();
  }

  async press(name: string | RegExp): Promise<void> {
    await this.seat.press(name);
    this.entries += 1;
  }
}

/** Opens the printed link on the first device, and enters the house and its first supervisor, who slips once in the PIN. */
export async function firstRun(context: BrowserContext, link: string): Promise<Hand> {
  const hand = new Hand(await Seat.at(context, link));
  await hand.on("This device");
  await hand.press("Begin on this device");
  await hand.on("The house and its first supervisor");
  await hand.fill("Name of the house", "Wheal Hope Flight");
  await hand.seat.sees("Still needed: Your name, Your short name, to sign in with");
  await hand.fill("Your name", ADA.name);
  await hand.fill("Your short name, to sign in with", ADA.handle);
  await hand.press("Go on");
  await hand.fill("Your PIN", ADA.pin);
  hand.screens.push("Your PIN");
  await hand.press("Go on");
  const { page } = hand.seat;
  await page.getByLabel("Your PIN again").fill(`${ADA.pin}1`);
  await hand.seat.press("Enter this house");
  await hand.seat.sees("The two PINs are different. Enter both again.");
  await page.getByLabel("Your PIN", { exact: true }).fill(ADA.pin);
  await hand.seat.press("Go on");
  await hand.fill("Your PIN again", ADA.pin);
  hand.screens.push("Your PIN again");
  await hand.press("Enter this house");
  await hand.on("The ramp");
  return hand;
}

/** Adds these people on the page that the list of missing steps leads to. */
export async function addPeople(hand: Hand, all: readonly Somebody[]): Promise<void> {
  await hand.press("Add people");
  await hand.on("Everybody");
  for (const { name, handle, pin, posts } of all) {
    await hand.press("Add a person");
    await hand.fill("Name", name);
    await hand.fill("Short name, to sign in with", handle);
    await hand.fill("First PIN", pin);
    for (const post of posts) await hand.press(new RegExp(`^${say.post(post)}$`, "i"));
    await hand.press("Add a person");
    await hand.seat.page.getByRole("listitem", { name }).waitFor();
  }
  await hand.press("Back to the ramp");
  await hand.on("The ramp");
}

/** Enrols another device by a code that the supervisor shows. Returns its browser. */
export async function enrolAnother(
  browser: Browser,
  office: Seat,
  address: string,
  name: string,
): Promise<BrowserContext> {
  await office.press("Devices");
  await office.page.getByLabel("Name of the new device").fill(name);
  await office.press("Show a code");
  const code = (await office.page.locator(".enrol-code").textContent()) ?? "";
  const context = await browser.newContext({ viewport: { width: 390, height: 844 }, ...KEEPS_NOTHING });
  const page = (await Seat.at(context, `${address}/enrol#${code}`)).page;
  await page.getByRole("button", { name: "Enrol", exact: true }).click();
  await page.getByText(`This device is now known as ${name}.`).waitFor();
  await page.close();
  await office.press("Done");
  await office.press("Back to the ramp");
  return context;
}

/** Signs somebody in by short name and PIN in a tab of an enrolled device. */
export async function signInOn(
  context: BrowserContext,
  address: string,
  { handle, pin }: Somebody,
): Promise<Seat> {
  const seat = await Seat.at(context, address);
  await seat.page.getByLabel("Short name").fill(handle);
  await seat.page.getByLabel("PIN", { exact: true }).fill(pin);
  await seat.press("Sign in");
  await seat.page.getByRole("heading", { name: "The ramp" }).waitFor();
  return seat;
}

/** Adds a cart, an extinguisher and chocks. */
export async function addEquipment(hand: Hand): Promise<void> {
  await hand.press("Equipment");
  await hand.on("Equipment");
  const next = new Date(Date.now() + 200 * 24 * 3_600_000).toISOString().slice(0, 10);
  for (const [kind, fields] of Object.entries({
    "Ground power cart": {
      ...{ Label: "CART-1", Name: "North cart", Volts: "28", "Amperes all the time": "400" },
      ...{ "Amperes at its peak": "1500", "Cable from cart to plug, metres": "9" },
    },
    "Fire extinguisher": {
      ...{ Label: "EXT-1", Name: "Stand's extinguisher", Agent: "CO2", "Charge, kg": "6" },
      ...{ "Weighed until": next, "Tested until": next },
    },
    Chocks: { Label: "CHK-1", Name: "Chocks, pair" },
  })) {
    await hand.press("Add equipment");
    await hand.press(kind);
    if (kind === "Ground power cart") await hand.choose("Size of the cable (AWG)", "2/0");
    for (const [label, value] of Object.entries(fields)) {
      if (label === "Label") await hand.seat.page.locator("input[name=id]").fill(value);
      else await hand.fill(label, value);
    }
    await hand.press("Add equipment");
    await hand.seat.sees("Can be used");
    await hand.press("All equipment");
  }
  await hand.press("Back to the ramp");
}

export const windowOf = (browser: Browser) =>
  browser.newContext({ viewport: TABLET, acceptDownloads: true, ...KEEPS_NOTHING });
