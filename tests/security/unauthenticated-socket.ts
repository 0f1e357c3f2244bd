import { randomBytes } from "node:crypto";
import { connect, type Socket } from "node:net";

/** Opens a socket by hand, without signing in. */
export function openSocket(url: string, forwardedFor?: string): Promise<Socket> {
  const socket = connect(Number(new URL(url).port), "127.0.0.1");
  const key = randomBytes(16).toString("base64");
  const forwarded = forwardedFor === undefined ? "" : `x-forwarded-for: ${forwardedFor}\r\n`;
  socket.on("error", () => {});
  socket.write(
    "GET /live/?EIO=4&transport=websocket HTTP/1.1\r\nhost: localhost\r\nupgrade: websocket\r\n" +
      `connection: Upgrade\r\nsec-websocket-version: 13\r\nsec-websocket-key: ${key}\r\n${forwarded}\r\n`,
  );
  return new Promise((resolve) => socket.once("data", () => resolve(socket)));
}
