import { api } from "./app.ts";
import type { SignedIn } from "./keep.ts";

export interface Passkey {
  id: string;
  deviceName: string;
  /** Server milliseconds. */
  createdAt: number;
  usedAt: number | null;
}

/** Whether this browser can make and show passkeys by what the server sends. */
const canDo = () =>
  "PublicKeyCredential" in globalThis &&
  "parseCreationOptionsFromJSON" in PublicKeyCredential &&
  "parseRequestOptionsFromJSON" in PublicKeyCredential;

/** Passkeys (W3C Web Authentication): the browser's part, and the server's. */
export const passkeys = {
  /** Here, on an enrolled device. */
  async here(): Promise<boolean> {
    return canDo() && (await api.enrolled());
  },
  list: () => api.json<Passkey[]>("GET", "/api/me/passkeys"),
  remove: (id: string) => api.send("DELETE", `/api/me/passkeys/${id}`),

  /** Rejects with the server's no, or with the browser's when the person let it be. */
  async make(pin: string): Promise<void> {
    const options = await api.json<PublicKeyCredentialCreationOptionsJSON>(
      "POST",
      "/api/me/passkeys/options",
      { pin },
    );
    const publicKey = PublicKeyCredential.parseCreationOptionsFromJSON(options);
    await api.send("POST", "/api/me/passkeys", said(await navigator.credentials.create({ publicKey })));
  },

  async signIn(): Promise<SignedIn> {
    api.token = null;
    const options = await api.json<PublicKeyCredentialRequestOptionsJSON>(
      "POST",
      "/api/sign-in/passkey/options",
    );
    const publicKey = PublicKeyCredential.parseRequestOptionsFromJSON(options);
    const shown = said(await navigator.credentials.get({ publicKey }));
    const { token, person } = await api.json<SignedIn>("POST", "/api/sign-in/passkey", shown);
    return { token, person };
  },
};

const said = (credential: Credential | null): unknown => (credential as PublicKeyCredential).toJSON();
