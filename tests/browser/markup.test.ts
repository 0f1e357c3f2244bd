import { randomUUID } from "node:crypto";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, expect, it } from "vitest";
import { PROTOCOL } from "../../shared/protocol/version.ts";
import { TestPanel } from "../live/panel.ts";
import { openBrowser, Seat } from "./seat.ts";
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

/** Short enough for every text field. */
const MARKUP = `<img src=x onerror="window.ran=1">`;

/**
 * Inserts scripts into the page, as unescaped markup would. Returns whether one ran and which directives refused
 * them.
 */
const inject = (page: Page) =>
  page.evaluate(async () => {
    const ran = () => "injected" in window;
    const refused = new Set<string>();
    // Resolves when both were refused or one of them ran.
    const over = new Promise<void>((resolve) => {
      const look = () => {
        if (refused.size === 2 || ran()) resolve();
        else setTimeout(look, 10);
      };
      addEventListener("securitypolicyviolation", (e) => {
        if (e.effectiveDirective.startsWith("script-src")) refused.add(e.effectiveDirective);
      });
      look();
    });
    const script = document.createElement("script");
    script.textContent = "window.injected = 1";
    document.body.append(script);
    document.body.insertAdjacentHTML("beforeend", '<img src="/none.png" onerror="window.injected = 1">');
    await over;
    return { ran: ran(), refused: [...refused].sort() };
  });

it("[SEC-10] [SRV-6] markup in every field is shown as typed and never runs; the policy refuses a script inserted into a page", async () => {
  const seat = await Seat.open(browser, server.url, "merryn");
  const token = await seat.token();
  const ask = async (method: string, path: string, body: object) => {
    const headers = { authorization: `Bearer ${token}`, "content-type": "application/json" };
    const reply = await fetch(server.url + path, { method, headers, body: JSON.stringify(body) });
    if (!reply.ok) throw new Error(await reply.text());
    return reply.json();
  };
  const { id } = await ask("POST", "/api/sessions", {
    commandId: randomUUID(),
    aircraft: "QX-PEN",
    place: MARKUP,
    powerSource: "batteries",
    crew: { cockpit: null, fireGuard: null, groundPower: null, supervisor: null },
  });
  await ask("POST", "/api/types", { id: "odd", name: MARKUP, from: { id: "penhale-twin", version: 1 } });
  const panel = await new TestPanel(server.url, { token, proto: PROTOCOL }).settled();
  await panel.command(id, { type: "claimPost", post: "supervisor" });
  const said = [
    await panel.command(id, { type: "send", kind: "hold", channel: "panel", note: MARKUP }),
    await panel.command(id, { type: "send", kind: "fire", engine: 1, channel: "panel", note: MARKUP }),
  ];
  for (const answer of said) expect(answer.status).toBe("accepted");
  panel.close();

  const { page } = seat;
  for (const path of ["/", `/session/${id}`, `/session/${id}/record`, "/types", "/types/odd/1"]) {
    await page.goto(server.url + path);
    await page
      .getByText(MARKUP)
      .first()
      .waitFor({ state: "attached" })
      .catch(() => {
        throw new Error(`not shown on ${path}`);
      });
    const found = await page.evaluate(() => ({
      ran: "ran" in window,
      images: document.querySelectorAll('img[src="x"]').length,
    }));
    expect(found, path).toEqual({ ran: false, images: 0 });
    expect(await inject(page), path).toEqual({ ran: false, refused: ["script-src-attr", "script-src-elem"] });
  }
  // The name of a device, on the page of devices.
  await page.goto(`${server.url}/devices`);
  await page.getByLabel("Name of the new device").fill(MARKUP);
  await seat.press("Show a code");
  await page.getByText(MARKUP).first().waitFor();
  expect(await page.evaluate(() => "ran" in window)).toBe(false);

  // Without the policy the same scripts run, so it is the policy that stops them.
  const lax = await (await browser.newContext({ bypassCSP: true })).newPage();
  await lax.goto(server.url);
  expect((await inject(lax)).ran).toBe(true);
});
