import { describe, expect, test } from "vitest";
import { chosenFolder, chosenSheets } from "../../src/page/dropped-sheets.ts";

/** A file as a folder chooser gives it. */
const inFolder = (path: string, text: string): File =>
  Object.defineProperty(new File([text], path.split("/").at(-1)!), "webkitRelativePath", { value: path });

describe("every file of a drop is read or named with the reason", () => {
  test("of a folder, a hidden one by its own name", async () => {
    const others = Array.from({ length: 8 }, (_, k) => `photo-${k}.png`);
    const paths = ["b/harvests/a.csv", "b/a.csv.bak", "b/.synced/one.csv", "b/.synced/deep/two.csv", "b/~$a.xlsx"];
    const given = [...paths, ...others.map((name) => `b/${name}`)].map((path) => inFolder(path, path));
    const { folder, sheets, notes } = await chosenFolder(given);
    expect([folder, sheets.map(({ path }) => path)]).toEqual(["b", ["harvests/a.csv"]]);
    expect(notes).toEqual([
      "Not read: .synced (hidden files are not read).",
      "Not read: a.csv.bak (a backup, not a sheet).",
      `Not read: ${others.join(", ")} (another kind of document, not a sheet).`,
      "Not read: ~$a.xlsx (a spreadsheet program's lock, not a sheet).",
    ]);
  });

  test("of single files, those that cannot be opened too", async () => {
    const gone = new File(["x"], "gone.csv");
    gone.arrayBuffer = () => Promise.reject(new DOMException("gone", "NotFoundError"));
    const { sheets, notes } = await chosenSheets([new File(["x"], "a.csv"), new File(["x"], "notes.md"), gone]);
    expect(sheets.map(({ path }) => path)).toEqual(["a.csv"]);
    expect(notes).toEqual([
      expect.stringMatching(/^Could not be read: gone.csv. It was moved or deleted/),
      "Not read: notes.md (another kind of document, not a sheet).",
    ]);
  });
});
