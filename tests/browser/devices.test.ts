import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, expect, it } from "vitest";
import { connect, planOn } from "../live/kill-run.ts";
import { giveLock } from "./authenticator.ts";
import { axeFaults } from "./measure.ts";
import { KEEPS_NOTHING, openBrowser, PATIENCE, Seat } from "./seat.ts";
import { TestServer } from "./server.ts";

const server = new TestServer();
let browser: Browser;

beforeAll(async () => {
  await server.start();
  browser = await openBrowser();
});
afterAll(async () => {
  await browser?.close();
  await server.end();
});

/** Returns the result of a script in the page that asks for the private half of the device's key. */
const steal = (page: Page) =>
  page.evaluate(async () => {
    const db = await new Promise<IDBDatabase>((resolve) => {
      const asked = indexedDB.open("chockside-device");
      asked.onsuccess = () => resolve(asked.result);
    });
    const pair = await new Promise<CryptoKeyPair>((resolve) => {
      const asked = db.transaction("key").objectStore("key").get("this");
      asked.onsuccess = () => resolve(asked.result);
    });
    const tried = await crypto.subtle.exportKey("jwk", pair.privateKey).then(
      () => "had",
      (error: DOMException) => error.name,
    );
    const { algorithm, extractable, usages } = pair.privateKey;
    return { tried, extractable, usages, curve: (algorithm as EcKeyAlgorithm).namedCurve };
  });

it("[DEV-1] [DEV-2] [DEV-4] [DEV-5] a tablet is enrolled by a code, its sign-in works on no other device, and revoking it ends the sign-in", async () => {
  const office = await Seat.open(browser, server.url, "merryn");
  await office.press("Devices");
  await office.page.getByLabel("Name of the new device").fill("Tablet by the door");
  await office.press("Show a code");
  const code = (await office.page.locator(".enrol-code").textContent()) ?? "";
  await office.page.getByRole("img", { name: `Enrol with code ${code}` }).waitFor();

  const tablet = await browser.newContext(KEEPS_NOTHING);
  const page = await tablet.newPage();
  await page.goto(`${server.url}/enrol#${code}`);
  await page.getByRole("button", { name: "Enrol", exact: true }).click();
  await page.getByText("This device is now known as Tablet by the door.").waitFor();
  expect(page.url()).toBe(`${server.url}/enrol`);
  expect(await steal(page)).toEqual({
    tried: "InvalidAccessError",
    extractable: false,
    usages: ["sign"],
    curve: "P-256",
  });
  await page.close();

  const seat = await Seat.inContext(tablet, server.url, "perran");
  // Planning and listing use HTTP, the rest uses the socket. Both carry proofs.
  await seat.page.getByText("No aircraft is being started.", { exact: false }).waitFor();
  const me = await seat.page.evaluate(() => sessionStorage.getItem("chockside.signIn"));
  const { token } = JSON.parse(me ?? "{}");
  const copied = await fetch(`${server.url}/api/me`, { headers: { authorization: `DPoP ${token}` } });
  expect(copied.status).toBe(401);
  const thief = await (await browser.newContext(KEEPS_NOTHING)).newPage();
  await thief.addInitScript((kept) => sessionStorage.setItem("chockside.signIn", kept ?? ""), me);
  await thief.goto(server.url);
  await thief.getByRole("heading", { name: "Sign in" }).waitFor();

  await office.press("Done");
  await office.press("Read again");
  await office.press("Revoke");
  await office.press("Touch again to revoke");
  await seat.page.getByRole("heading", { name: "Sign in" }).waitFor();
  await seat.press(/^Perran/);
  await seat.sees(/^This device is not enrolled for you/);
  expect(office.complaints).toEqual([]);
});

