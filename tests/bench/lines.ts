import { WebSocket } from "ws";
import { panelSocket } from "./panel-socket.ts";

const ANSWER_MS = 10_000;

/** One panel's connection, by either library. */
export interface Line {
  /** Calls `told` with the command that caused each event of a batch. */
  onEvents(told: (commands: (string | null)[]) => void): void;
  watch(session: string): Promise<void>;
  /** Resolves to whether the command was accepted. */
  command(command: { id: string }): Promise<boolean>;
  close(): void;
}

interface Batch {
  events: { command: string | null }[];
}

export function openLine(transport: "socket.io" | "ws", url: string, token: string): Promise<Line> {
  return transport === "ws" ? openWs(url) : openSocketIo(url, token);
}

async function openSocketIo(url: string, token: string): Promise<Line> {
  const socket = panelSocket(url, token);
  await new Promise<void>((done, failed) => {
    socket.once("connect", () => done());
    socket.once("connect_error", failed);
  });
  const ask = (name: string, what: unknown) => socket.timeout(ANSWER_MS).emitWithAck(name, what);
  return {
    onEvents: (told) =>
      void socket.on("events", ({ events }: Batch) => told(events.map(({ command }) => command))),
    async watch(session) {
      await ask("watch", { session, since: 0 });
    },
    command: (command) =>
      ask("command", command).then(
        (answer: { status?: string }) => answer.status === "accepted",
        () => false,
      ),
    close: () => void socket.close(),
  };
}

/** The same messages as JSON with numbered answers, as a server without a library would write them. */
async function openWs(url: string): Promise<Line> {
  const socket = new WebSocket(url.replace("http", "ws"));
  const waiting = new Map<number, (answer: { status?: string }) => void>();
  let told: (commands: (string | null)[]) => void = () => {};
  let next = 0;
  await new Promise<void>((done, failed) => {
    socket.once("open", done);
    socket.once("error", failed);
  });
  socket.on("message", (raw) => {
    const { n, answer, events } = JSON.parse(String(raw)) as {
      n?: number;
      answer: { status?: string };
    } & Batch;
    if (n === undefined) return told(events.map(({ command }) => command));
    waiting.get(n)?.(answer);
    waiting.delete(n);
  });
  const ask = (name: string, what: unknown) =>
    new Promise<{ status?: string }>((done) => {
      next += 1;
      waiting.set(next, done);
      socket.send(JSON.stringify({ n: next, name, what }));
    });
  return {
    onEvents(listener) {
      told = listener;
    },
    async watch(session) {
      await ask("watch", session);
    },
    command: (command) => ask("command", command).then((answer) => answer.status === "accepted"),
    close: () => socket.close(),
  };
}
