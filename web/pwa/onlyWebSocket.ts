import type { Plugin } from "vite";

const TABLE = "engine.io-client/build/esm/transports/index.js";

/** Files of the transports that the package exports beside its socket. They run code when loaded, so they are kept otherwise. */
const OTHERS = /engine\.io-client\/build\/esm\/transports\/(?:polling|webtransport)/;

/** The lines of the table, and its imports, of every transport other than WebSocket. */
const UNUSED = /^import \{ (?:XHR|WT) \}.*$|^\s+(?:webtransport|polling): \w+,$/gm;

/** Files of packets with binary parts. The panels and the server send JSON alone, and the server would refuse others. */
const BINARY: Readonly<Record<string, string>> = {
  "socket.io-parser/build/esm/is-binary.js": "export const isBinary = () => false; export const hasBinary = isBinary;",
  "socket.io-parser/build/esm/binary.js":
    "export const deconstructPacket = (packet) => ({ packet, buffers: [] }); export const reconstructPacket = (packet) => packet;",
};

/**
 * Leaves out of the socket's library what the panels never use: other transports, and binary packets.
 * The connection asks for WebSocket alone, but the library names every transport in one table, so that no bundler drops
 * the others.
 */
export function onlyWebSocket(): Plugin {
  return {
    name: "only-websocket",
    apply: "build",
    transform(code, id) {
      if (OTHERS.test(id)) return { code, map: null, moduleSideEffects: false };
      const plain = Object.entries(BINARY).find(([file]) => id.endsWith(file));
      if (plain) return { code: plain[1], map: null };
      return id.endsWith(TABLE) ? { code: code.replaceAll(UNUSED, ""), map: null } : null;
    },
  };
}
