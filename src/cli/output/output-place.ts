import {
  accessSync,
  closeSync,
  constants,
  existsSync,
  fstatSync,
  lstatSync,
  openSync,
  readSync,
  realpathSync,
  statSync,
} from "node:fs";
import { dirname, join, relative, resolve, sep } from "node:path";
import { headBytes, type OwnOutput, ownOutput } from "../../engine/own-output.ts";
import { fileTrouble, PlainFailure } from "../plain-failure.ts";
import type { BookFolder } from "../read-book-folder.ts";
import { isSystemPlace } from "../system-place.ts";

/** A file that is to be written, its text aside. */
export interface PlannedOutput {
  path: string;
  /** "sheet": a person may fill it in, so it is never written over, whoever made it */
  kind: OwnOutput | "sheet";
  /** the option that says where it goes, for a message; absent where its name is all that is given */
  option?: string;
  /** it may go into the book's own folder; nothing else does */
  intoBook?: true;
}

/** A file to write. */
export interface Output extends PlannedOutput {
  text: string;
}

/** The book that outputs are made from: none of it is written to. */
export type Originals = Pick<BookFolder, "path" | "isFolder" | "files">;

/** What a path is, links not followed; undefined where there is nothing. */
function factsOf(path: string) {
  try {
    return lstatSync(path);
  } catch (error) {
    if (error instanceof Error && "code" in error && error.code === "ENOENT") return undefined;
    throw error;
  }
}

/** How a file starts. Neither a link nor a pipe is opened. */
function headOf(path: string): string {
  const { O_RDONLY, O_NOFOLLOW = 0, O_NONBLOCK = 0 } = constants;
  const file = openSync(path, O_RDONLY | O_NOFOLLOW | O_NONBLOCK);
  try {
    const bytes = new Uint8Array(Math.min(headBytes, fstatSync(file).size));
    return new TextDecoder().decode(bytes.subarray(0, readSync(file, bytes, 0, bytes.length, 0)));
  } finally {
    closeSync(file);
  }
}

/** Whether a file is one of ours of the same kind, which a newer one may replace. */
export const isOurs = (path: string, kind: Output["kind"]): boolean =>
  kind !== "sheet" && ownOutput(headOf(path)) === kind;

/** The nearest folder above a path that is there. */
function nearest(path: string): string {
  const above = dirname(path);
  return existsSync(above) || above === path ? above : nearest(above);
}

/** What to do about a place that cannot be written to. */
export const elsewhereBy = (option: string | undefined): string =>
  option === undefined ? "Give another place for it." : `Give another place with ${option}.`;

const isWithin = (path: string, folder: string): boolean => path === folder || path.startsWith(`${folder}${sep}`);

/** The place of a path, links in its folder followed, and the folder that is there already. Nothing is made. */
function placeOf(path: string): { place: string; above: string } {
  const full = resolve(path);
  const there = nearest(full);
  const above = realpathSync(there);
  if (isSystemPlace(full) || isSystemPlace(above)) {
    throw new PlainFailure(`${path}: this belongs to the system; nothing is written there. Give another place.`);
  }
  return { place: join(above, relative(there, full)), above };
}

/**
 * Where an output goes. Nothing is made or written, so that a place can be refused before any work is done.
 * @param originals what it is made from; absent where it is made from nothing
 * @returns the whole path, links in its folder followed
 * @throws PlainFailure where a link, a stranger's file, or a sheet of the book lies there, it would go into the book, or its
 *   folder cannot be made or written to
 */
export function outputPlace({ path, kind, option, intoBook }: PlannedOutput, originals?: Originals): string {
  const refuse = (why: string): PlainFailure => new PlainFailure(`${path}: ${why} Nothing was written.`);
  const elsewhere = elsewhereBy(option);
  try {
    const { place, above } = placeOf(path);
    if (originals?.isFolder && intoBook !== true && isWithin(above, originals.path)) {
      throw refuse(
        `this lies inside the book, where it would be taken for a part of it. Give a folder beside the book.`,
      );
    }
    if (!statSync(above).isDirectory()) throw refuse(`${above} is a file, not a folder. ${elsewhere}`);
    accessSync(above, constants.W_OK | constants.X_OK);
    const facts = factsOf(place);
    if (facts === undefined) return place;
    if (facts.isSymbolicLink()) throw refuse(`there is a link of that name, which is not followed. ${elsewhere}`);
    if (facts.isDirectory()) throw refuse("this is a folder. Give the name of a file in it.");
    if (!facts.isFile()) throw refuse(`what is there is no file. ${elsewhere}`);
    const isOriginal = originals?.files.some((file) => {
      const one = statSync(file);
      return one.ino === facts.ino && one.dev === facts.dev;
    });
    if (isOriginal) throw refuse(`this is one of the sheets that were read. ${elsewhere}`);
    if (kind !== "sheet" && !isOurs(place, kind)) {
      throw refuse(`another file is already there, which this program did not write. ${elsewhere}`);
    }
    return place;
  } catch (error) {
    if (error instanceof PlainFailure) throw error;
    throw refuse(`${fileTrouble(error)}. ${elsewhere}`);
  }
}
