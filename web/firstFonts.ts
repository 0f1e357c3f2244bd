import type { Plugin } from "vite";

const FIRST = /b612-latin-(400|700)-normal-.*\.woff2$/;

/** Preloads the text fonts along with the script, so that text does not reflow when they arrive. */
export function firstFonts(): Plugin {
  return {
    name: "chockside-first-fonts",
    apply: "build",
    transformIndexHtml: {
      order: "post",
      handler: (_html, { bundle }) =>
        Object.keys(bundle ?? {})
          .filter((file) => FIRST.test(file))
          .map((file) => ({
            tag: "link",
            attrs: { rel: "preload", as: "font", type: "font/woff2", href: `/${file}`, crossorigin: "" },
            injectTo: "head" as const,
          })),
    },
  };
}
