import { once } from "node:events";
import { createServer } from "node:http";
import type { AddressInfo } from "node:net";
import { setTimeout } from "node:timers/promises";
import { fileURLToPath } from "node:url";
import type { Browser, Page } from "playwright-core";
import { WebSocketServer } from "ws";
import { playPost } from "../../shared/partners/play.ts";
import type { SessionEvent } from "../../shared/protocol/events.ts";
import { POSTS, type Post } from "../../shared/protocol/posts.ts";
import { PROTOCOL } from "../../shared/protocol/version.ts";
import { isOver } from "../../shared/session/state.ts";
import { seatAt, signInCrew } from "../browser/crew.ts";
import { openUsualBrowser } from "../browser/seat.ts";
import { TestServer } from "../browser/server.ts";
import { TestPanel } from "../live/panel.ts";
import { keep, type Spread, spreadOf } from "./histogram.ts";

const AIRCRAFT = "QX-PEN";
const SCRIPT = "firstDay";
const SEED = 7;
const SPEED = 4;
/** Time between two looks of the four people. Milliseconds. */
const LOOK_MS = 250;

/** Times at which a page heard of an event and had drawn it, by the event's number. */
type Heard = Record<number, { arrived: number; drawn?: number }>;

/** The script of a page that notes these times. */
const LISTENING = { path: fileURLToPath(new URL("listening.js", import.meta.url)) };

const heardBy = (page: Page): Promise<Heard> =>
  page.evaluate(() => (window as unknown as { heard: Heard }).heard);

/** The baseline: the same frame by the WebSocket library alone, to pages that write its number and nothing more. */
class Bare {
  readonly #http = createServer((_request, reply) => reply.end("<!doctype html><p>"));
  readonly #sockets = new WebSocketServer({ server: this.#http, perMessageDeflate: false });
  readonly pages: Page[] = [];
  readonly sentAt = new Map<number, number>();

