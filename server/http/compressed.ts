import compress, { type FastifyCompressRouteOptions } from "@fastify/compress";
import type { FastifyInstance } from "fastify";

/**
 * Lets the routes that ask for it compress their answers. No other answer is compressed: the length of a compressed
 * answer tells how alike its parts are, so that text put beside a secret could find it out (BREACH).
 */
export async function allowCompression(app: FastifyInstance): Promise<void> {
  await app.register(compress, { global: false });
}

/**
 * Route option: the answer is compressed from 1 KiB. For answers without a secret that everybody signed in may read.
 * A thread compresses (`syncThreshold`), so that no stop waits for it.
 */
export const COMPRESSED = {
  compress: { encodings: ["gzip"], syncThreshold: 0 } satisfies FastifyCompressRouteOptions["compress"],
};
