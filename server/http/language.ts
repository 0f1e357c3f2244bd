import type { FastifyRequest } from "fastify";
import { type Language, languageFor } from "../../shared/words/language.ts";

/** Returns the language a request asks for by Accept-Language (RFC 9110 section 12.5.4); English when none fits. */
export function languageOf(request: Pick<FastifyRequest, "headers">): Language {
  const wishes = (request.headers["accept-language"] ?? "").split(",").map((part) => {
    const [tag = "", ...rest] = part.split(";").map((p) => p.trim());
    const weight = rest.find((p) => p.startsWith("q="))?.slice(2);
    return { tag, weight: weight === undefined ? 1 : Number(weight) };
  });
  const liked = wishes.filter((w) => w.weight > 0).sort((a, b) => b.weight - a.weight);
  return languageFor(liked.map((w) => w.tag));
}
