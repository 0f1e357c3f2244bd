import type { Browser, BrowserContext, Locator, Page } from "playwright-core";
import { afterAll, beforeAll, expect, it } from "vitest";
import { demo } from "../../seed/demo-data.ts";
import { VERSION } from "../../server/version.ts";
import { parts as spanishParts } from "../../web/words/es/parts.ts";
import { text as spanishText } from "../../web/words/es/text.ts";
import { types as spanishTypes } from "../../web/words/es/types.ts";
import { laterWords } from "../../web/words/later.ts";
import { englishOn } from "./englishOn.ts";
import { axeFaults } from "./measure.ts";
import { KEEPS_NOTHING, key, openBrowser, PATIENCE, POSTS_KEY, quicken } from "./seat.ts";
import { TestServer } from "./server.ts";

const PHONE = { width: 390, height: 844 };
const SIZES = { phone: PHONE, tablet: { width: 1180, height: 820 }, desktop: { width: 1600, height: 1000 } };

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

async function open(locale: string): Promise<{ context: BrowserContext; page: Page }> {
  const context = await browser.newContext({ viewport: PHONE, locale, ...KEEPS_NOTHING });
  const page = await context.newPage();
  page.setDefaultTimeout(PATIENCE);
  await quicken(page);
  await page.goto(server.url);
  return { context, page };
}

const nameOf = (handle: string) => demo.people.find((p) => p.handle === handle)?.name ?? handle;
const press = (page: Page, name: string | RegExp) => key(name, page).click();
const signIn = (page: Page, handle: string) => press(page, new RegExp(`^${nameOf(handle)}`));

it("[LNG-13] finds English words, but none that are marked as English or that somebody entered", async () => {
  const page = await browser.newPage();
  const gauge = demo.types[0]?.gauges[0]?.name;
  await page.setContent(
    `<html lang="es"><p>Alto. <b>Which engine?</b></p><p lang="en">Hold</p><i aria-label="Sign in"></i><p>${gauge}</p></html>`,
  );
  expect(await englishOn(page)).toEqual(["which: Which engine?", "engine: Which engine?", "sign: Sign in"]);
  await page.close();
});

it("[LNG-13, PRN-14] [OPS-26] no page outside a session shows an English word to a person who chose Spanish", async () => {
  const { context, page } = await open("es-CO");
  const found: string[] = [];
  const { app, ramp } = spanishText;
  const { rampPage } = laterWords("es");
  const look = async (what: string) => {
    await page.waitForFunction(
      (words) => document.querySelector("h1") && !words.some((w) => document.body.textContent?.includes(w)),
      [app.fetching, ramp.asking],
    );
    found.push(...(await englishOn(page)).map((words) => `${what}: ${words}`));
  };
  const turnTo = async (path: string) => {
    await page.evaluate((to) => {
      history.pushState(null, "", to);
      dispatchEvent(new PopStateEvent("popstate"));
    }, path);
    await look(path);
  };
  await page.getByRole("heading", { name: "Entrar" }).waitFor();
  await page.locator(".sign-in .version", { hasText: VERSION }).waitFor();
  await signIn(page, "merryn");
  await page.getByRole("heading", { name: "La plataforma" }).waitFor();
  await look("ramp");
  await press(page, rampPage.device);
  const sheet = page.getByRole("dialog", { name: rampPage.device });
  await sheet.locator(".version", { hasText: VERSION }).waitFor();
  await look(rampPage.device);
  await page.keyboard.press("Escape");
  const [type] = demo.types;
  const at = `/types/${type?.id}/${type?.version}`;
  for (const path of ["/plan", "/board", "/devices", "/people", "/enrol", "/types", at]) await turnTo(path);
  for (const path of ["/aircraft", "/aircraft/QX-KIV", "/aircraft/new", "/first"]) await turnTo(path);
  for (const path of ["/study", "/study/alike", "/study/quiz", "/session/0/record", "/types/0/1"])
    await turnTo(path);
  await turnTo(at);
  expect(await printed(page)).toEqual({
    keys: 0,
    ground: "rgb(255, 255, 255)",
    ink: "rgb(0, 0, 0)",
    cautions: 1,
    tables: true,
    runsOut: false,
  });
  await press(page, spanishTypes.draft);
  await page.getByRole("navigation", { name: spanishTypes.parts }).waitFor();
  await page
    .getByLabel(spanishParts.name ?? "", { exact: true })
    .first()
    .fill("");
  await page.getByRole("list", { name: spanishTypes.faults }).waitFor();
  const sections = page.getByRole("navigation", { name: spanishTypes.parts }).getByRole("button");
  for (let i = 0; i < (await sections.count()); i += 1) {
    await sections.nth(i).click();
    await look(`section ${i}`);
  }
  expect(found).toEqual([]);
  await context.close();
});

