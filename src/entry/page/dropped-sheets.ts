import type { SheetInHand } from "../browser/messages.ts";
import { isNoSheet } from "../is-no-sheet.ts";

/** What was dropped or chosen. */
export interface DroppedSheets {
  sheets: SheetInHand[];
  /** the folder's name, when one folder was dropped */
  folder?: string;
  /** names of files that were passed over or could not be read */
  passedOver: string[];
}

interface FoundFile {
  path: string;
  file: File;
}

const fileOf = (entry: FileSystemFileEntry): Promise<File> =>
  new Promise((resolve, reject) => entry.file(resolve, reject));

/** A folder's entries; a browser gives them a hundred at a time. */
async function entriesOf(folder: FileSystemDirectoryEntry): Promise<FileSystemEntry[]> {
  const reader = folder.createReader();
  const all: FileSystemEntry[] = [];
  for (;;) {
    const some = await new Promise<FileSystemEntry[]>((resolve, reject) => reader.readEntries(resolve, reject));
    if (some.length === 0) return all;
    all.push(...some);
  }
}

const isFile = (entry: FileSystemEntry): entry is FileSystemFileEntry => entry.isFile;
const isFolder = (entry: FileSystemEntry): entry is FileSystemDirectoryEntry => entry.isDirectory;

async function filesUnder(entry: FileSystemEntry, above: string): Promise<FoundFile[]> {
  const path = `${above}${entry.name}`;
  if (isFile(entry)) return [{ path, file: await fileOf(entry) }];
  if (!isFolder(entry) || entry.name.startsWith(".")) return [];
  const found: FoundFile[] = [];
  for (const inside of await entriesOf(entry)) found.push(...(await filesUnder(inside, `${path}/`)));
  return found;
}

/** Takes the bytes as they are now, so that a later change of the file on disk does not matter. */
async function inHand(found: ReadonlyArray<FoundFile>): Promise<Omit<DroppedSheets, "folder">> {
  const sheets: SheetInHand[] = [];
  const passedOver: string[] = [];
  for (const { path, file } of found) {
    if (isNoSheet(file.name)) {
      passedOver.push(path);
      continue;
    }
    try {
      sheets.push({ path, bytes: new Blob([await file.arrayBuffer()]) });
    } catch (error) {
      passedOver.push(`${path} (${error instanceof Error ? error.message : String(error)})`);
    }
  }
  return { sheets, passedOver };
}

/** The files of a file chooser. */
export const chosenSheets = (files: Iterable<File>): Promise<DroppedSheets> =>
  inHand([...files].map((file) => ({ path: file.name, file })));

/**
 * The sheets of a drop: files, or whole folders with what is in them. A single folder is taken as the book and gives it
 * its name.
 */
export async function droppedSheets(data: DataTransfer): Promise<DroppedSheets> {
  // the list is emptied as soon as the drop is over: take the entries first
  const entries = [...data.items].map((item) => item.webkitGetAsEntry()).filter((entry) => entry !== null);
  if (entries.length === 0) return chosenSheets(data.files);
  const found: FoundFile[] = [];
  const [only] = entries;
  const folder = entries.length === 1 && only !== undefined && isFolder(only) ? only : undefined;
  if (folder !== undefined) {
    for (const entry of await entriesOf(folder)) found.push(...(await filesUnder(entry, "")));
  } else {
    for (const entry of entries) found.push(...(await filesUnder(entry, "")));
  }
  const taken = await inHand(found);
  return folder === undefined ? taken : { ...taken, folder: folder.name };
}
