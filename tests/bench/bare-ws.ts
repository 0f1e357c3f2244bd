// For comparison: the same with the WebSocket library alone, without rooms and packets.
import { createServer } from "node:http";
import { type WebSocket, WebSocketServer } from "ws";
import { eventOf } from "./bare-event.ts";
import { sayWhere } from "./bare-server.ts";

const http = createServer();
const rooms = new Map<string, Set<WebSocket>>();
let seq = 0;
new WebSocketServer({ server: http, perMessageDeflate: false }).on("connection", (socket) => {
  socket.on("message", (raw) => {
    const { n, name, what } = JSON.parse(String(raw));
    if (name === "watch") {
      rooms.set(what, (rooms.get(what) ?? new Set()).add(socket));
      socket.send(JSON.stringify({ n, answer: {} }));
      return;
    }
    seq += 1;
    socket.send(JSON.stringify({ n, answer: { status: "accepted", seq } }));
    const told = JSON.stringify({ session: what.session, events: [eventOf(what, seq)] });
    for (const one of rooms.get(what.session) ?? []) one.send(told);
  });
  socket.on("close", () => {
    for (const room of rooms.values()) room.delete(socket);
  });
});
sayWhere(http);