  async open(browser: Browser, like: readonly Page[]): Promise<void> {
    this.#http.listen(0, "127.0.0.1");
    await once(this.#http, "listening");
    const { port } = this.#http.address() as AddressInfo;
    for (const viewport of like.map((page) => page.viewportSize())) {
      const page = await (await browser.newContext({ viewport })).newPage();
      await page.addInitScript(LISTENING);
      await page.goto(`http://127.0.0.1:${port}`);
      const open = page.waitForEvent("websocket");
      await page.evaluate(() => {
        const socket = new WebSocket(`ws://${location.host}`);
        Object.assign(window, { socket });
        socket.addEventListener("message", ({ data }) => {
          document.body.textContent = String(JSON.parse(String(data).slice(2))[1].events[0].seq);
        });
      });
      await open;
      this.pages.push(page);
    }
  }

  send(event: SessionEvent): void {
    this.sentAt.set(event.seq, Date.now());
    const frame = `42${JSON.stringify(["events", { session: event.session, events: [event] }])}`;
    for (const socket of this.#sockets.clients) socket.send(frame);
  }

  close(): void {
    this.#http.close();
    for (const socket of this.#sockets.clients) socket.close();
  }
}

/** Returns the times from `sentAt` to the arrival and to the picture, over these pages. */
async function timesOn(
  pages: readonly Page[],
  sentAt: ReadonlyMap<number, number>,
): Promise<{ arrival: Spread; picture: Spread }> {
  const [arrivals, pictures]: [number[], number[]] = [[], []];
  for (const heard of await Promise.all(pages.map(heardBy)))
    for (const [seq, { arrived, drawn }] of Object.entries(heard)) {
      const sent = sentAt.get(Number(seq));
      if (sent === undefined) continue;
      arrivals.push(arrived - sent);
      if (drawn !== undefined) pictures.push(drawn - sent);
    }
  return { arrival: spreadOf(arrivals), picture: spreadOf(pictures) };
}

/**
 * Plays a rehearsal of four people at four times the speed, and measures on each panel the time from an event's recording
 * to its arrival and to the next picture. Each event is sent at the same moment as a bare frame to four bare pages of
 * the same browser. Prints both and their ratios, and judges no time: that is the machine's.
 * @param seconds the longest time that it plays
 */
export async function benchRehearsal(seconds: number): Promise<boolean> {
  const server = new TestServer();
  await server.start();
  const browser = await openUsualBrowser();
  const bare = new Bare();
  try {
    const crew = await signInCrew(browser, server.url);
    const token = await crew.supervisor.token();
    const ask = async (path: string, body: object) => {
      const headers = { authorization: `Bearer ${token}`, "content-type": "application/json" };
      const url = `${server.url}/api/rehearsals${path}`;
      const reply = await fetch(url, { method: "POST", headers, body: JSON.stringify(body) });
      if (!reply.ok) throw new Error(await reply.text());
      return reply;
    };
    const at = await fourOn(server, (post) => seatAt(crew, post).token());
    const begun = await ask("", { aircraft: AIRCRAFT, script: SCRIPT, seed: SEED, post: "supervisor" });
    const { id } = (await begun.json()) as { id: string };
    // In a frozen world no partner takes a post. What one took before that, the supervisor has left.
    await ask(`/${id}/desk`, { do: "pace", frozen: true, speed: SPEED });
    await at.supervisor.watch(id);
    await taken(at.supervisor, id, "supervisor");
    for (const post of POSTS.filter((p) => p !== "supervisor")) {
      await at[post].watch(id);
      if (at[post].state?.posts[post])
        await at.supervisor.command(id, { type: "vacatePost", post, reason: "Somebody is here" });
      await taken(at[post], id, post);
    }
    await ask(`/${id}/desk`, { do: "pace", frozen: false, speed: SPEED });
    const pages = crew.all.map((seat) => seat.page);
    for (const page of pages) {
      await page.addInitScript(LISTENING);
      await page.goto(`${server.url}/session/${id}`);
      await page.locator(".panel").waitFor();
    }
    await bare.open(browser, pages);
    const recordedAt = new Map<number, number>();
    at.cockpit.socket.on("events", ({ events }) => {
      for (const event of events) {
        recordedAt.set(event.seq, event.at);
        bare.send(event);
      }
    });
    await plays(at, id, server, seconds);
    const ours = await timesOn(pages, recordedAt);
    const theirs = await timesOn(bare.pages, bare.sentAt);
    for (const post of POSTS) at[post].close();
    return told(recordedAt.size, ours, theirs);
  } finally {
    bare.close();
    await browser.close();
    await server.end();
  }
}

async function taken(panel: TestPanel, id: string, post: Post): Promise<void> {
  const said = await panel.command(id, { type: "claimPost", post });
  if (said.status !== "accepted") throw new Error(`${post}: ${JSON.stringify(said)}`);
}

/** Opens a socket for each of the four, on the device of their panel. */
async function fourOn(
  server: TestServer,
  tokenOf: (post: Post) => Promise<string>,
): Promise<Record<Post, TestPanel>> {
  const at = {} as Record<Post, TestPanel>;
  for (const post of POSTS)
    at[post] = await new TestPanel(server.url, { token: await tokenOf(post), proto: PROTOCOL }).settled();
  return at;
}

/** Lets the four answer what they are asked, one answer of one post at a time, until it is over or time is up. */
async function plays(
  at: Record<Post, TestPanel>,
  id: string,
  server: TestServer,
  seconds: number,
): Promise<void> {
  const until = Date.now() + seconds * 1_000;
  const script = { seed: SEED, pace: SPEED, cart: "Knocker" };
  for (;;) {
    const { state } = at.cockpit;
    if (!state || isOver(state) || Date.now() > until) return;
    for (const post of POSTS) {
      const move = at[post].state && playPost(at[post].state, post, server.now(), script);
      if (move && move.notBefore <= server.now()) await at[post].command(id, move.action);
    }
    await setTimeout(LOOK_MS);
  }
}

function told(events: number, ours: Times, theirs: Times): boolean {
  keep("rehearsal", { events, ours, theirs });
  console.log(
    `${events} events of four people's rehearsal at ${SPEED} times the speed; milliseconds from recording\n`,
  );
  for (const what of ["arrival", "picture"] as const) {
    const of = (name: string, { p50, p95, max, count }: Spread) =>
      console.log(
        `${what.padEnd(8)} ${name.padEnd(8)} ${count} times, p50 ${p50.toFixed(1)}, p95 ${p95.toFixed(1)}, longest ${max.toFixed(1)}`,
      );
    of("panels", ours[what]);
    of("bare", theirs[what]);
    console.log(
      `${what.padEnd(8)} p95 of the panels by bare: ${(ours[what].p95 / theirs[what].p95).toFixed(2)}`,
    );
  }
  return events > 0 && ours.picture.count > 0 && theirs.picture.count > 0;
}

type Times = Awaited<ReturnType<typeof timesOn>>;
