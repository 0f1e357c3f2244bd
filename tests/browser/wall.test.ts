import type { Browser } from "playwright-core";
import { afterAll, beforeAll, expect, it } from "vitest";
import type { SessionState } from "../../shared/session/state.ts";
import type { SessionRow } from "../../web/net/api.ts";
import { openBrowser, Seat } from "./seat.ts";
import { TestServer } from "./server.ts";

const SIZES = [
  { width: 1920, height: 1080 },
  { width: 1180, height: 820 },
  { width: 390, height: 844 },
];
const STAGES = ["powerUp", "starting", "groundPower", "warmUp", "stopping"] as const;

const server = new TestServer();
let browser: Browser;
let wall: Seat;
/** Aircraft on the board. The server's answers are multiplied, because the demo has fewer aircraft. */
let count = 1;

beforeAll(async () => {
  await server.start();
  browser = await openBrowser();
  wall = await Seat.open(browser, server.url, "merryn", SIZES[0]);
  const { page } = wall;
  await page.goto(`${server.url}/plan`);
  await wall.press(/^Windhover/);
  await page.getByRole("textbox", { name: "Place" }).fill("Stand 4");
  await wall.press("Plan this start");
  await page.locator(".panel").waitFor();
  await page.route(/\/api\/sessions(\/[^/]+)?$/, async (route) => {
    const [, id] = /sessions\/([^/]+)$/.exec(route.request().url()) ?? [];
    const n = Number(/~(\d+)$/.exec(id ?? "")?.[1] ?? 0);
    const url = route.request().url().replace(/~\d+$/, "");
    // The server closes a connection that nobody used for five seconds, perhaps just as it is used again.
    const real = await route.fetch({ url, maxRetries: 3 });
    const body = await real.json();
    if (id === undefined) {
      const [row] = body as SessionRow[];
      const rows = Array.from({ length: count }, (_, i) => ({
        ...row,
        id: `${row?.id}~${i}`,
        aircraft: `QX-W${String.fromCharCode(65 + i)}M`,
        stage: STAGES[i % STAGES.length],
        // The last in the list is the most urgent.
        needs: i === count - 1 ? 3 : 0,
      }));
      await route.fulfill({ response: real, json: rows });
    } else await route.fulfill({ response: real, json: { ...body, state: shown(body.state, n) } });
  });
  await page.goto(`${server.url}/board`);
});
afterAll(async () => {
  await wall?.page.unrouteAll({ behavior: "ignoreErrors" });
  await browser?.close();
  await server.end();
});

/** Returns the state with engines in other lives; a fire on the last aircraft, a hold on every third. */
function shown(state: SessionState, n: number): SessionState {
  const by = { name: "Bartholomew Trevanion", id: "merryn", post: "supervisor", at: state.at - 125_000 };
  const engines = state.engines.map((e, i) =>
    i < n % 4 ? { ...e, life: { is: "stable", since: state.at } } : e,
  );
  const fires =
    n === count - 1 ? [{ id: 1, engine: 2, place: "nacelle", by, seats: [], engines: [2], places: [] }] : [];
  const holds = n % 3 === 1 ? [{ id: 2, by, note: null, signal: 2 }] : [];
  return { ...state, engines, fires, holds } as unknown as SessionState;
}

interface Seen {
  faults: string[];
  first: string;
  px: number;
  /** Width of the page's window, CSS pixels. */
  width: number;
  /** True if the rows fill the list's height but for 3 percent. */
  fills: boolean;
  rows: number;
}

