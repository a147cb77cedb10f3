/** A file or a folder as it was dropped. */
export type DroppedItem = DroppedFile | DroppedFolder;

export interface DroppedFile {
  kind: "file";
  name: string;
  file(): Promise<File> | File;
}

export interface DroppedFolder {
  kind: "folder";
  name: string;
  inside(): Promise<DroppedItem[]>;
}

type Handle = FileSystemFileHandle | FileSystemDirectoryHandle;

/** Part of the File System Access draft; only some browsers have it. */
type WithHandle = DataTransferItem & { getAsFileSystemHandle?(): Promise<Handle | null> };

function fromHandle(handle: Handle): DroppedItem {
  const { name } = handle;
  if (handle.kind === "file") return { kind: "file", name, file: () => (handle as FileSystemFileHandle).getFile() };
  const inside = async (): Promise<DroppedItem[]> => {
    const items: DroppedItem[] = [];
    for await (const one of (handle as FileSystemDirectoryHandle).values()) items.push(fromHandle(one as Handle));
    return items;
  };
  return { kind: "folder", name, inside };
}

const isFile = (entry: FileSystemEntry): entry is FileSystemFileEntry => entry.isFile;

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

function fromEntry(entry: FileSystemEntry): DroppedItem {
  const { name } = entry;
  if (isFile(entry)) {
    return { kind: "file", name, file: () => new Promise((resolve, reject) => entry.file(resolve, reject)) };
  }
  const inside = async () => (await entriesOf(entry as FileSystemDirectoryEntry)).map(fromEntry);
  return { kind: "folder", name, inside };
}

/** In a page opened from disk Chromium reads a dropped folder by its handle only, other browsers by its entry. */
async function folderOf(entry: FileSystemEntry, handle: Promise<Handle | null> | undefined): Promise<DroppedItem> {
  const found = (await handle) ?? null;
  return found === null ? fromEntry(entry) : fromHandle(found);
}

/** What a drop holds. To be called while the drop is handled: the lists are emptied as soon as it is over. */
export function droppedItems(data: DataTransfer): Promise<DroppedItem[]> {
  const items = [...data.items]
    .filter(({ kind }) => kind === "file")
    .map(async (item: WithHandle): Promise<DroppedItem | undefined> => {
      const entry = item.webkitGetAsEntry();
      if (entry?.isDirectory) return folderOf(entry, item.getAsFileSystemHandle?.());
      const file = item.getAsFile();
      return file === null ? undefined : { kind: "file", name: file.name, file: () => file };
    });
  return Promise.all(items).then((all) => all.filter((item) => item !== undefined));
}
