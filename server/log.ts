import type { LoggerOptions } from "pino";

/** Structured lines on standard output. What signs a person in never stands in one, whoever logs it. */
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
