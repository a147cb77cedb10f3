import { spawnSync } from "node:child_process";
import { mkdirSync, mkdtempSync, realpathSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { issuesCsv } from "../../src/cleaning/issues-csv.ts";
import { bookFiles } from "../../src/cli/book-files.ts";
import { openBook } from "../../src/cli/open-book.ts";
import { readBookFolder } from "../../src/cli/read-book-folder.ts";
import { costSheet, harvestSheet } from "./small-book.ts";

let folder = "";
let book = "";
beforeEach(() => {
  folder = realpathSync(mkdtempSync(join(tmpdir(), "gramwright-files-")));
  book = join(folder, "book");
  mkdirSync(join(book, "harvests"), { recursive: true });
  writeFileSync(join(book, "harvests", "a.csv"), harvestSheet());
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

const quiet = { say: () => undefined, done: () => undefined };
const names = () => bookFiles(book).files.map(({ name }) => name);
const reasons = () => bookFiles(book).notRead.map(({ file, reason }) => [file, reason]);

describe("every file is read or named with the reason", () => {
  test("linked sheets and folders inside the book are read, each file once, and a circle ends", () => {
    mkdirSync(join(book, ".synced"));
    writeFileSync(join(book, ".synced", "b.csv"), harvestSheet());
    symlinkSync(join("..", ".synced", "b.csv"), join(book, "harvests", "b.csv"));
    symlinkSync("a.csv", join(book, "harvests", "again.csv"));
    symlinkSync("..", join(book, "harvests", "round"));
    symlinkSync("self", join(book, "harvests", "self"));
    expect(names()).toEqual(["harvests/a.csv", "harvests/b.csv"]);
    expect(reasons()).toEqual([
      [".synced", "hidden files are not read"],
      ["harvests/self", "a link that leads back to itself"],
      ["harvests/again.csv", "a link to what is read already"],
      ["harvests/round", "a link to what is read already"],
    ]);
  });

  test("a name with a line end, or a sign that moves a cursor, is read and shown on one line", () => {
    writeFileSync(join(book, "harvests", "b\nerror: all lost\u001b[2J.csv"), harvestSheet());
    expect(names()).toEqual(["harvests/a.csv", "harvests/b↵error: all lost␛[2J.csv"]);
    expect(readBookFolder(book).sheets.map(({ path }) => path)).toEqual(names());
    expect([...readBookFolder(book).sheets[1]!.chunks()].length).toBeGreaterThan(0);
  });

  test("links out of the book and to nothing, pipes, backups, locks and documents", () => {
    writeFileSync(join(folder, "other.csv"), harvestSheet());
    symlinkSync(join(folder, "other.csv"), join(book, "harvests", "b.csv"));
    symlinkSync(folder, join(book, "harvests", "up"));
    symlinkSync("/proc", join(book, "harvests", "system"));
    symlinkSync("nowhere.csv", join(book, "harvests", "gone.csv"));
    for (const name of ["a.csv.bak", "~$a.xlsx", "notes.md", "c.csv.part"]) writeFileSync(join(book, name), "x");
    const isPiped = spawnSync("mkfifo", [join(book, "pipe.csv")]).status === 0;
    expect(names()).toEqual(["harvests/a.csv"]);
    const found = Object.fromEntries(reasons());
    expect(found).toMatchObject({
      "harvests/b.csv": "a link that leads out of the book",
      "harvests/up": "a link that leads out of the book",
      "harvests/system": "a link that leads out of the book",
      "harvests/gone.csv": "a link that leads nowhere",
      "a.csv.bak": "a backup, not a sheet",
      "~$a.xlsx": "a spreadsheet program's lock, not a sheet",
      "notes.md": "another kind of document, not a sheet",
      "c.csv.part": "not loaded to its end",
      ...(isPiped ? { "pipe.csv": "neither a file nor a folder" } : {}),
    });
  });

  test("a folder with the name of a sheet is an error; a sheet with a very long name has none beside it", () => {
    mkdirSync(join(book, "costs.csv"));
    expect(readBookFolder(book).notRead).toMatchObject([{ file: "costs.csv", severity: "error" }]);
    const long = join(folder, `${"x".repeat(245)}.csv`);
    writeFileSync(long, harvestSheet());
    expect(readBookFolder(long).files).toEqual([realpathSync(long)]);
  });

  test("the log names them, and what this program wrote itself is not read as trays", async () => {
    const before = await openBook(book, quiet);
    writeFileSync(join(book, "harvests", "a-log.csv"), issuesCsv(before.issues));
    writeFileSync(join(book, "notes.md"), "x");
    const after = await openBook(book, quiet);
    expect(after.trays).toEqual(before.trays);
    expect(after.issues.filter(({ rule }) => rule === "file-not-read")).toMatchObject([
      { file: "harvests/a-log.csv", severity: "note", reason: "a log that this program wrote, not a sheet" },
      { file: "notes.md", severity: "note" },
    ]);
  });

  test("a sheet that cannot be read is an error in the log, and its costs are known to be missing", async () => {
    writeFileSync(join(book, "costs.csv"), costSheet(46));
    const found = readBookFolder(book);
    const { readBook } = await import("../../src/engine/read-book.ts");
    const torn = found.sheets.map((sheet) =>
      sheet.path === "costs.csv"
        ? {
            ...sheet,
            *chunks(): Generator<Uint8Array> {
              yield* [];
              throw new Error("costs.csv: this account may not read or write it");
            },
          }
        : sheet,
    );
    const read = await readBook(torn, { name: "book" });
    expect(read.issues.filter(({ rule }) => rule === "file-not-read")).toMatchObject([
      { file: "costs.csv", severity: "error", reason: expect.stringMatching(/may not read/) },
    ]);
    expect(read.unread).toMatchObject([{ sheet: "costs", name: "costs.csv" }]);
    expect(read.trays).toHaveLength(16);
  });
});

describe("what is no file is refused at once", () => {
  test.skipIf(process.platform === "win32")("a pipe, a device, a file of the system", () => {
    const pipe = join(folder, "pipe.csv");
    if (spawnSync("mkfifo", [pipe]).status === 0) expect(() => readBookFolder(pipe)).toThrow(/neither a file nor a/);
    expect(() => readBookFolder("/dev/zero")).toThrow(/belongs to the system/);
    symlinkSync("/dev/zero", join(folder, "endless.csv"));
    expect(() => readBookFolder(join(folder, "endless.csv"))).toThrow(/belongs to the system/);
    expect(() => readBookFolder("/proc/self/environ")).toThrow(/belongs to the system/);
  });
});
