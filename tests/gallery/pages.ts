import type { Browser } from "playwright-core";
import type { Seat } from "../browser/seat.ts";
import type { Camera } from "./camera.ts";
import { photographPeople } from "./people.ts";

/** Photographs the pages beside the panels, as the supervisor of a session. */
export async function photographPages(
  browser: Browser,
  url: string,
  camera: Camera,
  seat: Seat,
): Promise<void> {
  const { page } = seat;
  const at = async (path: string, scene: string, until: string, whole = false) => {
    await page.goto(`${url}${path}`);
    await page.getByText(until).filter({ visible: true }).first().waitFor();
    await camera.take(scene, "Anybody", page, whole);
  };
  await at(`${new URL(page.url()).pathname}/record`, "Record", "events, times by the server in UTC");
  await at("/", "Ramp", "Joining code");
  await seat.press("This device");
  await page.locator(".screen-card").waitFor();
  await camera.take("This device", "Anybody", page);
  await seat.press("Close");
  await at("/board", "Wall board", "Fire at number 2");
  await at("/study", "Hand signals", "That person's right arm");
  await at("/study/alike", "Look-alikes", "That person's right arm");
  await quiz(camera, seat, url);
  await types(camera, seat, url);
  await devices(camera, seat, url);
  await photographPeople(browser, url, camera, seat);
  await at("/aircraft", "Aircraft", "Old Carrack");
  await at("/aircraft/QX-KIV", "An aircraft", "What is fitted", true);
  await at("/aircraft/new", "Add an aircraft", "Registration");
  await at("/equipment", "Equipment", "Equipment");
  await at("/house", "The house", "Currencies of people");
  await at("/house/starts", "How starts went", "Starts by week", true);
  await at("/house/search?q=number", "Search", "Narrow it");
  await at("/house/search?kind=defect", "Search, narrowed", "From day");
  await at("/aircraft/QX-KES/history", "History of an aircraft", "Do its defects become rarer?", true);
  await at("/dues", "Dues", "Inspections", true);
  await seat.press("Add an inspection");
  await camera.take("Add an inspection", "Anybody", page, true);
  await at("/plan", "Plan a start", "Aircraft");
  await seat.press(/^Windhover/);
  await seat.sees(/^Order of starting/);
  await camera.take("Plan a start, aircraft chosen", "Anybody", page, true);
  await spanish(browser, url, camera);
}

async function quiz(camera: Camera, seat: Seat, url: string): Promise<void> {
  await seat.page.goto(`${url}/study/quiz`);
  await seat.press("Begin");
  await seat.sees("Which signal is this?");
  await camera.take("Quiz, a question", "Anybody", seat.page);
  await seat.page.locator(".quiz-options button").first().click();
  await camera.take("Quiz, answered", "Anybody", seat.page);
}

/** Photographs a version, a draft of it with a fault, and the changes of the draft. */
async function types(camera: Camera, seat: Seat, url: string): Promise<void> {
  const { page } = seat;
  await page.goto(`${url}/types`);
  await page.getByRole("heading", { name: /Kestle/ }).waitFor();
  await camera.take("Aircraft types", "Anybody", page);
  await seat.press(/^Version 1 Approved/, page.getByRole("region", { name: /Kestle/ }));
  await seat.sees(/^Drawn facing forward/);
  await camera.take("A type to read", "Anybody", page);
  await seat.press("Make a new draft of it");
  await seat.press(/^Oil\b/, seat.page.getByRole("navigation", { name: "Parts of the type" }));
  const within = page
    .getByRole("group", { name: "Normal", exact: true })
    .first()
    .getByRole("group", { name: "Within", exact: true })
    .getByLabel("Value");
  await within.fill("soon");
  await seat.sees("1 fault to mend before it can be saved.");
  await camera.take("A type to edit, a fault in it", "Anybody", page);
  await within.fill("1500");
  await seat.press("Save");
  await seat.sees("Saved, no faults.");
  await page.goto(`${page.url().replace("/edit", "")}/since/1`);
  await page.locator("main h1").waitFor();
  await page.getByText("1500 s").first().waitFor();
  await camera.take("What a draft changes", "Anybody", page);
}

async function devices(camera: Camera, seat: Seat, url: string): Promise<void> {
  await seat.page.goto(`${url}/devices`);
  await seat.page.getByLabel("Name of the new device").fill("Guard's tablet 2");
  await seat.press("Show a code");
  await seat.page.locator(".qr").waitFor();
  await camera.take("Devices, a code shown", "Anybody", seat.page);
  await seat.page.goto(`${url}/enrol`);
  await seat.sees("Code");
  await camera.take("Enrol this device", "Anybody", seat.page);
}

/** Photographs the pages before a panel, in Spanish. */
async function spanish(browser: Browser, url: string, camera: Camera): Promise<void> {
  const page = await (await browser.newContext({ locale: "es-ES" })).newPage();
  await page.goto(url);
  await page.locator(".demo").waitFor();
  await camera.take("Entrada", "Cualquiera", page, true);
  await page.getByRole("button", { name: /^Keren/ }).click();
  await page.locator(".strip").waitFor();
  await camera.take("La plataforma", "Cualquiera", page);
  await page.goto(`${url}/board`);
  await page.locator(".wall-row[data-needs]").waitFor();
  await camera.take("Tablero de pared", "Cualquiera", page);
  await page.goto(`${url}/house/search?kind=defect`);
  await page.locator(".found-rows").waitFor({ state: "attached" });
  await camera.take("Buscar", "Cualquiera", page);
  await page.goto(`${url}/study`);
  await page.locator(".hand-figure").first().waitFor();
  await camera.take("Señales de mano", "Cualquiera", page);
  await page.goto(`${url}/plan`);
  await page.getByRole("radio", { name: /^Windhover/ }).click();
  await page.locator(".plan-stand svg").first().waitFor();
  await camera.take("Planear un arranque", "Cualquiera", page, true);
  await page.context().close();
}
