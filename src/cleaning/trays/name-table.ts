import { trayKey } from "./tray-key.ts";

/** FNV-1a over UTF-16 units. @source Fowler, Noll and Vo; IETF draft-eastlake-fnv, 32-bit offset basis and prime */
function hashOf(key: string): number {
  let hash = 0x811c9dc5;
  for (let at = 0; at < key.length; at++) hash = Math.imul(hash ^ key.charCodeAt(at), 0x01000193);
  return hash >>> 0;
}

/**
 * Finds the first of several names that are one tray's, by `trayKey`. It keeps places, not names: a map of a million keys
 * takes more memory than what is read of the trays.
 */
export class NameTable {
  private readonly slots: Int32Array;
  private readonly hashes: Uint32Array;
  private readonly mask: number;

  /** @param most names that will be added; @param nameOf the name at a place */
  constructor(
    most: number,
    private readonly nameOf: (place: number) => string,
  ) {
    let size = 16;
    while (size < 2 * most) size *= 2;
    this.slots = new Int32Array(size).fill(-1);
    this.hashes = new Uint32Array(size);
    this.mask = size - 1;
  }

  /** Adds a name at a place, unless one like it is there. @returns the place of the first one like it */
  add(name: string, place: number): number {
    const { slots, hashes, mask } = this;
    const key = trayKey(name);
    const hash = hashOf(key);
    let slot = hash & mask;
    while (slots[slot]! >= 0) {
      if (hashes[slot] === hash && trayKey(this.nameOf(slots[slot]!)) === key) return slots[slot]!;
      slot = (slot + 1) & mask;
    }
    slots[slot] = place;
    hashes[slot] = hash;
    return place;
  }
}
