import { randomBytes, randomInt, randomUUID } from "node:crypto";
import { REHEARSAL_CODE } from "../shared/protocol/rehearsal.ts";

/** Letters and digits that are not mistaken for each other when read aloud or in sunlight. */
const CODE_ALPHABET = "ACDEFGHJKMNPRTUVWXY34679";
const CODE_LENGTH = 6;
/** 24 different characters carry 4.58 bits each, so 28 of them carry 128. */
const ENROLMENT_CODE_LENGTH = 28;

/** A start's code, or a rehearsal's, which has its mark before it. */
export const CODE_PATTERN = new RegExp(`^(?:${REHEARSAL_CODE})?[${CODE_ALPHABET}]{${CODE_LENGTH}}$`);

export const randomIds = {
  session: () => randomUUID(),
  signIn: () => randomUUID(),
  person: () => randomUUID(),
  device: () => randomUUID(),
  /** 64 bits, hexadecimal. */
  serviceAccount: () => randomBytes(8).toString("hex"),
  /** 128 bits, hexadecimal. */
  salt: () => randomBytes(16).toString("hex"),
  code: () => signs(CODE_LENGTH),
  /** In groups of four, to read aloud. */
  enrolmentCode: () => (signs(ENROLMENT_CODE_LENGTH).match(/.{4}/g) ?? []).join("-"),
  /** 256 bits, base64url. */
  token: () => randomBytes(32).toString("base64url"),
};

function signs(length: number): string {
  return Array.from({ length }, () => CODE_ALPHABET[randomInt(CODE_ALPHABET.length)]).join("");
}
