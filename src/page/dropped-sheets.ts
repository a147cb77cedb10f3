import { whyNoSheet } from "../cli/why-no-sheet.ts";
import { fileName } from "../records/file-stem.ts";
import { addTo } from "../records/grouped.ts";
import { type DroppedItem, droppedItems } from "./dropped-items.ts";
import { formatList } from "./format-list.ts";
import { withUniqueFileNames } from "./unique-file-names.ts";
import type { SheetInHand } from "./worker/messages.ts";

/** What was dropped or chosen. */
export interface DroppedSheets {
  sheets: SheetInHand[];
  /** the folder's name, when one folder was dropped */
  folder?: string;
  /** sentences on what was passed over, could not be read or was renamed */
  notes: string[];
}

interface FoundFile {
  path: string;
  file(): Promise<File> | File;
}

/** What was found in a drop, the folders that could not be opened, and those that are hidden. */
interface Found {
  files: FoundFile[];
  shut: string[];
  hidden: string[];
}

/** Files that are gone or held shut are the reader's matter; anything else is a fault of the page. */
function requireUnreadable(error: unknown): void {
  if (!(error instanceof DOMException)) throw error;
}

async function look(item: DroppedItem, above: string, found: Found): Promise<void> {
  const path = `${above}${item.name}`;
  if (item.kind === "file") {
    found.files.push({ path, file: item.file });
    return;
  }
  if (item.name.startsWith(".")) {
    found.hidden.push(path);
    return;
  }
  await lookInside(item, path, `${path}/`, found);
}

async function lookInside(
  folder: Extract<DroppedItem, { kind: "folder" }>,
  name: string,
  above: string,
  found: Found,
): Promise<void> {
  try {
    const inside = await folder.inside();
    inside.sort((a, b) => (a.name < b.name ? -1 : 1));
    for (const item of inside) await look(item, above, found);
  } catch (error) {
    requireUnreadable(error);
    found.shut.push(name);
  }
}

/** Takes the bytes as they are now, so that a later change of the file on disk does not matter. */
async function inHand({ files, shut, hidden }: Found): Promise<Omit<DroppedSheets, "folder">> {
  const read: SheetInHand[] = [];
  const passedOver = new Map<string, string[]>();
  const passOver = (path: string, why: string) => addTo(passedOver, why, path);
  for (const path of hidden) passOver(path, whyNoSheet(fileName(path))!);
  const unread: string[] = [];
  for (const { path, file } of files) {
    const why = whyNoSheet(fileName(path));
    if (why !== undefined) {
      passOver(path, why);
      continue;
    }
    try {
      read.push({ path, bytes: new Blob([await (await file()).arrayBuffer()]) });
    } catch (error) {
      requireUnreadable(error);
      unread.push(path);
    }
  }
  const { sheets, notes } = await withUniqueFileNames(read);
  if (unread.length > 0) {
    notes.push(
      `Could not be read: ${formatList(unread, unread.length)}. ${unread.length === 1 ? "It was" : "They were"} moved or deleted meanwhile, or another program holds ${unread.length === 1 ? "it" : "them"} shut. Close that program and try again.`,
    );
  }
  if (shut.length > 0) {
    notes.push(
      `This browser did not open the folder ${formatList(shut, shut.length)} for the page. Use "Choose a folder", or drop the sheets themselves.`,
    );
  }
  for (const [why, paths] of passedOver) notes.push(`Not read: ${formatList(paths, paths.length)} (${why}).`);
  return { sheets, notes };
}

/** The files of a file chooser. */
export const chosenSheets = (files: Iterable<File>): Promise<DroppedSheets> =>
  inHand({ files: [...files].map((file) => ({ path: file.name, file: () => file })), shut: [], hidden: [] });

/** The files of a folder chooser: the folder is the book and gives it its name. */
export async function chosenFolder(files: ReadonlyArray<File>): Promise<DroppedSheets> {
  const found = files.map((file) => ({ parts: file.webkitRelativePath.split("/"), file: () => file }));
  // as in a drop, where a hidden folder is not opened
  const hiddenPart = ({ parts }: (typeof found)[number]) =>
    parts.slice(1, -1).findIndex((part) => part.startsWith("."));
  const hidden = found.flatMap((one) =>
    hiddenPart(one) < 0 ? [] : [one.parts.slice(1, hiddenPart(one) + 2).join("/")],
  );
  const inOrder = found
    .filter((one) => hiddenPart(one) < 0)
    .map(({ parts, file }) => ({ path: parts.slice(1).join("/"), file }))
    .sort((a, b) => (a.path < b.path ? -1 : 1));
  const taken = await inHand({ files: inOrder, shut: [], hidden: [...new Set(hidden)] });
  const folder = found[0]?.parts[0];
  return folder === undefined ? taken : { ...taken, folder };
}

/**
 * The sheets of a drop: files, or whole folders with what is in them. A single folder is taken as the book and gives it
 * its name.
 */
export async function droppedSheets(data: DataTransfer): Promise<DroppedSheets> {
  const items = await droppedItems(data);
  const found: Found = { files: [], shut: [], hidden: [] };
  const [only] = items;
  if (items.length === 1 && only?.kind === "folder") {
    await lookInside(only, only.name, "", found);
    return { ...(await inHand(found)), folder: only.name };
  }
  for (const item of items) await look(item, "", found);
  return inHand(found);
}
