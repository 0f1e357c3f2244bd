import { io, type ManagerOptions, type Socket } from "socket.io-client";

/** Opens a panel's socket as the product does, with its own connection. */
export function panelSocket(url: string, token: string, more: Partial<ManagerOptions> = {}): Socket {
  const auth = { token, proto: 1 };
  return io(url, { path: "/live", transports: ["websocket"], forceNew: true, auth, ...more });
}
