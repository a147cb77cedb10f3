import { type FSWatcher, realpathSync, statSync, watch } from "node:fs";
import { dirname } from "node:path";
import { bookFiles } from "../book-files.ts";
import type { SeenFile } from "./settled-scan.ts";

/** What a look at a book finds: its sheets, and the folders they can appear in. */
export interface FolderLook {
  files: SeenFile[];
  folders: string[];
}

/**
 * Looks at a book on disk: every sheet under its folder, or the one file it is.
 * @throws what the file system throws when there is nothing at the path
 */
export function lookAtBook(path: string): FolderLook {
  const full = realpathSync(path);
  const stats = statSync(full);
  if (stats.isDirectory()) return bookFiles(full);
  return { files: [{ path: full, size: stats.size, changedAt: stats.mtimeMs }], folders: [dirname(full)] };
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
