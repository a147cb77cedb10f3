import { unzipSync } from "fflate";
import { WorkbookLimit } from "./workbook-limit.ts";

/** A part's name as it is compared: forward slashes, no leading one, in lower case. */
export const partName = (name: string): string => name.replaceAll("\\", "/").replace(/^\/+/, "").toLowerCase();

/** A zip archive whose entries are unpacked only when they are asked for, by their names as `partName` has them. */
export class ZipEntries {
  /** as the archive's list has them */
  readonly names: ReadonlyArray<string>;
  private readonly sizes = new Map<string, number>();
  private left: number;

  /**
   * @param most bytes that may be unpacked in all
   * @throws Error where the archive is damaged
   */
  constructor(
    private readonly archive: Uint8Array,
    most: number,
  ) {
    const names: string[] = [];
    unzipSync(archive, {
      filter: ({ name, originalSize }) => {
        names.push(name);
        const part = partName(name);
        this.sizes.set(part, (this.sizes.get(part) ?? 0) + originalSize);
        return false;
      },
    });
    this.names = names;
    this.left = most;
  }

  has(part: string): boolean {
    return this.sizes.has(partName(part));
  }

  /**
   * Unpacks these parts at one go; those that are not there are left out.
   * @throws WorkbookLimit where that would be more bytes than may be unpacked; Error where one is damaged
   */
  unpack(parts: ReadonlyArray<string>): Map<string, Uint8Array> {
    const wanted = new Set(parts.map(partName));
    for (const part of wanted) this.left -= this.sizes.get(part) ?? 0;
    if (this.left < 0) throw new WorkbookLimit("huge workbook");
    const found = unzipSync(this.archive, { filter: ({ name }) => wanted.has(partName(name)) });
    return new Map(Object.entries(found).map(([name, bytes]) => [partName(name), bytes]));
  }

  /** One part as text; undefined where there is none. */
  text(part: string): string | undefined {
    const bytes = this.has(part) ? this.unpack([part]).get(partName(part)) : undefined;
    return bytes === undefined ? undefined : new TextDecoder().decode(bytes);
  }
}