it("[AUT-10] [AUT-11] [DEV-7] [SEC-29] a person ends a sign-in they left open and changes their PIN; the office stops them and admits them again", async () => {
  const office = await Seat.open(browser, server.url, "merryn");
  const left = await Seat.open(browser, server.url, "tamsin");
  const here = await Seat.open(browser, server.url, "tamsin");
  await here.press("People");
  expect(await here.page.getByRole("heading", { name: "Everybody" }).count()).toBe(0);
  await here.press("End it");
  await left.page.getByRole("heading", { name: "Sign in" }).waitFor();

  const enter = async (label: string, pin: string, key: string) => {
    await here.page.getByLabel(label, { exact: true }).fill(pin);
    await here.press(key);
  };
  await here.press("Change it");
  await enter("Your PIN now", "861035", "Go on");
  await enter("The new one", "907163", "Go on");
  await enter("The new one again", "907164", "Change it");
  await here.sees("The two are different. Nothing was changed.");
  await here.press("Change it");
  await enter("Your PIN now", "861035", "Go on");
  await enter("The new one", "907163", "Go on");
  await enter("The new one again", "907163", "Change it");
  await here.sees("It is changed. You are signed out everywhere else.");

  // She holds a post meanwhile, so she is cut off only with the office's PIN.
  const session = await planOn(server.url, await office.token());
  const panel = await connect(server.url, await here.token());
  await panel.command(session, { type: "claimPost", post: "fireGuard" });
  await office.press("People");
  const row = office.page.getByRole("listitem", { name: "Tamsin Boscarn" });
  await office.press("Block sign-in", row);
  await office.press("Touch again to block", row);
  await office.sees(/^This cuts off the fire guard of QX-KIV/);
  await office.press("Do not block");
  await office.press("Block sign-in", row);
  await office.press("Touch again to block", row);
  await office.page.getByLabel("Your PIN again").fill("925364");
  await office.press("Block anyway");
  await here.page.getByRole("heading", { name: "Sign in" }).waitFor();
  await office.press("Allow sign-in again", row);
  await row.getByRole("button", { name: "Block sign-in" }).waitFor();
  await here.page.getByLabel("Short name").fill("tamsin");
  await here.page.getByLabel("PIN", { exact: true }).fill("907163");
  await here.page.locator(".sign-in-form").getByRole("button", { name: "Sign in" }).click();
  await here.page.getByRole("heading", { name: "People" }).waitFor();
  const own = office.page.getByRole("listitem", { name: "Merryn Tolvadden" });
  expect(await own.getByRole("button", { name: "Block sign-in" }).count()).toBe(0);
  expect(await axeFaults(office.page)).toEqual([]);
  panel.close();
  // The browser writes each refused request into its console.
  const refused = (words: string) => words.includes("409");
  expect([...office.complaints, ...here.complaints].filter((c) => !refused(c))).toEqual([]);
});

it("[AUT-13] a person makes a passkey on an enrolled device and signs in with it, by finger instead of PIN", async () => {
  const port = new URL(server.url).port;
  // A passkey belongs to a host name and cannot belong to an IP address.
  const origin = `http://localhost:${port}`;
  await server.stop();
  await server.start([origin]);
  const office = await Seat.open(browser, origin, "merryn");
  await office.press("Devices");
  await office.page.getByLabel("Name of the new device").fill("Tablet with a lock");
  await office.press("Show a code");
  const code = (await office.page.locator(".enrol-code").textContent()) ?? "";

  const tablet = await browser.newContext(KEEPS_NOTHING);
  const page = await tablet.newPage();
  page.setDefaultTimeout(PATIENCE);
  const lockOpens = await giveLock(page);
  const press = (name: string | RegExp) => page.getByRole("button", { name }).first().click();
  await page.goto(`${origin}/enrol#${code}`);
  await press("Enrol");
  await page.getByText("This device is now known as Tablet with a lock.").waitFor();
  await press("Sign in");
  await press(/^Perran/);
  await press("People");
  await press("Make a passkey");
  await page.getByLabel("Your PIN again").fill("294617");
  await press("Make a passkey");
  await page.getByRole("listitem", { name: "Tablet with a lock" }).getByText("Made").waitFor();
  await press("Back to the ramp");
  await press("Sign out");

  await press("Sign in by passkey");
  await page.getByText("Signed in as Perran Goldsithe").waitFor();
  await press("Sign out");
  await lockOpens(false);
  await press("Sign in by passkey");
  await page.getByText("No passkey was given.").waitFor();
  expect(await page.getByText("Signed in as").count()).toBe(0);
});
