import { AxeBuilder } from "@axe-core/playwright";
import type { Browser, BrowserContext, Locator, Page } from "playwright-core";
import { afterAll, beforeAll, expect, it } from "vitest";
import { demo } from "../../seed/demo-data.ts";
import { catalogue as english } from "../../shared/words/en/catalogue.ts";
import { catalogue as spanish } from "../../shared/words/es/catalogue.ts";
import { text as englishText } from "../../web/words/en/text.ts";
import { text as spanishText } from "../../web/words/es/text.ts";
import { leaves } from "../words/leaves.ts";
import { openBrowser } from "./seat.ts";
import { TestServer } from "./server.ts";

const PHONE = { width: 390, height: 844 };
const SLOW_MS = 240_000;

const server = new TestServer();
let browser: Browser;

beforeAll(async () => {
  await server.start();
  browser = await openBrowser();
}, 60_000);
afterAll(async () => {
  await browser?.close();
  await server.end();
});

async function open(locale: string): Promise<{ context: BrowserContext; page: Page }> {
  const context = await browser.newContext({ viewport: PHONE, locale });
  const page = await context.newPage();
  page.setDefaultTimeout(15_000);
  await page.goto(server.url);
  return { context, page };
}

const nameOf = (handle: string) => demo.people.find((p) => p.handle === handle)?.name ?? handle;
const press = (page: Page, name: string | RegExp) =>
  page
    .getByRole("button", { name, ...(typeof name === "string" ? { exact: true } : {}) })
    .first()
    .click();
const signIn = (page: Page, handle: string) => press(page, new RegExp(`^${nameOf(handle)}`));

async function faults(page: Page): Promise<string[]> {
  const { violations } = await new AxeBuilder({ page }).analyze();
  return violations.flatMap((v) => v.nodes.map((n) => `${v.id}: ${n.target.join(" ")}`));
}

/** Whole sentences of the English catalogues that Spanish says otherwise. */
const ENGLISH = new Set(
  [
    [leaves(english), leaves(spanish)],
    [leaves(englishText), leaves(spanishText)],
  ].flatMap(([one, other]) => {
    const own = new Set([...(other ?? [])].map(([, { words }]) => words));
    return [...(one ?? [])].map(([, { words }]) => words).filter((w) => w.length > 4 && !own.has(w));
  }),
);

/** What stands on the page, is read aloud or is asked for in English. The standard stop words are marked as English. */
async function englishOn(page: Page): Promise<string[]> {
  const said = await page.evaluate(() => {
    const all: string[] = [];
    const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_ELEMENT | NodeFilter.SHOW_TEXT);
    for (let node = walk.nextNode(); node; node = walk.nextNode()) {
      if (node instanceof Element) {
        for (const name of ["aria-label", "placeholder", "title"]) all.push(node.getAttribute(name) ?? "");
      } else if (!node.parentElement?.closest("[lang=en]")) all.push(node.textContent?.trim() ?? "");
    }
    return all;
  });
  return said.filter((s) => ENGLISH.has(s));
}

it("[LNG-2] a person's language is theirs again on the device, whatever the browser wishes", async () => {
  const { context, page } = await open("en-GB");
  await page.getByRole("heading", { name: "Sign in" }).waitFor();
  expect(await page.getAttribute("html", "lang")).toBe("en");
  await signIn(page, "merryn");
  await press(page, "Español");
  await page.getByRole("heading", { name: "La plataforma" }).waitFor();
  expect(await page.getAttribute("html", "lang")).toBe("es");
  await press(page, "Salir");
  await press(page, "English");
  await signIn(page, "austol");
  await page.getByRole("heading", { name: "The ramp" }).waitFor();
  await press(page, "Sign out");
  await signIn(page, "merryn");
  await page.getByRole("heading", { name: "La plataforma" }).waitFor();
  await page.reload();
  await page.getByRole("heading", { name: "La plataforma" }).waitFor();
  await context.close();
});

it("[LNG-2] a language that cannot be fetched is said so, and the one there is goes on", async () => {
  const { context, page } = await open("en-GB");
  await context.route(/\/assets\/spanish-/, (route) => route.abort());
  await press(page, "Español");
  await page.getByRole("alert").getByText("This language could not be fetched").waitFor();
  expect(await page.getAttribute("html", "lang")).toBe("en");
  await context.close();
});

