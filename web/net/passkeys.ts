import { api } from "./app.ts";
import type { SignedIn } from "./keep.ts";

export interface Passkey {
  id: string;
  deviceName: string;
  /** Server milliseconds. */
  createdAt: number;
  usedAt: number | null;
}

/** True when this browser supports passkeys with the JSON options that the server sends. */
const canDo = () =>
  "PublicKeyCredential" in globalThis &&
  "parseCreationOptionsFromJSON" in PublicKeyCredential &&
  "parseRequestOptionsFromJSON" in PublicKeyCredential;

/** Requests about passkeys (W3C Web Authentication), with the calls to the browser. */
export const passkeys = {
  /** True when passkeys can be used on this device: the browser supports them and the device is enrolled. */
  async here(): Promise<boolean> {
    return canDo() && (await api.enrolled());
  },
  list: () => api.pages<Passkey>("/api/me/passkeys"),
  remove: (id: string) => api.send("DELETE", `/api/me/passkeys/${id}`),

  /**
   * Creates and registers a passkey. Rejects with the server's problem, or with the browser's error when the person
   * cancels.
   */
  async make(pin: string): Promise<void> {
    const options = await api.json<PublicKeyCredentialCreationOptionsJSON>(
      "POST",
      "/api/me/passkeys/options",
      { pin },
    );
    const publicKey = PublicKeyCredential.parseCreationOptionsFromJSON(options);
    await api.send("POST", "/api/me/passkeys", asJson(await navigator.credentials.create({ publicKey })));
  },

  async signIn(): Promise<SignedIn> {
    api.token = null;
    const options = await api.json<PublicKeyCredentialRequestOptionsJSON>(
      "POST",
      "/api/sign-in/passkey/options",
    );
    const publicKey = PublicKeyCredential.parseRequestOptionsFromJSON(options);
    const shown = asJson(await navigator.credentials.get({ publicKey }));
    return api.json<SignedIn>("POST", "/api/sign-in/passkey", shown);
  },
};

const asJson = (credential: Credential | null): unknown => (credential as PublicKeyCredential).toJSON();
