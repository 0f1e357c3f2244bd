import lighthouse, { desktopConfig } from "lighthouse";
import puppeteer from "puppeteer-core";
import { demo } from "../../seed/demo-data.ts";
import { TestServer } from "../browser/server.ts";

const WANTED = 95;
const JUDGED = ["performance", "accessibility", "best-practices"] as const;

/** Lighthouse on sign-in, the ramp and a post's panel, each as one window sees it: signed in, on a tablet's screen. */
export async function judgePages(): Promise<boolean> {
  const server = new TestServer();
  await server.start();
  const browser = await puppeteer.launch({
    executablePath: "/usr/bin/chromium",
    args: ["--no-sandbox", "--disable-gpu", "--disable-background-networking", "--disable-component-update"],
    defaultViewport: { width: 1180, height: 820 },
  });
  const page = await browser.newPage();
  let good = true;
  const judge = async (name: string, url: string) => {
    const flags = { disableStorageReset: true, onlyCategories: [...JUDGED], logLevel: "error" as const };
    const result = await lighthouse(url, flags, desktopConfig, page);
    const scores = JUDGED.map((c) => Math.round((result?.lhr.categories[c]?.score ?? 0) * 100));
    good &&= scores.every((s) => s >= WANTED);
    console.log(`${name.padEnd(16)} ${JUDGED.map((c, i) => `${c} ${scores[i]}`).join(", ")}`);
    for (const { id, title, score } of Object.values(result?.lhr.audits ?? {}))
      if (score !== null && score < 0.9) console.log(`    ${id}: ${title} (${score})`);
  };
  await judge("sign-in", server.url);
  await page.goto(server.url);
  const name = demo.people.find((p) => p.mayHold.includes("cockpit"))?.name ?? "";
  const press = (text: string) =>
    page.locator(`::-p-xpath(//button[contains(normalize-space(.), "${text}")])`).click();
  await press(name);
  await page.waitForSelector(".ramp");
  await judge("ramp", server.url);
  await page.waitForSelector(".ramp");
  await press("Plan a start");
  await press("Morning Tide");
  await page.locator(".plan-page input").fill("Stand 4");
  await press("Plan this start");
  await page.waitForSelector(".panel");
  await page.locator(".title-posts").click();
  await press("Take cockpit");
  await page.waitForSelector('.panel[data-kind="cockpit"]');
  await judge("cockpit's panel", page.url());
  await browser.close();
  await server.end();
  console.log(`each at least ${WANTED}: ${good ? "yes" : "no"}`);
  return good;
}
