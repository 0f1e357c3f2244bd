import {
  type Browser,
  type BrowserContext,
  type BrowserContextOptions,
  chromium,
  errors,
  type Locator,
  type Page,
} from "playwright-core";
import { demo } from "../../seed/demo-data.ts";
import { answerCardInFront, cardInFront, cardQueued } from "./cardSteps.ts";

const FLAGS = [
  "--no-sandbox",
  "--disable-gpu",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
];

/**
 * Flags for tests of words and places. Their pages live for seconds: code is not optimised, and one thread paints. This
 * saves a sixth of the processor time.
 */
const SHORT_LIVED = ["--in-process-gpu", "--num-raster-threads=1", "--js-flags=--no-opt,--max-lazy"];

/** Opens the browser of a test. */
export const openBrowser = (): Promise<Browser> => launch([...FLAGS, ...SHORT_LIVED]);

/** Opens a browser as people have it, for measurements and pictures. */
export const openUsualBrowser = (): Promise<Browser> => launch(FLAGS);

function launch(args: string[]): Promise<Browser> {
  return chromium.launch({ executablePath: "/usr/bin/chromium-headless-shell", args });
}

/**
 * Settings of a browser window that keeps no panels for the time without a network. To keep them, each new window loads
 * every file of the build, which takes longer than most tests.
 */
export const KEEPS_NOTHING = { serviceWorkers: "block" } as const;

/** Returns what a person touches by its name: a button or a radio button. */
export function key(name: string | RegExp, within: Locator | Page): Locator {
  const named = { name, ...(typeof name === "string" ? { exact: true } : {}) };
  return within.getByRole("button", named).or(within.getByRole("radio", named)).first();
}

/** The name of the key in the title block, in either language. */
export const POSTS_KEY = /(Posts and session|Puestos y sesión)$/;

/** Time for which a test waits, in milliseconds. It is long because a busy machine is slow, not wrong. */
export const PATIENCE = 60_000;
/** The heading of the first page after sign-in, in either language. */
const RAMP = /^(The ramp|La plataforma)$/;

/** Animations run this many times as fast as for people. */
const QUICKLY = 20;

/** Milliseconds per look. Playwright looks ten times a second at first, and only twice a second after this. */
const LOOKING = 2_000;

/** After this many milliseconds a covered key is looked for again, because another ask may have come to the front. */
const COVERED = 5_000;

/**
 * Resolves soon after the element is in this state.
 * @throws Error when that takes longer than `patience` milliseconds
 */
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

/** Lets a page that is about to load move little and quickly. */
export async function quicken(page: Page): Promise<void> {
  // Four panels that draw moving figures cost time that a test of words does not need.
  await page.emulateMedia({ reducedMotion: "reduce" });
  // Answers take no touch until an animation of half a second has run. A test of words has no slips to wait for.
  const developer = await page.context().newCDPSession(page);
  await developer.send("Animation.enable");
  await developer.send("Animation.setPlaybackRate", { playbackRate: QUICKLY });
}

/** One person at one panel, in their own browser window. They act by touch and wait for words. */
export class Seat {
  readonly page: Page;
  readonly context: BrowserContext;
  /** Errors of the page. Tests expect none at their end. */
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

  /** Signs in with one touch in the demo's row of people. @param more other settings of the window */
  static async open(
    browser: Browser,
    url: string,
    handle: string,
    viewport = { width: 1180, height: 820 },
    more: BrowserContextOptions = KEEPS_NOTHING,
  ): Promise<Seat> {
    const context = await browser.newContext({ viewport, acceptDownloads: true, ...more });
    return Seat.inContext(context, url, handle);
  }

  /** Signs in in a new tab of an open browser context. */
  static async inContext(context: BrowserContext, url: string, handle: string): Promise<Seat> {
    const seat = await Seat.at(context, url);
    const name = demo.people.find((p) => p.handle === handle)?.name ?? handle;
    const person = key(new RegExp(`^${name}`), seat.page);
    // The list of people is folded while a crew can be begun.
    const folded = seat.page.locator("summary.small-key");
    await soon(person.or(folded).first());
    if (!(await person.isVisible())) await folded.click();
    await seat.press(new RegExp(`^${name}`));
    await seat.page.getByRole("heading", { name: RAMP }).waitFor();
    return seat;
  }

  /** Opens a page in a new tab of a browser context, where nobody is signed in. */
  static async at(context: BrowserContext, url: string): Promise<Seat> {
    // A tablet keeps its screen lit; without this the headless shell refuses.
    await context.grantPermissions(["screen-wake-lock"]);
    const seat = new Seat(context, await context.newPage());
    await quicken(seat.page);
    await seat.page.goto(url);
    return seat;
  }

  /** Opens a second tab of the same context on the same page. */
  async anotherTab(): Promise<Seat> {
    const [page] = await Promise.all([
      this.context.waitForEvent("page"),
      this.page.evaluate(() => void window.open(location.href)),
    ]);
    return new Seat(this.context, page);
  }

  /** Goes to another page as the app's own links do, without loading it again. */
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

