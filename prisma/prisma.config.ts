import { defineConfig } from "prisma/config";
import { providerOf } from "./providers.mjs";

const provider = providerOf(process.env.DATABASE_URL);

// `npm run generate` writes the provider's schema.
export default defineConfig({
  schema: `generated/${provider}.prisma`,
  migrations: { path: `migrations/${provider}` },
  datasource: { url: process.env.DATABASE_URL ?? "file:./chockside.db" },
});
