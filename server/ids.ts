import { randomBytes, randomInt, randomUUID } from "node:crypto";

/** Letters and digits nobody mistakes for each other when read aloud or off a screen in the sun. */
const CODE_ALPHABET = "ACDEFGHJKMNPRTUVWXY34679";
const CODE_LENGTH = 6;

export const CODE_PATTERN = new RegExp(`^[${CODE_ALPHABET}]{${CODE_LENGTH}}$`);

export const randomIds = {
  session: () => randomUUID(),
  signIn: () => randomUUID(),
  person: () => randomUUID(),
  code: () =>
    Array.from({ length: CODE_LENGTH }, () => CODE_ALPHABET[randomInt(CODE_ALPHABET.length)]).join(""),
  /** 256 bits, opaque. */
  token: () => randomBytes(32).toString("base64url"),
};