const look = (): Promise<Seen> =>
  wall.page.evaluate(() => {
    const faults: string[] = [];
    const list = document.querySelector(".wall-rows") as HTMLElement;
    const rows = [...document.querySelectorAll<HTMLElement>(".wall-row")];
    const scrolls = getComputedStyle(list).overflowY === "auto";
    if (document.documentElement.scrollWidth > innerWidth) faults.push("the page is wider than the screen");
    const frame = list.getBoundingClientRect();
    for (const row of rows) {
      const box = row.getBoundingClientRect();
      const name = row.textContent?.slice(0, 12);
      if (getComputedStyle(row).visibility === "hidden") faults.push(`${name} is not shown`);
      if (!scrolls && box.bottom > frame.bottom + 1) faults.push(`${name} is below the screen`);
      if (row.scrollHeight > row.clientHeight + 1 || row.scrollWidth > row.clientWidth)
        faults.push(`${name} overflows`);
      for (const part of row.querySelectorAll("span, strong, b, svg")) {
        const p = part.getBoundingClientRect();
        if (
          p.left < box.left - 1 ||
          p.right > box.right + 1 ||
          p.top < box.top - 1 ||
          p.bottom > box.bottom + 1
        )
          faults.push(`${name}: ${part.textContent} leaves its row`);
      }
      const parts = [...row.querySelectorAll(".wall-line > *")].map((e) => e.getBoundingClientRect());
      parts.forEach((a, i) => {
        for (const b of parts.slice(i + 1))
          if (a.left < b.right - 1 && b.left < a.right - 1 && a.top < b.bottom - 1 && b.top < a.bottom - 1)
            faults.push(`${name}: two of its parts overlap`);
      });
      for (const other of rows) {
        const o = other.getBoundingClientRect();
        if (other !== row && box.left < o.right - 1 && o.left < box.right - 1)
          if (box.top < o.bottom - 1 && o.top < box.bottom - 1) faults.push(`${name} overlaps another row`);
      }
    }
    for (const e of document.querySelectorAll(".wall-head, .wall-head *:not(svg, svg *)"))
      if (e.scrollWidth > e.clientWidth + 1 && getComputedStyle(e).display !== "inline")
        faults.push(`${e.textContent} does not fit in the head`);
    return {
      faults,
      first: rows[0]?.textContent ?? "",
      px: Number.parseFloat(getComputedStyle(list).fontSize),
      width: innerWidth,
      fills: (rows.at(-1)?.getBoundingClientRect().bottom ?? 0) / frame.bottom > 0.97,
      rows: rows.length,
    };
  });

it("[PAN-25] [PAN-62] one aircraft fills the board and twelve fit, in both languages; on a telephone the most urgent is first", async () => {
  const { page } = wall;
  const sizes: Record<string, number> = {};
  for (const language of ["en", "es"] as const) {
    for (count of [1, 4, 12]) {
      await page.evaluate((l) => {
        const { person } = JSON.parse(sessionStorage.getItem("chockside.signIn") ?? "{}");
        localStorage.setItem(`chockside.language.${person.id}`, l);
      }, language);
      await page.reload();
      await expect.poll(() => page.locator(".wall-engine").count()).toBe(4 * count);
      await page.evaluate(() => document.fonts.ready);
      for (const size of SIZES) {
        await page.setViewportSize(size);
        const name = `${language} ${count} at ${size.width}`;
        const filled = size.width > 600;
        // A busy machine may draw some time after the size changed.
        await expect
          .poll(look, { message: name })
          .toMatchObject({ width: size.width, faults: [], rows: count, ...(filled && { fills: true }) });
        const seen = await look();
        expect(seen.first, name).toMatch(/^QX-W.M.*(Fire at number 2|Fuego en motor 2|Fuego)/);
        expect(seen.px, name).toBeGreaterThanOrEqual(16);
        sizes[`${language} ${count} ${size.width}`] = seen.px;
      }
    }
  }
  // Fewer aircraft are larger, and one is larger than what is read from 3 m.
  for (const width of [1920, 1180])
    expect(sizes[`en 1 ${width}`]).toBeGreaterThan((sizes[`en 12 ${width}`] ?? 0) * 2);
  expect(sizes["en 1 1920"]).toBeGreaterThan(72);
});

it("[PAN-62] where less than 14 mm fit, the board says from how far it can be read, and counts what does not fit at all", async () => {
  const { page } = wall;
  count = 12;
  await page.reload();
  await page.setViewportSize({ width: 1024, height: 600 });
  await wall.sees(/^(Can be read from|Se lee desde) [0-2][.,]\d m$/);
  await page.setViewportSize({ width: 640, height: 360 });
  await wall.sees(/(more aircraft|aviones más|avión más)/);
  expect(await page.locator(".wall-from").count()).toBe(1);
});

it("[PAN-67] a board on which nothing is started says so, with nothing cut off", async () => {
  const { page } = wall;
  count = 0;
  await page.setViewportSize({ width: 1180, height: 820 });
  await page.reload();
  await wall.sees(/^(No aircraft is being started|No se arranca ningún avión)/);
  await page.evaluate(() => document.fonts.ready);
  await expect.poll(look).toMatchObject({ faults: [], rows: 1, fills: true });
});
