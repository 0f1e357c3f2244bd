import { type ChildProcess, spawn } from "node:child_process";
import { randomUUID } from "node:crypto";
import { once } from "node:events";
import { createInterface } from "node:readline";
import { withStarts } from "./fan-out.ts";
import { keep, type Spread, spreadOf } from "./histogram.ts";
import { panelSocket } from "./panel-socket.ts";
import type { Surged, SurgePlan } from "./surge-driver.ts";
import { headings, row } from "./table.ts";

const WITHIN_MS = 1_000;
/** Milliseconds between two holds of the witness. */
const BEAT_MS = 50;
/** The witness goes on this long after the crowd has vanished. */
const AFTER_MS = 5_000;

/**
 * Measures a crowd that comes, presses hold and vanishes, each within one second, and what a witness of another session
 * meets meanwhile. The witness presses hold twenty times a second.
 */
export async function benchSurge(sessions: number, panels: number): Promise<boolean> {
  return withStarts(sessions + 1, async (server, planned, tokens) => {
    const [own = "", ...others] = planned;
    const witness = await Witness.at(server.url, own, tokens[0] ?? "");
    const quiet = await witness.during(new Promise<void>((r) => setTimeout(r, AFTER_MS)));
    const plan: SurgePlan = {
      ...{ url: server.url, sessions: others, panels, withinMs: WITHIN_MS },
      tokens: tokens.slice(1),
    };
    const crowd = Crowd.of(plan);
    const came = await witness.during(crowd.says("come"));
    const held = await witness.during(crowd.says("hold"));
    const gone = await witness.during(
      crowd.vanish().then(() => new Promise<void>((r) => setTimeout(r, AFTER_MS))),
    );
    witness.close();

    console.log(headings());
    console.log(row("witness, before", quiet.took));
    console.log(row(`${sessions * panels} panels come in one second`, came.of.took));
    console.log(row("witness, meanwhile", came.took));
    console.log(row(`${sessions * panels} panels press hold in one second`, held.of.took));
    console.log(row("witness, meanwhile", held.took));
    console.log(row("witness, after all have vanished at once", gone.took));
    const lost = came.of.lost + held.of.lost + [quiet, came, held, gone].reduce((n, { lost }) => n + lost, 0);
    console.log(`not answered: ${lost}`);
    keep("crowd", { sessions, panels, quiet, came, held, gone });
    return lost === 0;
  });
}

/** Somebody of another session, whose holds are timed. */
class Witness {
  readonly #press: () => Promise<boolean>;
  readonly close: () => void;

  private constructor(press: () => Promise<boolean>, close: () => void) {
    this.#press = press;
    this.close = close;
  }

  static async at(url: string, session: string, token: string): Promise<Witness> {
    const socket = panelSocket(url, token);
    await once(socket as never, "connect");
    const press = async () => {
      const action = { type: "send", kind: "hold", channel: "panel" };
      const command = { v: 1, id: randomUUID(), session, clientAt: Date.now(), action };
      const answer = await socket.timeout(30_000).emitWithAck("command", command);
      return answer.status === "accepted";
    };
    return new Witness(press, () => void socket.close());
  }

  /** Presses hold until the work is done. */
  async during<T>(work: Promise<T>): Promise<{ of: T; took: Spread; lost: number }> {
    const took: number[] = [];
    const pressed: Promise<void>[] = [];
    let lost = 0;
    const press = async () => {
      const began = performance.now();
      if (await this.#press().catch(() => false)) took.push(performance.now() - began);
      else lost += 1;
    };
    const beat = setInterval(() => pressed.push(press()), BEAT_MS);
    const of = await work;
    clearInterval(beat);
    await Promise.all(pressed);
    return { of, took: spreadOf(took), lost };
  }
}

/** The process of the crowd. */
class Crowd {
  readonly #child: ChildProcess;
  readonly #lines: AsyncIterator<string>;

  private constructor(child: ChildProcess, lines: AsyncIterator<string>) {
    this.#child = child;
    this.#lines = lines;
  }

  static of(plan: SurgePlan): Crowd {
    const child = spawn(process.execPath, ["--import", "tsx", "tests/bench/surge-driver.ts"], {
      cwd: new URL("../../", import.meta.url).pathname,
      stdio: ["pipe", "pipe", "inherit"],
    });
    child.stdin.write(`${JSON.stringify(plan)}\n`);
    return new Crowd(child, createInterface({ input: child.stdout })[Symbol.asyncIterator]());
  }

  async says(word: "come" | "hold"): Promise<Surged> {
    this.#child.stdin?.write(`${word}\n`);
    return JSON.parse(String((await this.#lines.next()).value)) as Surged;
  }

  async vanish(): Promise<void> {
    const ended = once(this.#child, "exit");
    this.#child.kill("SIGKILL");
    await ended;
  }
}
