import { defineConfig } from "prisma/config";
import { providerOf } from "./providers.mjs";

const provider = providerOf(process.env.DATABASE_URL);

// The provider's own schema is written by `npm run generate`.
export default defineConfig({
  schema: `generated/${provider}.prisma`,
  migrations: { path: `migrations/${provider}` },
  datasource: { url: process.env.DATABASE_URL ?? "file:./chockside.db" },
});
