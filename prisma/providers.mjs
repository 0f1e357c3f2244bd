// The databases Chockside runs on. `schema.prisma` is the one model; each provider's schema is made from it, for Prisma
// takes no provider from outside. Plain JavaScript: it runs before anything is built.
import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";

export const PROVIDERS = ["sqlite", "postgresql"];

const SCHEMA = fileURLToPath(new URL("./schema.prisma", import.meta.url));

export function providerOf(url) {
  return /^postgres(ql)?:\/\//.test(url ?? "") ? "postgresql" : "sqlite";
}

export function schemaFor(provider, model = readFileSync(SCHEMA, "utf8")) {
  const set = (text, was, becomes) => {
    if (text.split(was).length !== 2) throw new Error(`schema.prisma must say ${was} exactly once`);
    return text.replace(was, becomes);
  };
  const provided = set(model, 'provider = "sqlite"', `provider = "${provider}"`);
  return set(provided, '"./generated/sqlite"', `"./${provider}"`);
}
