import type { LoggerOptions } from "pino";

/** Options for structured log lines on standard output. Credentials are redacted in every line. */
export const LOG_OPTIONS = {
  redact: {
    paths: [
      "token",
      "pin",
      "*.token",
      "*.pin",
      "proof",
      "*.proof",
      "req.headers.authorization",
      "req.headers.dpop",
      "req.headers.cookie",
    ],
    censor: "[withheld]",
  },
} satisfies LoggerOptions;
