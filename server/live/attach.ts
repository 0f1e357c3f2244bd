import type { IncomingMessage } from "node:http";
import type { FastifyInstance } from "fastify";
import { Server } from "socket.io";
import { isOver } from "../../shared/session/state.ts";
import { auditTo } from "../audit.ts";
import type { Proofs } from "../auth/proofs.ts";
import { hostAllowed } from "../hosts.ts";
import type { House } from "../house.ts";
import type { Heard } from "../many/bus.ts";
import type { LiveSession } from "../sessions/live-session.ts";
import { TRACES } from "../telemetry/trace.ts";
import { handshake } from "./handshake.ts";
import {
  deviceRoom,
  type Io,
  LIVE_PATH,
  type PanelSocket,
  personRoom,
  sessionRoom,
  signInRoom,
} from "./io.ts";
import { LIMITS } from "./limits.ts";
import { heardOf, linksOf } from "./links.ts";
import { originAllowed } from "./origin.ts";
import { servePanel } from "./panel.ts";
import { Strangers } from "./strangers.ts";

export interface LiveOptions {
  /** Origins that may open sockets beside the server's own, e.g. `https://ramp.example`. */
  origins: readonly string[];
}

/** Puts the sockets onto Fastify's server; the answer counts them. Fastify's hooks do not see them: limits and sign-in are their own here. */
export function live(
  app: FastifyInstance,
  house: House,
  proofs: Proofs,
  { origins }: LiveOptions,
): () => number {
  const { sessions, signIns, clock, timers, others, elsewhere } = house;
  const audit = auditTo(app.log);
  const strangers = new Strangers();
  const refusalOf = (request: IncomingMessage): string | null => {
    if (io.engine.clientsCount >= LIMITS.sockets) return "tooManySockets";
    if (!strangers.mayCome(request)) return "tooManyStrangers";
    if (!hostAllowed(request.headers.host, origins)) return "wrongHost";
    return originAllowed(request, origins) ? null : "wrongOrigin";
  };
  const io: Io = new Server(app.server, {
    path: LIVE_PATH,
    transports: ["websocket"],
    serveClient: false,
    perMessageDeflate: false,
    pingInterval: LIMITS.pingIntervalMs,
    pingTimeout: LIMITS.pingTimeoutMs,
    connectTimeout: LIMITS.connectTimeoutMs,
    maxHttpBufferSize: LIMITS.messageBytes,
    allowRequest: (request, decide) => {
      const why = refusalOf(request);
      if (why !== null) audit.refused(why, { address: request.socket.remoteAddress, path: LIVE_PATH });
      decide(why, why === null);
    },
  });
  strangers.watch(io);
  /** Sessions somebody watches. */
  const watched = new Map<string, LiveSession>();

  const watching = (session: string): PanelSocket[] =>
    [...(io.sockets.adapter.rooms.get(sessionRoom(session)) ?? [])].flatMap(
      (id) => io.sockets.sockets.get(id) ?? [],
    );
  /** Gives whom of the session's posts this server hears. @param when a regular beat may be dropped on the way */
  const beat = ({ state }: LiveSession, when: "regular" | "now"): Heard => {
    const panels = watching(state.id);
    const heard = heardOf(state, panels);
    if (when === "now") tellOthers({ [state.id]: heard });
    if (panels.length === 0) watched.delete(state.id);
    const room = io.to(sessionRoom(state.id));
    const links = linksOf(heard, elsewhere.of(state.id, clock.now()));
    const notice = { session: state.id, head: state.seq, serverNow: clock.now(), links };
    (when === "regular" ? room.volatile : room).emit("beat", notice);
    return heard;
  };
  /** The oldest goes when there are too many: whoever comes now is the one who needs it. */
  const joinWithin = (room: string, most: number, socket: PanelSocket) => {
    void socket.join(room);
    const all = [...(io.sockets.adapter.rooms.get(room) ?? [])];
    for (const id of all.slice(0, -most)) io.sockets.sockets.get(id)?.disconnect(true);
  };
  const tellOthers = (sessions: Record<string, Heard>) =>
    others?.bus.say({ is: "heard", server: others.server, sessions });
  const end = (signIn: string) => {
    io.in(signInRoom(signIn)).emit("bye", { why: "signedOut", retryAfterMs: 0 });
    io.in(signInRoom(signIn)).disconnectSockets(true);
  };

  sessions.tell({
    recorded: (session, events) => {
      io.to(sessionRoom(session)).emit("events", { session, events });
      const [from, to] = [events[0]?.seq ?? 0, events.at(-1)?.seq ?? 0];
      if (TRACES.fanOut.hasSubscribers)
        TRACES.fanOut.publish({ session, from, to, sockets: watching(session).length });
    },
    unrecorded: (notice) => io.to(sessionRoom(notice.session)).emit("unrecorded", notice),
    ramp: () => io.emit("ramp"),
  });
  io.use(handshake(signIns, proofs, clock, audit));
  io.on("connection", (socket) => {
    const { signIn, expiresAt, person, device } = socket.data.identity;
    void socket.join(signInRoom(signIn));
    joinWithin(personRoom(person.id), LIMITS.perPerson, socket);
    joinWithin(deviceRoom(device.id), LIMITS.perDevice, socket);
    const forget = timers.after(expiresAt - clock.now(), () => end(signIn));
    servePanel(socket, {
      sessions,
      clock,
      log: app.log,
      flooded: ({ person: who, device: where }) => {
        const { bucket } = socket.data;
        if (bucket.justRanDry()) audit.refused("tooMany", { person: who.id, device: where.id });
      },
      used: (identity) => void signIns.used(identity).catch(() => undefined),
      watched: (session) => {
        watched.set(session.state.id, session);
        beat(session, "now");
      },
    });
    const rooms = new Set<string>();
    socket.on("disconnecting", () => {
      for (const room of socket.rooms) rooms.add(room);
    });
    socket.on("disconnect", () => {
      forget();
      // The others see at once that this panel is gone.
      for (const session of watched.values())
        if (rooms.has(sessionRoom(session.state.id))) beat(session, "now");
    });
  });

  const stopEnded = signIns.onEnded(end);
  const stopBeats = every(LIMITS.beatMs, () => {
    const heard = [...watched].map(([id, session]) => [id, beat(session, "regular")] as const);
    if (heard.length > 0) tellOthers(Object.fromEntries(heard));
    // One that takes nothing more must not fill the memory: it comes back and asks for what it lacks.
    for (const { conn } of io.sockets.sockets.values())
      if ((conn as unknown as { writeBuffer: unknown[] }).writeBuffer.length > LIMITS.backlog) conn.close();
  });
  const stopRechecks = every(LIMITS.recheckMs, () => void recheck());

  async function recheck(): Promise<void> {
    // Whoever stands by a start is there, however long nothing is to be touched.
    for (const session of watched.values())
      if (!isOver(session.state))
        for (const { data } of watching(session.state.id))
          await signIns.used(data.identity).catch(() => undefined);
    const ids = new Set([...io.sockets.sockets.values()].map((s) => s.data.identity.signIn));
    if (ids.size === 0) return;
    try {
      const standing = await signIns.standing([...ids]);
      for (const id of ids) if (!standing.has(id)) end(id);
    } catch (error) {
      app.log.error({ err: error }, "sign-ins could not be looked up");
    }
  }

  function every(ms: number, run: () => void): () => void {
    let stop = timers.after(ms, again);
    function again() {
      run();
      stop = timers.after(ms, again);
    }
    return () => stop();
  }

  // Fastify waits for every connection before it closes, and a socket never ends by itself.
  app.addHook("preClose", async () => {
    stopEnded();
    stopBeats();
    stopRechecks();
    const retryAfterMs = LIMITS.retryAfterMs;
    io.emit("bye", { why: "restarting", retryAfterMs });
    io.local.disconnectSockets(true);
  });
  app.addHook("onClose", async () => {
    io.engine.close();
  });
  return () => io.engine.clientsCount;
}