  /** Waits until answers take a touch. They take none at first, and Playwright would look again later. */
  #settled(): Promise<void> {
    return this.page.evaluate(async () => {
      const answers = document.querySelector(".ask > .answers");
      await Promise.allSettled(answers?.getAnimations().map((a) => a.finished) ?? []);
    });
  }

  /** Resolves when the panel's next link has told it the server's time. */
  async linkedAnew(): Promise<void> {
    const link = await this.page.waitForEvent("websocket");
    await link.waitForEvent("framereceived", ({ payload }) => String(payload).includes('"serverNow"'));
  }

  /** Opens the sheet of posts and session. Its key's name also says who is there, so that it changes. */
  async openPosts(): Promise<void> {
    await this.press(POSTS_KEY);
  }

  async sees(words: string | RegExp): Promise<void> {
    await soon(this.page.getByText(words).filter({ visible: true }).first());
  }

  /**
   * Brings the ask to the front, by the queue when another stands there, and waits for it. Items of the card that stand
   * in front are answered on the way, and so are those that wait in the queue until the ask comes.
   */
  async asked(words: string): Promise<void> {
    const { top, queued } = this.#ask(words);
    if (await top.isVisible()) return;
    const until = Date.now() + PATIENCE;
    const card = { inFront: cardInFront(this.page), queued: cardQueued(this.page) };
    for (;;) {
      await soon(top.or(queued).or(card.inFront).or(card.queued).first()).catch(async () => {
        throw new Error(`not asked: ${words}\n${await this.page.locator(".panel-ask").textContent()}`);
      });
      if ((await top.isVisible()) || Date.now() > until) break;
      if (await card.inFront.isVisible()) await answerCardInFront(this.page, COVERED, words);
      else if (await queued.isVisible()) break;
      else await card.queued.click({ timeout: COVERED }).catch(() => undefined);
    }
    // It may come to the front by itself before the queue is touched.
    if (!(await top.isVisible())) await Promise.race([queued.click().catch(() => undefined), soon(top)]);
    await soon(top);
  }

  /** Answers every item of the card that is asked now, one after another. */
  async answerCard(): Promise<void> {
    const inFront = cardInFront(this.page);
    const queued = cardQueued(this.page);
    for (const until = Date.now() + PATIENCE; Date.now() < until; ) {
      if (await inFront.isVisible()) await answerCardInFront(this.page, COVERED);
      else if (await queued.isVisible()) await queued.click({ timeout: COVERED }).catch(() => undefined);
      else return;
    }
    throw new Error(`the card is still asked\n${await this.page.locator(".panel-ask").textContent()}`);
  }

  async askedNoMore(words: string): Promise<void> {
    await soon(this.#ask(words).top, "detached");
  }

  /** Answers an ask with one key, and waits until it is gone. */
  async answer(words: string, key: string | RegExp): Promise<void> {
    const until = Date.now() + PATIENCE;
    do {
      await this.asked(words);
      try {
        await this.press(key, this.page.locator(".ask"), COVERED);
        return await this.askedNoMore(words);
      } catch (error) {
        // A heavier ask may have come to the front before the touch. Or the touch was taken, but so late that Playwright
        // no longer waited for its end.
        if (!(error instanceof errors.TimeoutError) || Date.now() > until) throw error;
      }
    } while (await this.#stillAsked(words));
  }

  async #stillAsked(words: string): Promise<boolean> {
    const { top, queued } = this.#ask(words);
    const gone = soon(top.or(queued).first(), "detached", COVERED);
    return gone.then(
      () => false,
      () => true,
    );
  }

  #ask(words: string): { top: Locator; queued: Locator } {
    return {
      top: this.page.getByRole("heading", { level: 2, name: words, exact: true }),
      queued: this.page.locator(".queue-row", { hasText: words }).first(),
    };
  }

  /**
   * Answers an ask with the figure from which its entry's step keys begin, after some touches of these keys. A figure
   * that would set something off is sent all the same.
   */
  async read(words: string, key: string, steps: Record<string, number> = {}, sent = false): Promise<void> {
    await this.asked(words);
    const ask = this.page.locator(".ask");
    await this.press(key, ask);
    // One step up and one down: a blank entry takes no figure by itself.
    for (const i of [2, 1]) await ask.locator(".step-key").nth(i).click();
    for (const [step, times] of Object.entries(steps)) {
      for (let i = 0; i < times; i += 1) await this.press(step, ask);
    }
    await this.press(/^Record /, ask);
    if (sent) await this.press(/^Send /, ask);
    await this.askedNoMore(words);
  }

  /**
   * Enters figures on a pad and sends them together: each the one from which the step keys begin, after some touches of
   * these keys.
   * @param cells names of the figures, such as "3, Oil inlet temperature"
   */
  async readOnPad(
    words: string,
    cells: readonly string[],
    steps: Record<string, number> = {},
  ): Promise<void> {
    await this.asked(words);
    const pad = this.page.locator(".pad");
    for (const cell of cells) {
      await this.press(new RegExp(`^${cell}: `), pad);
      for (const i of [2, 1]) await pad.locator(".step-key").nth(i).click();
      for (const [step, times] of Object.entries(steps))
        for (let i = 0; i < times; i += 1) await this.press(step, pad);
    }
    await this.press(/^Record /, pad);
    const entered = pad.locator(".pad-cell:not(:disabled) output", { hasNotText: "–" });
    await soon(entered.first(), "detached");
  }

  /** Waits until a figure worked out on this panel is shown with these words, and returns it. */
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
