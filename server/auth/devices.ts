import type { JWK } from "jose";
import type { Clock } from "../clock.ts";
import { sha256 } from "../sha256.ts";
import type { DeviceRecord } from "../store/devices.ts";
import type { Directory } from "../store/directory.ts";
import type { Identity } from "./identity.ts";
import { OfficeRefused, qualified } from "./refused.ts";
import type { SignIns } from "./sign-ins.ts";

/** Lifetime of an enrolment code. Milliseconds. */
export const CODE_MS = 5 * 60_000;

/** The issuer recorded for codes given out on the server's console. */
export const CONSOLE = "console";

/** The issuer recorded for the code of an empty house's first device. */
export const FIRST = "firstRun";

interface DevicesDeps {
  directory: Directory;
  clock: Clock;
  ids: { device(): string; enrolmentCode(): string };
}

type By = Identity["person"];

/** Returns the code without spaces and dashes, in capitals: people type it by hand. */
const bare = (code: string) => code.toUpperCase().replaceAll(/[\s-]/g, "");

/** Issues a code that enrols one device within five minutes, or the given time. Only its hash is stored. */
export async function giveCode(
  { directory, clock, ids }: Omit<DevicesDeps, "ids"> & { ids: { enrolmentCode(): string } },
  issuedBy: string,
  deviceName: string,
  lifetimeMs = CODE_MS,
): Promise<{ code: string; expiresAt: number }> {
  const now = clock.now();
  await directory.devices.forgetCodes(now - lifetimeMs);
  const code = ids.enrolmentCode();
  const expiresAt = now + lifetimeMs;
  await directory.devices.addCode({ codeHash: sha256(bare(code)), deviceName, issuedBy, expiresAt });
  return { code, expiresAt };
}

/** Enrols devices by one-time codes and revokes them. Every method may throw OfficeRefused. */
export class Devices {
  readonly #deps: DevicesDeps;
  readonly #signIns: SignIns;

  constructor(deps: DevicesDeps, signIns: SignIns) {
    this.#deps = deps;
    this.#signIns = signIns;
  }

  code(by: By, deviceName: string): Promise<{ code: string; expiresAt: number }> {
    qualified(by);
    return giveCode(this.#deps, by.id, deviceName);
  }

  /** Enrols the key that the request's proof was signed with. The code is used up even when enrolment fails. */
  async enrol(code: string, key: { thumbprint: string; publicKey: JWK }): Promise<DeviceRecord> {
    const { directory, clock, ids } = this.#deps;
    const now = clock.now();
    const used = await directory.devices.takeCode(sha256(bare(code)), now);
    if (!used)
      throw new OfficeRefused("codeWrong", "This code is wrong, was used, or is too old: ask for another");
    if (await directory.devices.byThumbprint(key.thumbprint))
      throw new OfficeRefused("enrolledAlready", "This device was enrolled before: make a new key on it");
    const device: DeviceRecord = {
      id: ids.device(),
      name: used.deviceName,
      publicKey: JSON.stringify(key.publicKey),
      thumbprint: key.thumbprint,
      enrolledBy: used.issuedBy,
      enrolledAt: now,
      revokedBy: null,
      revokedAt: null,
    };
    await directory.devices.add(device);
    return device;
  }

  all(by: By): Promise<DeviceRecord[]> {
    qualified(by);
    return this.#deps.directory.devices.all();
  }

  /** Revokes the device and ends its sign-ins. Nobody can sign in on it again. */
  async revoke(by: By, id: string): Promise<void> {
    qualified(by);
    const { directory, clock } = this.#deps;
    if (!(await directory.devices.one(id))) throw new OfficeRefused("notFound", "There is no such device");
    await directory.devices.revoke(id, by.id, clock.now());
    await this.#signIns.endAll({ deviceId: id });
  }
}
