import { io, type ManagerOptions, type Socket } from "socket.io-client";

/** A panel's socket as the product opens it, one connection for each. */
export function panelSocket(url: string, token: string, more: Partial<ManagerOptions> = {}): Socket {
  const auth = { token, proto: 1 };
  return io(url, { path: "/live", transports: ["websocket"], forceNew: true, auth, ...more });
}
