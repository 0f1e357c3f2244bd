import { createServer, type Server as HttpServer } from "node:http";
import { Server, type ServerOptions } from "socket.io";
import { eventOf } from "./bare-event.ts";

/** A baseline: the same library and settings, the same payload to the same rooms, and nothing more. */
export function serveBare(more: Partial<ServerOptions> = {}): void {
  const http = createServer();
  const io = new Server(http, {
    path: "/live",
    transports: ["websocket"],
    perMessageDeflate: false,
    serveClient: false,
    pingInterval: 5_000,
    pingTimeout: 4_000,
    ...more,
  });

  let seq = 0;
  io.on("connection", (socket) => {
    socket.on("watch", ({ session }, answer) => {
      void socket.join(session);
      answer({ head: 0 });
    });
    socket.on("command", (command, answer) => {
      seq += 1;
      answer({ status: "accepted", seq });
      io.to(command.session).emit("events", { session: command.session, events: [eventOf(command, seq)] });
    });
  });

  sayWhere(http);
}

/** Listens on a free port of this machine and prints it as our server does. */
export function sayWhere(http: HttpServer): void {
  http.listen(0, "127.0.0.1", () => {
    const address = http.address();
    if (address && typeof address === "object") console.log(`listening on http://127.0.0.1:${address.port}`);
  });
}
