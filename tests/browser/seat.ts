import {
  type Browser,
  type BrowserContext,
  chromium,
  errors,
  type Locator,
  type Page,
} from "playwright-core";
import { demo } from "../../seed/demo-data.ts";

export function openBrowser(): Promise<Browser> {
  return chromium.launch({
    executablePath: "/usr/bin/chromium",
    args: [
      "--no-sandbox",
      "--disable-gpu",
      "--disable-background-networking",
      "--disable-component-update",
      "--disable-sync",
    ],
  });
}

/** What a person touches by its name: a button, or one of several of which one is chosen. */
export function key(name: string | RegExp, within: Locator | Page): Locator {
  const named = { name, ...(typeof name === "string" ? { exact: true } : {}) };
  return within.getByRole("button", named).or(within.getByRole("radio", named)).first();
}

/** The title block's key, in either language. */
export const POSTS_KEY = /(Posts and session|Puestos y sesión)$/;

/** How long a test waits for what should come, in milliseconds. Long, because a busy machine is slow and not wrong. */
export const PATIENCE = 60_000;
/** The first page of whoever is signed in, in either language. */
const RAMP = /^(The ramp|La plataforma)$/;

/** Milliseconds of one look. Playwright looks ten times a second at first, and only twice a second after this. */
const LOOKING = 2_000;

/** Milliseconds after which a key that cannot be touched is looked for again: another ask may cover it. */
const COVERED = 5_000;

/** Resolves soon after that is so. @throws Error when it is not within the patience of a test */
async function soon(
  what: Locator,
  state: "visible" | "detached" = "visible",
  patience = PATIENCE,
): Promise<void> {
  const until = Date.now() + patience;
  for (;;)
    try {
      return await what.waitFor({ state, timeout: LOOKING });
    } catch (error) {
      if (!(error instanceof errors.TimeoutError) || Date.now() > until) throw error;
    }
}

/** One person at one panel, in a browser window of their own. What they do is touch; what they wait for is words. */
export class Seat {
  readonly page: Page;
  readonly context: BrowserContext;
  /** What the page complained of: the tests end with none. */
  readonly complaints: string[] = [];

  private constructor(context: BrowserContext, page: Page) {
    this.context = context;
    this.page = page;
    page.setDefaultTimeout(PATIENCE);
    page.on("pageerror", (e) => this.complaints.push(e.message));
    page.on("console", (m) => {
      if (m.type() === "error" && !m.text().includes("WebSocket")) this.complaints.push(m.text());
    });
  }

  /** Signs in by the demonstration's one-touch row. */
  static async open(
    browser: Browser,
    url: string,
    handle: string,
    viewport = { width: 1180, height: 820 },
  ): Promise<Seat> {
    return Seat.inContext(await browser.newContext({ viewport, acceptDownloads: true }), url, handle);
  }

  /** In a new tab of a browser that is open already. */
  static async inContext(context: BrowserContext, url: string, handle: string): Promise<Seat> {
    const seat = new Seat(context, await context.newPage());
    await seat.page.goto(url);
    const name = demo.people.find((p) => p.handle === handle)?.name ?? handle;
    await seat.press(new RegExp(`^${name}`));
    await seat.page.getByRole("heading", { name: RAMP }).waitFor();
    return seat;
  }

  /** A second tab of the same browser on the same page. */
  async anotherTab(): Promise<Seat> {
    const [page] = await Promise.all([
      this.context.waitForEvent("page"),
      this.page.evaluate(() => void window.open(location.href)),
    ]);
    return new Seat(this.context, page);
  }

  /** Turns to another page of the app, as its own keys do: nothing is loaded anew. */
  async turnTo(path: string): Promise<void> {
    await this.page.evaluate((to) => {
      history.pushState(null, "", to);
      dispatchEvent(new PopStateEvent("popstate"));
    }, path);
  }

  async press(name: string | RegExp, within: Locator | Page = this.page, patience = PATIENCE): Promise<void> {
    const touched = key(name, within);
    await soon(touched, "visible", patience);
    await this.#settled();
    await touched.click({ timeout: patience });
  }

  /** Answers take no touch for half a second: waits for its end, where Playwright would look again only later. */
  #settled(): Promise<void> {
    return this.page.evaluate(async () => {
      const answers = document.querySelector(".ask > .answers");
      await Promise.allSettled(answers?.getAnimations().map((a) => a.finished) ?? []);
    });
  }

  /** Opens posts and session: what stands on its key, and is said first of it, changes with who is there. */
  async openPosts(): Promise<void> {
    await this.press(POSTS_KEY);
  }

  async sees(words: string | RegExp): Promise<void> {
    await soon(this.page.getByText(words).filter({ visible: true }).first());
  }

  /** Brings what is asked to the front, by the queue when something else stands there, and waits for it. */
  async asked(words: string): Promise<void> {
    const top = this.page.getByRole("heading", { level: 2, name: words, exact: true });
    const queued = this.page.locator(".queue-row", { hasText: words }).first();
    await soon(top.or(queued).first()).catch(async () => {
      throw new Error(`not asked: ${words}\n${await this.page.locator(".panel-ask").textContent()}`);
    });
    // It may come to the front by itself while the hand is on its way to the queue.
    if (!(await top.isVisible())) await Promise.race([queued.click().catch(() => undefined), soon(top)]);
    await soon(top);
  }

  async askedNoMore(words: string): Promise<void> {
    await soon(this.page.getByRole("heading", { level: 2, name: words, exact: true }), "detached");
  }

  /** Answers what is asked with one key, and waits until it is no longer asked. */
  async answer(words: string, key: string | RegExp): Promise<void> {
    const until = Date.now() + PATIENCE;
    for (let touched = false; !touched; ) {
      await this.asked(words);
      touched = await this.press(key, this.page.locator(".ask"), COVERED).then(
        () => true,
        (error) => {
          // Something heavier may have come before it while the hand was on its way.
          if (!(error instanceof errors.TimeoutError) || Date.now() > until) throw error;
          return false;
        },
      );
    }
    await this.askedNoMore(words);
  }

  /** Answers what is asked with the figure it begins at, touched as read, after so many touches of a step key. */
  async read(words: string, key: string, steps: Record<string, number> = {}): Promise<void> {
    await this.asked(words);
    const ask = this.page.locator(".ask");
    await this.press(key, ask);
    await ask.locator(".entry-number").click();
    for (const [step, times] of Object.entries(steps)) {
      for (let i = 0; i < times; i += 1) await this.press(step, ask);
    }
    await this.press(/^Record /, ask);
    await this.askedNoMore(words);
  }

  /** A figure that is worked out on this panel, once it stands there in such words. */
  async worked(name: string, words?: RegExp): Promise<Locator> {
    const named = this.page.locator(".worked-name").filter({ hasText: new RegExp(`^${name}`) });
    const figures = this.page.locator(".worked details").filter({ has: named });
    const figure = (
      words ? figures.filter({ has: this.page.locator("summary", { hasText: words }) }) : figures
    ).first();
    await soon(figure).catch(async () => {
      throw new Error(`${name} is not worked out as ${words}: ${await figures.allTextContents()}`);
    });
    return figure;
  }

  async token(): Promise<string> {
    return this.page.evaluate(() => JSON.parse(sessionStorage.getItem("chockside.signIn") ?? "{}").token);
  }
}
