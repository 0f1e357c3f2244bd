/** A set of 64-bit fingerprints in flat memory: 8 bytes a slot, at most two thirds full. */
export class Seen {
  private slots: Uint32Array;
  private mask: number;
  size = 0;

  constructor(bits = 16) {
    this.mask = 2 ** bits - 1;
    this.slots = new Uint32Array(2 ** (bits + 1));
  }

  get bytes(): number {
    return this.slots.byteLength;
  }

  /** Adds a fingerprint given as two unsigned 32-bit halves; returns false when it was there already. */
  add(low: number, high: number): boolean {
    if (this.size * 3 > this.mask * 2) this.grow();
    // Two zero halves mark a free slot.
    const added = this.place(this.slots, this.mask, low, low === 0 && high === 0 ? 1 : high);
    if (added) this.size += 1;
    return added;
  }

  private place(slots: Uint32Array, mask: number, low: number, high: number): boolean {
    let at = (low ^ Math.imul(high, 0x9e3779b1)) & mask;
    for (;;) {
      const l = slots[2 * at];
      const h = slots[2 * at + 1];
      if (l === 0 && h === 0) break;
      if (l === low && h === high) return false;
      at = (at + 1) & mask;
    }
    slots[2 * at] = low;
    slots[2 * at + 1] = high;
    return true;
  }

  private grow(): void {
    const mask = this.mask * 2 + 1;
    const slots = new Uint32Array(2 * (mask + 1));
    for (let i = 0; i < this.slots.length; i += 2) {
      const low = this.slots[i] as number;
      const high = this.slots[i + 1] as number;
      if (low !== 0 || high !== 0) this.place(slots, mask, low, high);
    }
    this.slots = slots;
    this.mask = mask;
  }
}
