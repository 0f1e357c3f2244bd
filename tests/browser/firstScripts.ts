/** Returns the paths of the scripts that a page names: those fetched before its first picture. */
export const firstScripts = (page: string): string[] =>
  [...page.matchAll(/"(\/assets\/[^"]+\.js)"/g)].map(([, path = ""]) => path);
