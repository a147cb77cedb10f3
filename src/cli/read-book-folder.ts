import { closeSync, constants, fstatSync, openSync, readSync, realpathSync, statSync } from "node:fs";
import { basename, dirname, join, relative, resolve } from "node:path";
import type { NotRead } from "../engine/read-book.ts";
import type { SheetSource } from "../records/sheet.ts";
import { type BookFile, bookFiles, shownName } from "./book-files.ts";
import { fileTrouble, PlainFailure } from "./plain-failure.ts";
import { isSystemPlace } from "./system-place.ts";

/** As long as the stretches a text is cut in: longer texts are kept outside of the heap, which takes longer to make and to cut. */
const mostPieceBytes = 1 << 15;
const fewestPieceBytes = 1 << 10;

/** A file as a sheet that is read piece by piece, from the start each time. */
function fileSource({ path, name, size }: Pick<BookFile, "path" | "name" | "size">): SheetSource {
  function* chunks(): Generator<Uint8Array> {
    let file: number | undefined;
    try {
      // what was a file when it was looked at may be a pipe by now: opening that would wait for ever
      file = openSync(path, constants.O_RDONLY | (constants.O_NONBLOCK ?? 0));
      const stats = fstatSync(file);
      if (!stats.isFile()) throw new PlainFailure(`${name}: it is not a file any more`);
      const room = Math.min(mostPieceBytes, stats.size + fewestPieceBytes);
      for (;;) {
        // nothing of it is seen but what was read into it
        const piece = new Uint8Array(Buffer.allocUnsafeSlow(room).buffer);
        const length = readSync(file, piece, 0, room, null);
        if (length === 0) return;
        yield piece.subarray(0, length);
      }
    } catch (error) {
      if (error instanceof PlainFailure) throw error;
      throw new PlainFailure(`${name}: ${fileTrouble(error)}`);
    } finally {
      if (file !== undefined) closeSync(file);
    }
  }
  return { path: name, size, chunks };
}

/** A book as found on disk: its name and its sheets, unread. */
export interface BookFolder {
  name: string;
  /** whole, links followed */
  path: string;
  isFolder: boolean;
  sheets: SheetSource[];
  /** where the sheets lie, links followed */
  files: string[];
  /** what else lies there, with the reason why it is not read */
  notRead: NotRead[];
}

/** What is known of a file that may not be there; beside a sheet with a very long name there can be none. */
function statsOf(path: string): ReturnType<typeof statSync> | undefined {
  try {
    return statSync(path, { throwIfNoEntry: false });
  } catch (error) {
    if (error instanceof Error && "code" in error && error.code === "ENAMETOOLONG") return undefined;
    throw error;
  }
}

/**
 * What says how one sheet is to be read: spring.settings.csv, spring.columns.csv and spring.cells.csv beside spring.csv, or
 * else settings.csv, columns.csv and cells.csv there.
 */
function besideSheet(path: string): Pick<BookFile, "path" | "name" | "size">[] {
  const stem = path.replace(/\.[^./\\]+$/, "");
  return ["settings", "columns", "cells"].flatMap((kind) => {
    for (const beside of [`${stem}.${kind}.csv`, join(dirname(path), `${kind}.csv`)]) {
      const stats = beside === path ? undefined : statsOf(beside);
      if (stats?.isFile()) return [{ path: beside, name: shownName(basename(beside)), size: Number(stats.size) }];
    }
    return [];
  });
}

/** A book's name and place, its sheets not looked for. */
type BookPlace = Pick<BookFolder, "name" | "path" | "isFolder">;

/** @throws PlainFailure where the path leads to neither a file nor a folder, and what the file system throws */
function placeOf(given: string): BookPlace & { size: number } {
  const path = realpathSync(resolve(given));
  const stats = statSync(path);
  if (isSystemPlace(path)) {
    throw new PlainFailure(
      `${given}: this belongs to the system and is no sheet. Give the folder of a book, or one harvest sheet.`,
    );
  }
  if (!stats.isFile() && !stats.isDirectory()) {
    throw new PlainFailure(
      `${given}: this is neither a file nor a folder. Give the folder of a book, or one harvest sheet.`,
    );
  }
  const isFolder = stats.isDirectory();
  const name = shownName(isFolder ? basename(path) : basename(resolve(given)).replace(/\.[^.]+$/, ""));
  return { name, path, isFolder, size: stats.size };
}

function readPath(given: string): BookFolder {
  const place = placeOf(given);
  const { path, isFolder, size } = place;
  if (isFolder) {
    const { files, notRead } = bookFiles(path);
    return { ...place, sheets: files.map(fileSource), files: files.map((file) => file.path), notRead };
  }
  const files = [{ name: shownName(basename(resolve(given))), path, size }, ...besideSheet(path)];
  return { ...place, sheets: files.map(fileSource), files: files.map((file) => file.path), notRead: [] };
}

/** Trouble at the path of a book, with what to do about it. */
const bookTrouble = (path: string, error: unknown): PlainFailure =>
  error instanceof PlainFailure
    ? error
    : new PlainFailure(`${path}: ${fileTrouble(error)}. Give the folder of a book, or one harvest sheet.`);

/**
 * Where a book lies, whether or not there is a sheet in it yet.
 * @throws PlainFailure where there is nothing at the path, or neither a file nor a folder
 */
export function bookPlace(path: string): BookPlace {
  try {
    return placeOf(path);
  } catch (error) {
    throw bookTrouble(path, error);
  }
}

/** The folder a book lies in, where what is made from it goes. @param path of the book, as given */
export function besideBook(path: string): string {
  try {
    return relative(process.cwd(), dirname(realpathSync(path))) || ".";
  } catch {
    return "."; // there is no book there, which is said when it is read
  }
}

/** What is not read that a reader would take for a sheet. */
const missed = ({ notRead }: BookFolder): string => {
  const [first] = notRead.filter(({ severity }) => severity !== "note");
  return first === undefined ? "" : ` (${first.file} is not read: ${first.reason})`;
};

/**
 * Lists the sheets of a book folder, or takes one file as a book of its own.
 * @throws PlainFailure if there is nothing at the path, it cannot be read, or it holds no sheets
 */
export function readBookFolder(path: string): BookFolder {
  try {
    const folder = readPath(path);
    if (folder.sheets.length > 0) return folder;
    throw new PlainFailure(
      `${path}: this folder holds no sheets${missed(folder)}. Put a harvest sheet into ${join(path, "harvests")}, or start a book with: gramwright new ${path}`,
    );
  } catch (error) {
    throw bookTrouble(path, error);
  }
}
