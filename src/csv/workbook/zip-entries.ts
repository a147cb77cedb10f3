import { unzipSync } from "fflate";

/** Entries of an archive: every name, and the bytes of those that were wanted. */
export interface ZipEntries {
  names: string[];
  /** bytes all wanted entries have unpacked, as the archive's list has it */
  size: number;
  bytes: Record<string, Uint8Array>;
}

/**
 * Unpacks some entries of a zip archive.
 * @param largest refuse when the wanted entries unpack to more bytes than this; their bytes are then missing
 * @throws Error where the archive is damaged
 */
export function zipEntries(archive: Uint8Array, wanted: (name: string) => boolean, largest: number): ZipEntries {
  const names: string[] = [];
  let size = 0;
  unzipSync(archive, {
    filter: ({ name, originalSize }) => {
      names.push(name);
      if (wanted(name)) size += originalSize;
      return false;
    },
  });
  const bytes = size > largest ? {} : unzipSync(archive, { filter: ({ name }) => wanted(name) });
  return { names, size, bytes };
}
