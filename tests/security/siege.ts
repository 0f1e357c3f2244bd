import { randomUUID } from "node:crypto";
import { connect, type Socket } from "node:net";
import { WebSocket } from "ws";
import { PROTOCOL } from "../../shared/protocol/version.ts";

/** The attackers' knowledge of the server. */
export interface Target {
  url: string;
  /** Sign-ins of people with a right PIN who are attackers. */
  guest: string;
  supervisor: string;
  /** A session that is open, and one that is over. */
  session: string;
  over: string;
  aircraft: string;
}

/** Number of times each attack had each outcome, such as an HTTP status. */
export type Outcomes = Record<string, number>;

/**
 * Runs attacks by people without a sign-in, a bad guest and a bad supervisor at once, until `goOn` returns false, each
 * with a pause between.
 */
export async function besiege(target: Target, goOn: () => boolean, pauseMs = 0): Promise<Outcomes> {
  const outcomes: Outcomes = {};
  const count = (what: string) => {
    outcomes[what] = (outcomes[what] ?? 0) + 1;
  };
  const attacks: readonly (() => Promise<void>)[] = [
    ...[2, 3, 4].map((n) => () => askAgain(target.url, `127.0.0.${n}`, count)),
    () => sitThere(target.url, "127.0.0.6", count),
    () => ask("nowhere", target, "/api/nowhere", null, count),
    () => ask("forged", target, "/api/me", "F".repeat(43), count),
    () => ask("record", target, `/api/sessions/${target.session}/record.pdf`, target.guest, count),
    () => ask("over", target, `/api/sessions/${target.over}`, target.guest, count),
    () => ask("noise", target, `/api/sessions/${target.session}/noise`, target.guest, count),
    () => post("guestPlan", target, "/api/sessions", target.guest, plan(target), count),
    () => post("plan", target, "/api/sessions", target.supervisor, plan(target), count),
    () => post("type", target, "/api/types/validate", target.supervisor, LISTS, count),
    () => stopOver(target, count),
  ];
  await Promise.all(
    attacks.map(async (attack) => {
      while (goOn()) {
        await attack().catch(() => count("cut"));
        if (pauseMs > 0) await new Promise((resolve) => setTimeout(resolve, pauseMs));
      }
    }),
  );
  return outcomes;
}

type Count = (what: string) => void;

/** 120 kB of conditions. */
const LISTS = { conditions: Array.from({ length: 10_000 }, () => "noStopOpen") };

const plan = ({ aircraft }: Target) => ({
  commandId: randomUUID(),
  aircraft,
  place: "Siege",
  powerSource: "batteries",
  crew: { cockpit: null, fireGuard: null, groundPower: null, supervisor: null },
});

async function ask(
  what: string,
  { url }: Target,
  path: string,
  token: string | null,
  count: Count,
): Promise<void> {
  const headers = token === null ? {} : { authorization: `Bearer ${token}` };
  const reply = await fetch(url + path, { headers });
  await reply.arrayBuffer();
  count(`${what} ${reply.status}`);
}

async function post(what: string, { url }: Target, path: string, token: string, body: object, count: Count) {
  const headers = { authorization: `Bearer ${token}`, "content-type": "application/json" };
  const reply = await fetch(url + path, { method: "POST", headers, body: JSON.stringify(body) });
  await reply.arrayBuffer();
  count(`${what} ${reply.status}`);
}

/** Opens a socket and tries a hundred times to sign in with invalid tokens. */
async function askAgain(url: string, localAddress: string, count: Count): Promise<void> {
  const ws = new WebSocket(`${url.replace("http", "ws")}/live/?EIO=4&transport=websocket`, { localAddress });
  ws.on("error", () => {});
  ws.on("open", () => {
    for (let n = 0; n < 100; n += 1)
      ws.send(`40${JSON.stringify({ token: String(n).padStart(43, "A"), proto: PROTOCOL })}`);
    count("asked");
  });
  await new Promise<void>((resolve) => ws.once("close", () => resolve()));
  count("closed");
}

/** Opens fifty connections that send nothing, and closes them after a while. */
async function sitThere(url: string, localAddress: string, count: Count): Promise<void> {
  const sockets = Array.from({ length: 50 }, (): Socket => {
    const socket = connect({ port: Number(new URL(url).port), host: "127.0.0.1", localAddress });
    socket.on("error", () => {});
    socket.on("close", () => count("idle closed"));
    return socket;
  });
  await new Promise((resolve) => setTimeout(resolve, 200));
  for (const socket of sockets) socket.destroy();
}

/** Signs in on a socket and sends ten stops to a session that is over. */
async function stopOver({ url, guest, over }: Target, count: Count): Promise<void> {
  const ws = new WebSocket(`${url.replace("http", "ws")}/live/?EIO=4&transport=websocket`);
  ws.on("error", () => {});
  let answered = 0;
  await new Promise<void>((resolve) => {
    ws.on("close", () => resolve());
    ws.on("message", (data) => {
      const text = String(data);
      if (text.startsWith("0")) ws.send(`40${JSON.stringify({ token: guest, proto: PROTOCOL })}`);
      if (text === "2") ws.send("3");
      if (text.startsWith("40"))
        for (let n = 0; n < 10; n += 1) {
          const action = { type: "send", kind: "hold", channel: "panel" };
          const command = { v: 1, id: randomUUID(), session: over, clientAt: 1, action };
          ws.send(`42${n}${JSON.stringify(["command", command])}`);
        }
      if (!text.startsWith("43")) return;
      answered += 1;
      count(/accepted|duplicate/.test(text) ? "stop taken" : "stop other");
      if (answered === 10) ws.close();
    });
  });
}
