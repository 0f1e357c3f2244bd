import react from "@vitejs/plugin-react";
import { defineConfig } from "vite";
import { firstFonts } from "./firstFonts.ts";
import { installable } from "./pwa/plugin.ts";

/** Where the server listens while the panels are served by Vite. */
const server = process.env.CHOCKSIDE_SERVER ?? "http://127.0.0.1:4181";

/** The server lets in its own origin alone, so requests through Vite bear that one. */
const toServer = { target: server, headers: { origin: server }, ws: true, rewriteWsOrigin: true };

export default defineConfig({
  plugins: [react(), firstFonts(), installable()],
  // Nothing is inlined: the server's content policy lets in its own files alone, no data: addresses.
  build: { target: "es2022", sourcemap: true, assetsInlineLimit: 0, modulePreload: { polyfill: false } },
  server: {
    port: 4180,
    strictPort: true,
    fs: { allow: [".."] },
    proxy: { "/api": toServer, "/docs": toServer, "/health": toServer, "/live": toServer },
  },
});
