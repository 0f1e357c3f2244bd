import type { Reported } from "./api.ts";
import { api } from "./app.ts";

/** Reports a stop, where a fire burns or a defect at an aircraft without a session, or ends what stands there. */
export const reportAt = (aircraft: string, action: object) =>
  api.json<Reported>("POST", `/api/aircraft/${aircraft}/reports`, {
    commandId: crypto.randomUUID(),
    action,
  });
