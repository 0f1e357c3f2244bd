import { z } from "zod";

const hexSchema = z.string().regex(/^[0-9a-f]{64}$/);

/** The first line of an aircraft's whole history: which records follow, and how far each goes. */
export const historyManifestSchema = z.strictObject({
  format: z.literal("chockside-history-1"),
  aircraft: z.string(),
  /** The records in the order of the file: the aircraft's own, if it has one, then its sessions, oldest first. */
  records: z.array(z.strictObject({ session: z.string(), events: z.number().int().min(1), head: hexSchema })),
  /** Public Ed25519 key that signed the file and each record in it, hexadecimal. */
  key: hexSchema,
  exportedAt: z.string(),
  program: z.string(),
  caution: z.string(),
});
export type HistoryManifest = z.infer<typeof historyManifestSchema>;
