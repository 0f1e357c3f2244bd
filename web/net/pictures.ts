import { api } from "./app.ts";

const at = (aircraft: string, defect: string) =>
  `/api/aircraft/${encodeURIComponent(aircraft)}/defects/${encodeURIComponent(defect)}/pictures`;

/** Requests about the pictures of an aircraft's defects. */
export const pictures = {
  /** @param command id that the same picture keeps when it is sent again */
  add: (aircraft: string, defect: string, picture: Blob, command: string) =>
    api.send("POST", `${at(aircraft, defect)}?commandId=${command}`, picture),
  read: async (aircraft: string, defect: string, sha256: string): Promise<Blob> =>
    (await api.send("GET", `${at(aircraft, defect)}/${sha256}`)).blob(),
  remove: (aircraft: string, defect: string, sha256: string, reason: string) =>
    api.send("POST", `${at(aircraft, defect)}/${sha256}/removal`, {
      commandId: crypto.randomUUID(),
      reason,
    }),
};
