import { fileURLToPath } from "node:url";
import react from "@vitejs/plugin-react";
import { defineConfig } from "vite";
import { firstFonts } from "./firstFonts.ts";
import { onlyWebSocket } from "./pwa/onlyWebSocket.ts";
import { installable } from "./pwa/plugin.ts";

/** Address of the server while Vite serves the panels. */
const server = process.env.CHOCKSIDE_SERVER ?? "http://127.0.0.1:4181";

/** The server accepts only its own origin, so requests through Vite carry that origin. */
const toServer = { target: server, headers: { origin: server }, ws: true, rewriteWsOrigin: true };

export default defineConfig({
  resolve: { alias: [{ find: /^zod$/, replacement: fileURLToPath(new URL("net/zod.ts", import.meta.url)) }] },
  plugins: [react(), firstFonts(), installable(), onlyWebSocket()],
  // No inlining: the server's content policy allows only files of its own, no data: addresses.
  build: {
    target: "es2022",
    sourcemap: true,
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    chunkSizeWarningLimit: 600,
    // One file for all that the first picture needs: many small ones compress worse.
    // Short hashes: the first script names every part that loads later, and hashes do not compress.
    rolldownOptions: {
      output: {
        codeSplitting: { groups: [{ name: "first", tags: ["$initial"] }] },
        chunkFileNames: "assets/[name]-[hash:7].js",
        assetFileNames: "assets/[name]-[hash:7][extname]",
      },
    },
  },
  server: {
    port: 4180,
    strictPort: true,
    fs: { allow: [".."] },
    proxy: { "/api": toServer, "/docs": toServer, "/health": toServer, "/live": toServer },
  },
});
