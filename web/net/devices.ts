import { api } from "./app.ts";
import type { Sure } from "./sure.ts";

export interface DeviceRow {
  id: string;
  name: string;
  enrolledBy: string;
  /** Server milliseconds. */
  enrolledAt: number;
  revokedBy: string | null;
  revokedAt: number | null;
}

/** Requests about devices, for the office. */
export const devices = {
  list: () => api.pages<DeviceRow>("/api/devices"),
  code: (name: string) =>
    api.json<{ code: string; expiresAt: number }>("POST", "/api/devices/codes", { name }),
  revoke: (id: string, sure?: Sure) => api.send("POST", `/api/devices/${id}/revocation`, sure),
};