it("[LNG-2] a person's language returns with their sign-in, whatever language the browser prefers", async () => {
  const { context, page } = await open("en-GB");
  await page.getByRole("heading", { name: "Sign in" }).waitFor();
  expect(await page.getAttribute("html", "lang")).toBe("en");
  await signIn(page, "merryn");
  await press(page, "This device");
  await press(page, "Español");
  await press(page, "Cerrar");
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

it("[LNG-2] a language that cannot be fetched is reported, and the current language stays", async () => {
  const { context, page } = await open("en-GB");
  await context.route(/\/assets\/spanish-/, (route) => route.abort());
  await press(page, "Español");
  await page.getByRole("alert").getByText("This language could not be loaded").waitFor();
  expect(await page.getAttribute("html", "lang")).toBe("en");
  await context.close();
});

it("[LNG-4, LNG-5, LNG-13, PAN-28] [VIS-40] a start up to a clearance read back, in Spanish on four phones, has no English word and no fault that axe finds", async () => {
  const crew = new Map<string, Page>();
  for (const handle of ["merryn", "austol", "cador", "lowen"]) {
    const { page } = await open("es-CO");
    await page.getByRole("heading", { name: "Entrar" }).waitFor();
    if (crew.size === 0) {
      expect(await axeFaults(page)).toEqual([]);
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
  await supervisor.getByRole("textbox", { name: "Lugar" }).fill("Hangar este");
  expect(await axeFaults(supervisor)).toEqual([]);
  expect(await englishOn(supervisor)).toEqual([]);
  await press(supervisor, "Planear este arranque");
  await press(supervisor, POSTS_KEY);
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
    if (handle === "cador") {
      await seat(handle).locator(".panel .plan").waitFor();
      await turnedOver(seat(handle), "observer");
    }
    await press(seat(handle), "Tomar un puesto");
    await press(seat(handle), key);
    await press(seat(handle), "Cerrar");
  }
  for (const [handle, page] of crew) await turnedOver(page, handle);
  await press(supervisor, "Mirar atrás");
  await supervisor.locator(".panel[data-kind='past']").waitFor();
  expect(await englishOn(supervisor)).toEqual([]);
  await turnedOver(supervisor, "looking back");
  await press(supervisor, "Volver a ahora");
  // A no-break space keeps the number on one line with the word before it.
  const first = /^La tripulación está lista para arrancar motor\s(\d)\. ¿Lo autoriza\?$/;
  const asked = () => supervisor.locator(".ask h2").textContent();
  for (const until = Date.now() + 4 * PATIENCE; Date.now() < until && !first.test((await asked()) ?? ""); )
    for (const page of crew.values()) {
      if (first.test((await asked()) ?? "")) break;
      if (await answerTop(page, first)) expect(await englishOn(page)).toEqual([]);
    }
  const n = first.exec((await asked()) ?? "")?.[1];
  expect(n).toBeDefined();
  expect(await axeFaults(supervisor)).toEqual([]);
  await press(supervisor, "Autorizado a arrancar");
  const cockpit = seat("austol");
  await cockpit
    .getByRole("heading", { name: `Autorizado a arrancar motor ${n}. Colacione: ¿qué motor?` })
    .waitFor();
  expect(await axeFaults(cockpit)).toEqual([]);
  expect(await englishOn(cockpit)).toEqual([]);
  await press(cockpit, "Colacionar");
  await press(cockpit, `Motor número ${n}`);
  await cockpit
    .getByRole("heading", { name: `Tiene autorización para motor ${n}. Accione el arrancador.` })
    .waitFor();
  for (const page of crew.values()) expect(await axeFaults(page)).toEqual([]);
  const stops = await cockpit.locator(".stop").allInnerTexts();
  expect(stops.map((s) => s.replace(/\s+/g, " "))).toEqual(["Alto Hold", "Corte Cut", "Fuego Fire"]);
  await picksTurnedOver(cockpit);
  for (const page of crew.values()) await page.context().close();
});

/**
 * Answers the ask in front, unless it matches `last`, by its first yes key, and enters the figure it needs. Returns
 * whether there was one.
 */
async function answerTop(page: Page, last: RegExp): Promise<boolean> {
  // Read and touch in one step: the ask may change in between.
  const before = await page.evaluate((stop) => {
    const asked = document.querySelector(".ask h2")?.textContent ?? "";
    const key = document.querySelector<HTMLElement>(".ask .answers .answer[data-tone=yes]:enabled");
    if (!key || new RegExp(stop).test(asked)) return null;
    key.click();
    return asked;
  }, last.source);
  if (before === null) return false;
  const changed = (was: string) => document.querySelector(".ask h2")?.textContent !== was;
  const entry = page.locator(".ask .entry");
  // An entry is drawn a moment after its key was touched: its part of the page is loaded by itself.
  const drawn = entry.locator(".step-key").first().waitFor({ timeout: 3_000 });
  await Promise.race([drawn, page.waitForFunction(changed, before, { timeout: 3_000 })]).catch(() => null);
  if ((await entry.count()) > 0) {
    const scale = entry.locator(".scale");
    const weather = entry.locator(".weather-row");
    const touch = async (row: Locator, times: number) => {
      for (let i = 0; i < times; i += 1) await row.locator(".step-key").nth(3).click();
    };
    if ((await scale.count()) > 0) for (const i of [2, 1]) await entry.locator(".step-key").nth(i).click();
    else if ((await weather.count()) === 0) await touch(entry, 8);
    else {
      await touch(weather.first(), 1);
      // Warm enough that no engine must be preheated.
      await weather.nth(1).locator(".small-key").click();
      await touch(weather.last(), 3);
    }
    await entry.locator(".answer[data-tone=yes]:enabled").first().click();
  }
  await page.waitForFunction(changed, before, { timeout: 3_000 }).catch(() => undefined);
  return true;
}

/** Measures the page as the browser prints it, after the night light was on. */
async function printed(page: Page) {
  await page.evaluate(() => document.documentElement.setAttribute("data-mode", "night"));
  await page.emulateMedia({ media: "print" });
  const found = await page.evaluate(() => {
    const seen = (selector: string) =>
      [...document.querySelectorAll(selector)].filter((e) => e.getBoundingClientRect().height > 0).length;
    const { backgroundColor, color } = getComputedStyle(document.body);
    const { scrollWidth, clientWidth } = document.documentElement;
    return {
      keys: seen("button, select, input, .stops, .section-keys"),
      ground: backgroundColor,
      ink: color,
      cautions: seen(".caution"),
      tables: seen("table") > 10,
      runsOut: scrollWidth > clientWidth,
    };
  });
  await page.emulateMedia({ media: null });
  return found;
}

/** Returns the positions that a person learns on a panel, and the faults of its layout. */
async function layout(page: Page) {
  return page.evaluate(() => {
    const box = (e: Element) => e.getBoundingClientRect();
    const words = (selector: string) =>
      [...document.querySelectorAll(selector)]
        .sort((a, b) => box(a).x - box(b).x)
        .map((e) => e.textContent?.trim() ?? "");
    const places = [...document.querySelectorAll(".stop")].map((e) => {
      const { x, y, width } = box(e);
      return [e.textContent, Math.round(x), Math.round(y), Math.round(width)].join(" ");
    });
    const keys = [...document.querySelectorAll("button")].filter((e) => box(e).width > 0);
    const over = keys.flatMap((one, i) =>
      keys.slice(i + 1).flatMap((other) => {
        const [a, b] = [box(one), box(other)];
        const across = Math.min(a.right, b.right) - Math.max(a.left, b.left);
        const down = Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top);
        const beside = one.parentElement?.parentElement === other.parentElement?.parentElement;
        return beside && across > 1 && down > 1 ? [`${one.textContent} over ${other.textContent}`] : [];
      }),
    );
    const { clientWidth } = document.documentElement;
    const out = keys.filter((e) => box(e).left < -1 || box(e).right > clientWidth + 1);
    // A figure at the head of its text, whose unit stands before it.
    const turned: string[] = [];
    const texts = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    const at = (n: Node, i: number) => {
      const range = document.createRange();
      range.setStart(n, i);
      range.setEnd(n, i + 1);
      return range.getBoundingClientRect();
    };
    for (let n = texts.nextNode(); n; n = texts.nextNode()) {
      const found = /^\s*(?=\d)[\d.:]+\s*[a-z°]/i.exec(n.textContent ?? "");
      if (!found) continue;
      const [digit, unit] = [at(n, found[0].search(/\d/)), at(n, found[0].length - 1)];
      if (digit.width > 0 && digit.top === unit.top && digit.left > unit.left)
        turned.push(n.textContent ?? "");
    }
    return {
      kept: {
        engines: words(".plan-keys .engine-number"),
        sides: words(".plan-side"),
        stops: words(".stop"),
        places,
      },
      faults: {
        over,
        turned,
        out: out.map((e) => e.textContent),
        runsOut: document.documentElement.scrollWidth - clientWidth,
      },
    };
  });
}

const NO_FAULT = { over: [], turned: [], out: [], runsOut: 0 };

/**
 * Mirrors the page as for a right-to-left language, at every size: nothing overflows, no key overlaps another, and
 * every engine and every stop keeps its place.
 */
async function turnedOver(page: Page, whose: string): Promise<void> {
  const turn = (dir: "ltr" | "rtl") =>
    page.evaluate((to) => {
      document.documentElement.dir = to;
    }, dir);
  for (const [name, size] of Object.entries(SIZES)) {
    await page.setViewportSize(size);
    await turn("ltr");
    const before = await layout(page);
    await turn("rtl");
    const after = await layout(page);
    const where = `${whose}, ${name}`;
    expect(before.faults, where).toEqual(NO_FAULT);
    expect(after.faults, where).toEqual(NO_FAULT);
    expect(after.kept, where).toEqual(before.kept);
    expect(after.kept.places, where).toHaveLength(3);
  }
  await turn("ltr");
  await page.setViewportSize(PHONE);
}

/** The engine numbers of the cut sheet stand in the same order as on the plan, also when mirrored. */
async function picksTurnedOver(page: Page): Promise<void> {
  const { kept } = await layout(page);
  expect(kept.engines.length).toBeGreaterThan(1);
  await page.evaluate(() => {
    document.documentElement.dir = "rtl";
  });
  await press(page, /^Corte/);
  const picked = await page
    .locator(".number-keys .number-key")
    .evaluateAll((all) =>
      all
        .sort((a, b) => a.getBoundingClientRect().x - b.getBoundingClientRect().x)
        .map((e) => e.textContent?.trim()),
    );
  expect(picked).toEqual(kept.engines);
  expect((await layout(page)).faults.runsOut).toBe(0);
  await press(page, "Cerrar");
}
