// The supported databases. Each provider's schema is made from `schema.prisma`, because a Prisma schema cannot take
// its provider from a variable. Plain JavaScript, because it runs before any build.
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
