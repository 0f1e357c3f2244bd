import { config } from "zod";

// The pages' content policy forbids eval, and browsers log every attempt.
config({ jitless: true });
