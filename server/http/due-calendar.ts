import type { FastifyPluginAsyncZod } from "fastify-type-provider-zod";
import { z } from "zod";
import { LANGUAGES } from "../../shared/words/language.ts";
import { SPOKEN } from "../../shared/words/spoken.ts";
import type { AccountUses } from "../auth/account-uses.ts";
import { type ServiceAccounts, scopeOf } from "../auth/service-accounts.ts";
import type { Clock } from "../clock.ts";
import { duesCalendar } from "../house/calendar.ts";
import type { Dues } from "../house/dues.ts";
import { text } from "./download.ts";
import { ProblemError } from "./problem.ts";

export interface DueCalendarRoute {
  accounts: ServiceAccounts;
  uses: AccountUses;
  dues: Dues;
  clock: Clock;
}

/**
 * The route of the dues for calendar programs, which cannot sign in: their address holds the token of a service account
 * whose scope is this calendar. Any other address is not found, so that it says nothing about accounts.
 */
export const dueCalendarRoute: FastifyPluginAsyncZod<DueCalendarRoute> = async (
  app,
  { accounts, uses, dues, clock },
) => {
  app.get(
    "/due-calendar/:token",
    {
      config: { problems: ["notFound", "tooMany"] },
      schema: {
        operationId: "readSubscribedDueCalendar",
        tags: ["dues"],
        summary: "The last days as a calendar (RFC 5545), by the secret address of a service account",
        params: z.strictObject({ token: z.string().max(100) }),
        querystring: z.strictObject({ language: z.enum(LANGUAGES).default("en") }),
        produces: ["text/calendar"],
        response: { 200: text("The calendar") },
      },
      serializerCompiler: () => (calendar) => calendar as unknown as string,
    },
    async (request, reply) => {
      const known = await accounts.who(request.params.token, request.ip);
      if (known.is === "tooMany")
        throw new ProblemError("tooMany", "Too many tokens are being checked: wait a moment", {
          retryAfterMs: 2_000,
        });
      if (known.is === "unknown" || !scopeOf(known.account, "dueCalendar"))
        throw new ProblemError("notFound", "There is no calendar at this address, or it has ended");
      uses.used(known.account.id, { address: request.ip, path: request.routeOptions.url ?? "" });
      return reply
        .header("content-type", "text/calendar; charset=utf-8")
        .header("cache-control", "private, no-store")
        .send(duesCalendar(await dues.list(), SPOKEN[request.query.language], clock.now()));
    },
  );
};
