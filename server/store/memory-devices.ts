import type { DeviceRecord, DeviceStore, EnrolmentCode } from "./devices.ts";

/** Devices in memory. */
export class MemoryDevices implements DeviceStore {
  readonly #devices = new Map<string, DeviceRecord>();
  readonly #codes = new Map<string, EnrolmentCode>();

  async all(): Promise<DeviceRecord[]> {
    return [...this.#devices.values()].sort((a, b) => b.enrolledAt - a.enrolledAt);
  }

  async one(id: string): Promise<DeviceRecord | null> {
    return this.#devices.get(id) ?? null;
  }

  async byThumbprint(thumbprint: string): Promise<DeviceRecord | null> {
    return [...this.#devices.values()].find((d) => d.thumbprint === thumbprint) ?? null;
  }

  async add(device: DeviceRecord): Promise<void> {
    if (await this.byThumbprint(device.thumbprint)) throw new Error("this key is enrolled already");
    this.#devices.set(device.id, device);
  }

  async revoke(id: string, by: string, at: number): Promise<void> {
    const device = this.#devices.get(id);
    if (device && device.revokedAt === null)
      this.#devices.set(id, { ...device, revokedBy: by, revokedAt: at });
  }

  async addCode(code: EnrolmentCode): Promise<void> {
    this.#codes.set(code.codeHash, code);
  }

  async takeCode(codeHash: string, now: number): Promise<EnrolmentCode | null> {
    const code = this.#codes.get(codeHash);
    if (!code || code.expiresAt <= now) return null;
    this.#codes.delete(codeHash);
    return code;
  }

  async withdrawCodes(issuedBy: string): Promise<void> {
    for (const code of this.#codes.values())
      if (code.issuedBy === issuedBy) this.#codes.delete(code.codeHash);
  }

  async forgetCodes(before: number): Promise<void> {
    for (const { codeHash, expiresAt } of this.#codes.values())
      if (expiresAt < before) this.#codes.delete(codeHash);
  }
}
