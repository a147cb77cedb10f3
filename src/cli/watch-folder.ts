import { type FSWatcher, readdirSync, type Stats, statSync, watch } from "node:fs";
import { dirname, join, resolve } from "node:path";
import { isNoSheet } from "./is-no-sheet.ts";
import type { SeenFile } from "./settled-scan.ts";

/** What a look at a book finds: its sheets, and the folders they can appear in. */
export interface FolderLook {
  files: SeenFile[];
  folders: string[];
}

/** The facts of a file; undefined when it went away between two looks. */
function statsOf(path: string): Stats | undefined {
  try {
    return statSync(path);
  } catch {
    return undefined; // gone or not ours to see: the same as not there
  }
}

function lookInto(folder: string, passOver: ReadonlySet<string>, found: FolderLook): void {
  found.folders.push(folder);
  for (const name of readdirSync(folder)) {
    const path = join(folder, name);
    if (isNoSheet(name) || passOver.has(path)) continue;
    const stats = statsOf(path);
    if (stats?.isDirectory()) lookInto(path, passOver, found);
    else if (stats?.isFile()) found.files.push({ path, size: stats.size, changedAt: stats.mtimeMs });
  }
}

/**
 * Looks at a book on disk: every sheet under its folder, or the one file it is.
 * @param passOver full paths that are no sheets of the book, such as the log of an earlier report
 * @throws what the file system throws when the folder itself cannot be read
 */
export function lookAtBook(path: string, passOver: ReadonlySet<string>): FolderLook {
  const full = resolve(path);
  const stats = statsOf(full);
  if (stats?.isFile()) {
    return { files: [{ path: full, size: stats.size, changedAt: stats.mtimeMs }], folders: [dirname(full)] };
  }
  const found: FolderLook = { files: [], folders: [] };
  lookInto(full, passOver, found);
  return found;
}

/** Has folders watched by the system, as far as it can. */
export class FolderWatchers {
  private readonly watchers = new Map<string, FSWatcher>();

  /** @param onChange called when something in one of the folders may have changed; also too often, and never for sure */
  constructor(private readonly onChange: () => void) {}

  /** Watches these folders and no others. @returns whether all of them could be watched */
  follow(folders: ReadonlyArray<string>): boolean {
    const wanted = new Set(folders);
    for (const folder of [...this.watchers.keys()]) if (!wanted.has(folder)) this.leave(folder);
    for (const folder of wanted) {
      if (this.watchers.has(folder)) continue;
      try {
        const watcher = watch(folder, this.onChange);
        watcher.on("error", () => this.leave(folder));
        this.watchers.set(folder, watcher);
      } catch {
        return false; // network drives and full watch lists: looking now and then does it instead
      }
    }
    return true;
  }

  private leave(folder: string): void {
    this.watchers.get(folder)?.close();
    this.watchers.delete(folder);
  }

  close(): void {
    for (const folder of [...this.watchers.keys()]) this.leave(folder);
  }
}
