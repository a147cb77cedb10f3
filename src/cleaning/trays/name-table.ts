import { plainKey, trayKey } from "./tray-key.ts";

/** Longer names take the long way. */
const longestPlain = 64;

/**
 * Finds the first of several names that are one tray's, by `trayKey`. It keeps places, not names: a map of a million keys
 * takes more memory than what is read of the trays.
 */
export class NameTable {
  /** of each slot the place of its name and the name's hash, side by side; -1 for no name */
  private readonly slots: Int32Array;
  private readonly mask: number;
  private readonly codes = new Uint16Array(longestPlain);

  /** @param most names that will be added; @param nameOf the name at a place */
  constructor(
    most: number,
    private readonly nameOf: (place: number) => string,
  ) {
    let size = 16;
    while (size < 2 * most) size *= 2;
    this.slots = new Int32Array(2 * size).fill(-1);
    this.mask = size - 1;
  }

  /**
   * FNV-1a over the UTF-16 units of a name's key, which is not made a text for it. The last one only moves the name
   * within the place of those before it: what is looked for row after row then lies side by side.
   * @source Fowler, Noll and Vo; IETF draft-eastlake-fnv, 32-bit offset basis and prime
   */
  private hashOf(name: string): number {
    const { codes } = this;
    const plain = plainKey(name, codes);
    const key = plain > 0 ? "" : trayKey(name);
    const last = (plain > 0 ? plain : key.length) - 1;
    let hash = 0x811c9dc5 | 0;
    for (let at = 0; at < last; at++)
      hash = Math.imul(hash ^ (plain > 0 ? codes[at]! : key.charCodeAt(at)), 0x01000193);
    return (hash << 4) ^ (plain > 0 ? codes[last]! : key.charCodeAt(last));
  }

  /** Adds a name at a place, unless one like it is there. @returns the place of the first one like it */
  add(name: string, place: number): number {
    const { slots, mask } = this;
    const hash = this.hashOf(name);
    let slot = hash & mask;
    while (slots[2 * slot]! >= 0) {
      const there = slots[2 * slot]!;
      if (slots[2 * slot + 1] === hash && trayKey(this.nameOf(there)) === trayKey(name)) return there;
      slot = (slot + 1) & mask;
    }
    slots[2 * slot] = place;
    slots[2 * slot + 1] = hash;
    return place;
  }
}
