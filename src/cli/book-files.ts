import { type Dirent, readdirSync, realpathSync, type Stats, statSync } from "node:fs";
import { join, relative, sep } from "node:path";
import type { NotRead } from "../engine/read-book.ts";
import { visibleText } from "../report/visible-text.ts";
import { fileTrouble } from "./plain-failure.ts";
import { isSystemPlace } from "./system-place.ts";
import { whyNoSheet } from "./why-no-sheet.ts";

/** A file's name as messages and logs give it: one can hold a line end. */
export const shownName = (name: string): string => visibleText(name, Number.POSITIVE_INFINITY);

/** A sheet of a book on disk. */
export interface BookFile {
  /** inside the book, as it is shown, with forward slashes, links not followed */
  name: string;
  /** whole, links followed */
  path: string;
  size: number;
  /** when it was last written, in milliseconds */
  changedAt: number;
}

/** What is found in a book's folder. */
export interface BookFiles {
  files: BookFile[];
  /** the folders they can appear in, links followed */
  folders: string[];
  /** everything else, with the reason */
  notRead: NotRead[];
}

/** The facts of a path, links followed, and where it leads; what went wrong where that cannot be had. */
function lookAt(path: string): { stats: Stats; real: string } | string {
  try {
    return { stats: statSync(path), real: realpathSync(path) };
  } catch (error) {
    const code = error instanceof Error && "code" in error ? error.code : "";
    if (code === "ELOOP") return "a link that leads back to itself";
    return code === "ENOENT" ? "a link that leads nowhere" : fileTrouble(error);
  }
}

const namedAsSheet = /\.(?:csv|tsv|txt|xlsx|ods)$/i;

class BookSearch {
  readonly found: BookFiles = { files: [], folders: [], notRead: [] };
  /** files and folders by where they lead: each is read once */
  private readonly met = new Set<string>();
  private readonly links: { entry: string; real: string; stats: Stats }[] = [];

  /** @param top the book's folder, links followed */
  constructor(private readonly top: string) {}

  private nameOf = (path: string): string => shownName(relative(this.top, path).split(sep).join("/"));

  private leave(path: string, reason: string, severity: NotRead["severity"], action = ""): void {
    this.found.notRead.push({ file: this.nameOf(path), reason, severity, action });
  }

  private look(path: string, isLink: boolean): void {
    const seen = lookAt(path);
    if (typeof seen === "string") {
      if (isLink) this.leave(path, seen, "warning", "Put the sheet itself into the book");
      return; // it went away while the folder was looked at
    }
    if (isLink) this.links.push({ entry: path, ...seen });
    else this.take(path, seen.real, seen.stats);
  }

  private take(path: string, real: string, stats: Stats): void {
    if (stats.isDirectory()) {
      if (namedAsSheet.test(path)) {
        this.leave(path, "a folder with the name of a sheet", "error", "Put the sheet itself in its place");
      }
      this.into(path, real);
      return;
    }
    if (!stats.isFile()) {
      this.leave(path, "neither a file nor a folder", "warning", "Take it out of the book");
      return;
    }
    this.met.add(real);
    this.found.files.push({ name: this.nameOf(path), path: real, size: stats.size, changedAt: stats.mtimeMs });
  }

  private into(path: string, real: string): void {
    this.met.add(real);
    this.found.folders.push(real);
    let entries: Dirent[];
    try {
      entries = readdirSync(real, { withFileTypes: true });
    } catch (error) {
      if (real === this.top) throw error;
      this.leave(path, fileTrouble(error), "error", "Allow it to be read, then run again");
      return;
    }
    for (const entry of entries.sort((a, b) => (a.name < b.name ? -1 : 1))) {
      const own = join(path, entry.name);
      const why = whyNoSheet(entry.name);
      if (why === undefined) this.look(own, entry.isSymbolicLink());
      else this.leave(own, why, "note");
    }
  }

  /** Links come after everything that is there itself, so that a sheet is read under its own name. */
  private follow({ entry, real, stats }: (typeof this.links)[number]): void {
    const isInside = real === this.top || real.startsWith(`${this.top}${sep}`);
    if (!isInside || isSystemPlace(real)) {
      this.leave(entry, "a link that leads out of the book", "warning", "Put the sheet itself into the book");
    } else if (this.met.has(real)) {
      this.leave(entry, "a link to what is read already", "note");
    } else this.take(entry, real, stats);
  }

  run(): BookFiles {
    this.into(this.top, this.top);
    for (let link = this.links.shift(); link !== undefined; link = this.links.shift()) this.follow(link);
    this.found.files.sort((a, b) => (a.name < b.name ? -1 : 1));
    return this.found;
  }
}

/**
 * Everything under a book's folder: its sheets, and what is not read with the reason. Links inside the book are followed,
 * each file is read once, and links in a circle end.
 * @param folder whole, links followed
 * @throws what the file system throws when the folder itself cannot be read
 */
export const bookFiles = (folder: string): BookFiles => new BookSearch(folder).run();
