import type { IncomingMessage, ServerResponse } from "node:http";
import type { FastifyInstance } from "fastify";
import { Server } from "socket.io";
import { isOver } from "../../shared/session/state.ts";
import type { Refusals } from "../audit.ts";
import type { Proofs } from "../auth/proofs.ts";
import { hostAllowed } from "../hosts.ts";
import { peerOf } from "../peer.ts";
import type { Services } from "../services.ts";
import type { Recordable } from "../store/recordable.ts";
import { TRACES } from "../telemetry/trace.ts";
import { Beats } from "./beats.ts";
import { every } from "./every.ts";
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
import { originAllowed } from "./origin.ts";
import { servePanel } from "./panel.ts";
import type { Bounds } from "./person-bounds.ts";
import { RehearsalCuts } from "./rehearsal-cuts.ts";
import { seldom } from "./seldom.ts";
import { Turnstile } from "./turnstile.ts";
import { UnauthenticatedSockets } from "./unauthenticated-sockets.ts";

export interface LiveOptions {
  /** Origins that may open sockets, besides the server's own. Example: `https://ramp.example`. */
  origins: readonly string[];
}

/** Parts that the sockets share with the HTTP routes. */
interface Shared {
  proofs: Proofs;
  refusals: Refusals;
  bounds: Bounds;
  recordable: Recordable;
}

/**
 * Attaches Socket.IO to the HTTP server. Returns a function that counts open sockets. Fastify's hooks do not run for
 * sockets, so limits and sign-in are checked here.
 */
export function live(
  app: FastifyInstance,
  services: Services,
  { proofs, refusals, bounds, recordable }: Shared,
  { origins }: LiveOptions,
): () => number {
  const { sessions, signIns, clock, timers, others, peers, rehearsals } = services;
  const unauthenticated = new UnauthenticatedSockets(() => clock.now(), refusals);
  const refusalOf = (request: IncomingMessage): string | null => {
    if (io.engine.clientsCount >= LIMITS.sockets) return "tooManySockets";
    if (!unauthenticated.mayOpen(request)) return "tooManyUnauthenticated";
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
      if (why !== null) refusals.refused(why, { address: peerOf(request), path: LIVE_PATH });
      decide(why, why === null);
    },
  });
  // Fastify's headers are missing from Socket.IO's own HTTP replies, such as a refused handshake.
  io.engine.use((_request: IncomingMessage, reply: ServerResponse, next: () => void) => {
    reply.setHeader("x-content-type-options", "nosniff");
    reply.setHeader("content-security-policy", "default-src 'none'; frame-ancestors 'none'");
    next();
  });
  unauthenticated.watch(io);
  const beats = new Beats({
    io,
    clock,
    timers,
    peers,
    tellOthers: (sessions) => others?.bus.send({ is: "heard", server: others.server, sessions }),
  });
  const cuts = new RehearsalCuts(rehearsals, beats);
  const stopCuts = every(timers, LIMITS.cutsMs, () => cuts.look());
  /** Joins a room. When it holds more than `most` sockets, disconnects the oldest: the newest is the one in use. */
  const joinWithin = (room: string, most: number, socket: PanelSocket) => {
    void socket.join(room);
    const all = [...(io.sockets.adapter.rooms.get(room) ?? [])];
    for (const id of all.slice(0, -most)) io.sockets.sockets.get(id)?.disconnect(true);
  };
  const end = (signIn: string) => {
    io.in(signInRoom(signIn)).emit("bye", { why: "signedOut", retryAfterMs: 0 });
    io.in(signInRoom(signIn)).disconnectSockets(true);
  };

  sessions.tell({
    recorded: (session, events) => {
      io.to(sessionRoom(session)).emit("events", { session, events });
      const [from, to] = [events[0]?.seq ?? 0, events.at(-1)?.seq ?? 0];
      if (TRACES.fanOut.hasSubscribers)
        TRACES.fanOut.publish({ session, from, to, sockets: beats.watching(session).length });
    },
    unrecorded: (notice) => io.to(sessionRoom(notice.session)).emit("unrecorded", notice),
    ramp: seldom(timers, LIMITS.rampMs, () => io.emit("ramp")),
  });
  recordable.follow({
    wanted: () => io.sockets.sockets.size > 0,
    changed: (able) => io.emit("recording", { able }),
  });
  const arrivals = new Turnstile();
  io.use(handshake(signIns, proofs, clock, refusals, arrivals));
  io.on("connection", (socket) => {
    app.door.signedIn(socket.request.socket);
    if (!recordable.able) socket.emit("recording", { able: false });
    const { signIn, expiresAt, person, device } = socket.data.identity;
    void socket.join(signInRoom(signIn));
    joinWithin(personRoom(person.id), LIMITS.perPerson, socket);
    joinWithin(deviceRoom(device.id), LIMITS.perDevice, socket);
    const forget = timers.after(expiresAt - clock.now(), () => end(signIn));
    servePanel(socket, {
      sessions,
      clock,
      bounds,
      arrivals,
      log: app.log,
      refusals,
      flooded: ({ person: who, device: where }) => {
        if (bounds.of(who.id, clock.now()).all.justRanDry())
          refusals.refused("tooMany", { person: who.id, device: where.id });
      },
      used: (identity) => signIns.used(identity),
      watched: (session, panel) => beats.watched(session, panel),
      unwatched: (session) => cuts.forget(session, socket),
      cutOff: (session) => cuts.isCutOff(session, socket),
    });
    const rooms = new Set<string>();
    socket.on("disconnecting", () => {
      for (const room of socket.rooms) rooms.add(room);
    });
    socket.on("disconnect", () => {
      forget();
      beats.gone(rooms);
    });
  });

  const stopEnded = signIns.onEnded(end);
  const stopCutting = every(timers, LIMITS.beatMs, () => {
    // Close a socket that no longer drains, before it fills memory: the panel reconnects and asks for what it lacks.
    for (const { conn } of io.sockets.sockets.values())
      if ((conn as unknown as { writeBuffer: unknown[] }).writeBuffer.length > LIMITS.backlog) conn.close();
  });
  const stopRechecks = every(timers, LIMITS.recheckMs, () => void recheck());

  async function recheck(): Promise<void> {
    // Watching a live start counts as use, so that its sign-in does not expire while the person touches nothing.
    for (const session of beats.sessions)
      if (!isOver(session.state))
        for (const { data } of beats.watching(session.state.id)) signIns.used(data.identity);
    await signIns
      .keepUses()
      .catch((error) => app.log.error({ err: error }, "the use of sign-ins could not be saved"));
    const ids = new Set([...io.sockets.sockets.values()].map((s) => s.data.identity.signIn));
    if (ids.size === 0) return;
    try {
      const standing = await signIns.standing([...ids]);
      for (const id of ids) if (!standing.has(id)) end(id);
    } catch (error) {
      app.log.error({ err: error }, "sign-ins could not be looked up");
    }
  }

  // Fastify waits for every connection before it closes, and a socket never ends by itself.
  app.addHook("preClose", async () => {
    stopEnded();
    beats.close();
    stopCutting();
    stopCuts();
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
