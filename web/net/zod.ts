// Stands for "zod" in the web build. The pages' content policy forbids eval, and browsers log every attempt.
import { config } from "zod/v4";

config({ jitless: true });

// biome-ignore lint/performance/noBarrelFile: the whole library stands behind its name
export * from "zod/v4";
