import { z } from "zod";

/** Forms of pictures that are taken. */
export const PICTURE_MEDIA = ["image/jpeg", "image/png", "image/webp"] as const;
export type PictureMedia = (typeof PICTURE_MEDIA)[number];

export const sha256Schema = z.string().regex(/^[0-9a-f]{64}$/, "must be a SHA-256, lower-case hexadecimal");

/** A picture as the evidence names it. Its bytes lie beside the evidence, and may be gone. */
export const pictureSchema = z.strictObject({
  /** Of the bytes that are kept: those without what the camera wrote about place, time and itself. */
  sha256: sha256Schema,
  media: z.enum(PICTURE_MEDIA),
  /** Bytes. */
  length: z.number().int().min(1),
  /** In pixels. */
  width: z.number().int().min(1),
  height: z.number().int().min(1),
});
export type Picture = z.infer<typeof pictureSchema>;
