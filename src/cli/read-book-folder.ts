import { closeSync, openSync, readdirSync, readSync, statSync } from "node:fs";
import { basename, join, relative, resolve, sep } from "node:path";
import type { SheetSource } from "../records/sheet.ts";
import { isNoSheet } from "./is-no-sheet.ts";
import { fileTrouble, PlainFailure } from "./plain-failure.ts";

const pieceBytes = 1 << 20;

/** A file as a sheet that is read piece by piece, from the start each time. */
function fileSource(path: string, nameInBook: string): SheetSource {
  const { size } = statSync(path);
  function* chunks(): Generator<Uint8Array> {
    const file = openSync(path, "r");
    try {
      for (;;) {
        const piece = new Uint8Array(pieceBytes);
        const length = readSync(file, piece, 0, pieceBytes, null);
        if (length === 0) return;
        yield piece.subarray(0, length);
      }
    } finally {
      closeSync(file);
    }
  }
  return { path: nameInBook, size, chunks };
}

function sheetFilesUnder(folder: string): string[] {
  return readdirSync(folder, { withFileTypes: true })
    .sort((a, b) => (a.name < b.name ? -1 : 1))
    .flatMap((entry) => {
      const path = join(folder, entry.name);
      if (isNoSheet(entry.name)) return [];
      if (entry.isDirectory()) return sheetFilesUnder(path);
      return entry.isFile() ? [path] : [];
    });
}

/** A book as found on disk: its name and its sheets, unread. */
export interface BookFolder {
  name: string;
  path: string;
  isFolder: boolean;
  sheets: SheetSource[];
}

/**
 * Lists the sheets of a book folder, or takes one file as a book of its own.
 * @throws PlainFailure if there is nothing at the path, it cannot be read, or it holds no sheets
 */
export function readBookFolder(path: string): BookFolder {
  const full = resolve(path);
  try {
    const isFolder = statSync(full).isDirectory();
    const name = basename(full).replace(isFolder ? /$^/ : /\.[^.]+$/, "");
    if (!isFolder) return { name, path: full, isFolder, sheets: [fileSource(full, basename(full))] };
    const files = sheetFilesUnder(full);
    if (files.length === 0) {
      throw new PlainFailure(
        `${path}: this folder holds no sheets. Put a harvest sheet into ${join(path, "harvests")}, or start a book with: gramwright new ${path}`,
      );
    }
    const sheets = files.map((file) => fileSource(file, relative(full, file).split(sep).join("/")));
    return { name, path: full, isFolder, sheets };
  } catch (error) {
    if (error instanceof PlainFailure) throw error;
    throw new PlainFailure(`${path}: ${fileTrouble(error)}. Give the folder of a book, or one harvest sheet.`);
  }
}
