import { readFileSync } from "node:fs";
import { isIP } from "node:net";
import { z } from "zod";
import { StartRefused } from "../start-refused.ts";
import { WEBHOOK_KINDS } from "./kinds.ts";

const network = z.string().refine((text) => {
  const [address = "", bits = ""] = text.split("/");
  const most = isIP(address) === 6 ? 128 : 32;
  return isIP(address) !== 0 && /^\d{1,3}$/.test(bits) && Number(bits) >= 1 && Number(bits) <= most;
}, "must be a network such as 10.1.2.0/24");

const targetSchema = z
  .strictObject({
    /** It names the file with how far this target came. */
    name: z.string().regex(/^[a-z0-9-]{1,40}$/, "must be small letters, digits and hyphens"),
    url: z.url({ protocol: /^https?$/ }),
    /** Standard Webhooks: `whsec_` and 24 to 64 bytes in base64. */
    secret: z
      .string()
      .regex(/^whsec_[A-Za-z0-9+/]{32,88}={0,2}$/, "must be whsec_ and 24 to 64 bytes in base64"),
    kinds: z.array(z.enum(WEBHOOK_KINDS)).min(1),
    /** Networks outside the public internet that it may be in. */
    networks: z.array(network).max(10).default([]),
  })
  .refine(({ url, networks }) => url.startsWith("https:") || networks.length > 0, {
    path: ["url"],
    message: "must be https, unless its network is named",
  })
  .refine(({ url }) => new URL(url).username === "" && new URL(url).password === "", {
    path: ["url"],
    message: "must not hold a password",
  });
export type Target = z.infer<typeof targetSchema>;

/** Webhooks that an operator may set. */
export const MOST_TARGETS = 10;

const targetsSchema = z
  .array(targetSchema)
  .max(MOST_TARGETS)
  .refine((all) => new Set(all.map((t) => t.name)).size === all.length, "each name is used once");

/**
 * Returns the targets of the operator's file.
 * @throws StartRefused names each fault, never a secret
 */
export function readTargets(file: string): Target[] {
  let entered: unknown;
  try {
    entered = JSON.parse(readFileSync(file, "utf8"));
  } catch (error) {
    throw new StartRefused(`CHOCKSIDE_WEBHOOKS cannot be read: ${(error as Error).message}`);
  }
  const read = targetsSchema.safeParse(entered);
  if (read.success) return read.data;
  const faults = read.error.issues.map((i) => `${i.path.join(".")} ${i.message}`);
  throw new StartRefused(`CHOCKSIDE_WEBHOOKS is wrong: ${faults.join("; ")}`);
}
