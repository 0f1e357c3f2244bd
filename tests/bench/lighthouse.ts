import lighthouse, { desktopConfig } from "lighthouse";
import puppeteer, { type Page } from "puppeteer-core";
import { demo } from "../../seed/demo-data.ts";
import { TestServer } from "../browser/server.ts";

const WANTED = 95;
const JUDGED = ["performance", "accessibility", "best-practices"] as const;

const PANELS = ["cockpit", "fire guard", "ground power", "supervisor"];

/** The addresses of the pages that need no session. */
const PATHS: Record<string, string> = {
  "wall board": "/board",
  planning: "/plan",
  "hand signals": "/study",
  "look-alikes": "/study/alike",
  quiz: "/study/quiz",
  "aircraft types": "/types",
  "a type": "/types/kestle-four/1",
  devices: "/devices",
  enrolling: "/enrol",
};

const PAGES = ["sign-in", "ramp", ...PANELS, "record", ...Object.keys(PATHS)];

type Judge = (name: string, url: string) => Promise<void>;

/**
 * Runs Lighthouse in one signed-in window with a tablet's screen.
 * @param names the pages to judge, as this measurement prints them; every page if there are none
 * @returns true if every score reached `WANTED`
 */
export async function judgePages(names: readonly string[]): Promise<boolean> {
  const unknown = names.filter((name) => !PAGES.includes(name));
  if (unknown.length > 0) throw new Error(`no page ${unknown.join(", ")}; the pages: ${PAGES.join(", ")}`);
  const server = new TestServer();
  await server.start();
  const browser = await puppeteer.launch({
    executablePath: "/usr/bin/chromium-headless-shell",
    headless: "shell",
    args: ["--no-sandbox", "--disable-gpu", "--disable-background-networking", "--disable-component-update"],
    defaultViewport: { width: 1180, height: 820 },
  });
  const page = await browser.newPage();
  let good = true;
  const judge: Judge = async (name, url) => {
    if (names.length > 0 && !names.includes(name)) return;
    const flags = { disableStorageReset: true, onlyCategories: [...JUDGED], logLevel: "error" as const };
    const result = await lighthouse(url, flags, desktopConfig, page);
    const scores = JUDGED.map((c) => Math.round((result?.lhr.categories[c]?.score ?? 0) * 100));
    good &&= scores.every((s) => s >= WANTED);
    const shift = result?.lhr.audits["cumulative-layout-shift"]?.numericValue ?? Number.NaN;
    const said = JUDGED.map((c, i) => `${c} ${scores[i]}`).join(", ");
    console.log(`${name.padEnd(20)} ${said}, layout shift ${shift.toFixed(3)}`);
    for (const { id, title, score } of Object.values(result?.lhr.audits ?? {}))
      if (score !== null && score < 0.9) console.log(`    ${id}: ${title} (${score})`);
  };
  await judge("sign-in", server.url);
  const session = await plannedSession(page, server.url, judge);
  for (const post of PANELS) {
    await page.goto(session);
    await hold(page, post);
    await judge(post, session);
    await page.waitForSelector(".title-posts");
    await sheet(page, "Leave the post");
  }
  await judge("record", `${session}/record`);
  for (const [name, path] of Object.entries(PATHS)) await judge(name, server.url + path);
  await browser.close();
  await server.end();
  console.log(`each at least ${WANTED}: ${good ? "yes" : "no"}`);
  return good;
}

/** Signs in as a person who may hold every post and plans a start. Returns the address of its session. */
async function plannedSession(page: Page, url: string, judge: Judge) {
  await page.goto(url);
  await press(page, demo.people.find((p) => p.mayHold.length === 4)?.name ?? "");
  await page.waitForSelector(".ramp");
  await judge("ramp", url);
  await page.waitForSelector(".ramp");
  await press(page, "Plan a start");
  await press(page, "Morning Tide");
  await page.locator(".plan-page .field input").fill("Stand 4");
  await press(page, "Plan this start");
  await page.waitForSelector(".panel");
  return page.url();
}

const press = (page: Page, text: string) =>
  page.locator(`::-p-xpath(//button[contains(normalize-space(.), "${text}")])`).click();

async function sheet(page: Page, key: string): Promise<void> {
  await page.locator(".title-posts").click();
  await press(page, key);
  await press(page, "Close");
}

async function hold(page: Page, post: string): Promise<void> {
  await page.waitForSelector(".title-posts");
  await sheet(page, `Take ${post}`);
  await page.waitForSelector('.panel:not([data-kind="observer"])');
}
