import type { Plugin } from "vite";

const TABLE = "engine.io-client/build/esm/transports/index.js";

/** Files of the transports that the package exports beside its socket. They run code when loaded, so they are kept otherwise. */
const OTHERS = /engine\.io-client\/build\/esm\/transports\/(?:polling|webtransport)/;

/** The lines of the table, and its imports, of every transport other than WebSocket. */
const UNUSED = /^import \{ (?:XHR|WT) \}.*$|^\s+(?:webtransport|polling): \w+,$/gm;

/**
 * Leaves out the transports that the panels never use. The connection asks for WebSocket alone, but the library names
 * every transport in one table, so that no bundler drops the others.
 */
export function onlyWebSocket(): Plugin {
  return {
    name: "only-websocket",
    apply: "build",
    transform(code, id) {
      if (OTHERS.test(id)) return { code, map: null, moduleSideEffects: false };
      return id.endsWith(TABLE) ? { code: code.replaceAll(UNUSED, ""), map: null } : null;
    },
  };
}