it(
  "[LNG-4, LNG-5] a start up to a clearance read back, in Spanish on four phones, without a word of English or a fault axe finds",
  async () => {
    const crew = new Map<string, Page>();
    for (const handle of ["merryn", "austol", "cador", "lowen"]) {
      const { page } = await open("es-CO");
      await page.getByRole("heading", { name: "Entrar" }).waitFor();
      if (crew.size === 0) {
        expect(await faults(page)).toEqual([]);
        expect(await englishOn(page)).toEqual([]);
      }
      await signIn(page, handle);
      await page.getByRole("heading", { name: "La plataforma" }).waitFor();
      crew.set(handle, page);
    }
    const seat = (handle: string) => crew.get(handle) as Page;
    const supervisor = seat("merryn");
    await press(supervisor, "Planear un arranque");
    await press(supervisor, /^Little Penhale/);
    await supervisor.getByLabel("Lugar").fill("Hangar este");
    expect(await faults(supervisor)).toEqual([]);
    expect(await englishOn(supervisor)).toEqual([]);
    await press(supervisor, "Planear este arranque");
    await press(supervisor, "Puestos y sesión");
    const code = (await supervisor.locator(".code").textContent()) ?? "";
    expect(await englishOn(supervisor)).toEqual([]);
    await press(supervisor, "Tomar supervisor");
    await press(supervisor, "Cerrar");
    for (const [handle, key] of [
      ["austol", "Tomar cabina"],
      ["cador", "Tomar guardia de fuego"],
      ["lowen", "Tomar planta externa"],
    ] as const) {
      await seat(handle).getByLabel("Código de sesión").fill(code);
      await press(seat(handle), "Unirse");
      await press(seat(handle), "Tomar un puesto");
      await press(seat(handle), key);
      await press(seat(handle), "Cerrar");
    }
    const first = /^La tripulación está lista para arrancar motor (\d)\. ¿Lo autoriza\?$/;
    const asked = () => supervisor.locator(".ask h2").textContent();
    for (let round = 0; round < 120 && !first.test((await asked()) ?? ""); round += 1)
      for (const page of crew.values()) {
        if (first.test((await asked()) ?? "")) break;
        expect(await englishOn(page)).toEqual([]);
        await answerTop(page);
      }
    const n = first.exec((await asked()) ?? "")?.[1];
    expect(n).toBeDefined();
    expect(await faults(supervisor)).toEqual([]);
    await press(supervisor, "Autorizado a arrancar");
    const cockpit = seat("austol");
    await cockpit
      .getByRole("heading", { name: `Autorizado a arrancar motor ${n}. Colacione: ¿qué motor?` })
      .waitFor();
    expect(await faults(cockpit)).toEqual([]);
    expect(await englishOn(cockpit)).toEqual([]);
    await press(cockpit, "Colacionar");
    await press(cockpit, `Motor número ${n}`);
    await cockpit
      .getByRole("heading", { name: `Autorización vigente para motor ${n}. Accione el arrancador.` })
      .waitFor();
    for (const page of crew.values()) expect(await faults(page)).toEqual([]);
    const stops = await cockpit.locator(".stop").allInnerTexts();
    expect(stops.map((s) => s.replace(/\s+/g, " "))).toEqual(["Alto Hold", "Corte Cut", "Fuego Fire"]);
    await turnedOver(cockpit);
    for (const page of crew.values()) await page.context().close();
  },
  SLOW_MS,
);

/** Answers what stands before the person, if anything does, by its first key, and puts in what it needs. */
async function answerTop(page: Page): Promise<void> {
  const key = page.locator(".ask .answers .answer[data-tone=yes]:enabled").first();
  if ((await key.count()) === 0) return;
  const before = await page.locator(".ask h2").textContent();
  await key.click({ timeout: 2_000 }).catch(() => undefined);
  const entry = page.locator(".ask .entry");
  if ((await entry.count()) > 0) {
    const number = entry.locator("button.entry-number");
    const weather = entry.locator(".weather-row");
    const touch = async (row: Locator, times: number) => {
      for (let i = 0; i < times; i += 1) await row.locator(".step-key").nth(3).click();
    };
    if ((await number.count()) > 0) await number.click();
    else if ((await weather.count()) === 0) await touch(entry, 8);
    else {
      await touch(weather.first(), 1);
      // Warm enough that no engine must be preheated.
      await touch(weather.last(), 3);
    }
    await entry.locator(".answer[data-tone=yes]:enabled").first().click();
  }
  await page
    .waitForFunction((was) => document.querySelector(".ask h2")?.textContent !== was, before, {
      timeout: 3_000,
    })
    .catch(() => undefined);
}

/** The page turned over, as for writing from right to left: nothing runs out of it, and no engine changes its side. */
async function turnedOver(page: Page): Promise<void> {
  const keys = async (selector: string) =>
    page.locator(selector).evaluateAll((all) =>
      all
        .map((e) => ({ x: e.getBoundingClientRect().x, words: e.textContent?.trim() ?? "" }))
        .sort((a, b) => a.x - b.x)
        .map((e) => e.words),
    );
  const seen = async () => ({
    engines: await keys(".plan-keys .engine-number"),
    sides: await keys(".plan-side"),
    stops: await keys(".stop"),
  });
  const runsOut = () =>
    page.evaluate(() => {
      const { scrollWidth, clientWidth } = document.documentElement;
      return scrollWidth - clientWidth;
    });
  const before = await seen();
  expect(before.engines.length).toBeGreaterThan(1);
  await page.evaluate(() => {
    document.documentElement.dir = "rtl";
  });
  expect(await seen()).toEqual(before);
  expect(await runsOut()).toBe(0);
  await press(page, /^Corte/);
  const picked = await keys(".number-keys .number-key");
  expect(picked).toEqual(before.engines);
  expect(await runsOut()).toBe(0);
  await press(page, "Cerrar");
}
