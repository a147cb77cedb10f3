import { describe, expect, test } from "vitest";
import { cleanBook } from "../../../src/cleaning/clean-book.ts";
import { withAnsweredSettings } from "../../../src/engine/answered-settings.ts";
import { type SheetQuestion, sheetQuestions } from "../../../src/engine/sheet-questions.ts";
import type { Book } from "../../../src/records/book.ts";
import { bookOf, inShort, sheet } from "../book-of.ts";

const typed = "Tray,LC ml,Fresh g,Outcome\nT1,10,abc,\nT2,10,231,meh\nT3,15,1 kg 200,\nT4,15,240,good\n";

const open = ({ issues, columns }: Book): SheetQuestion[] =>
  sheetQuestions(issues, columns).filter(({ state }) => state === "open");

describe("single cells answered", () => {
  test("cells.csv is read in place of what was typed, and every cell so read is in the log", async () => {
    const answers = "file,row,tray,column,value\nspring.csv,2,T1,Fresh g,205 g\nspring,3,,Outcome,good\n,4,,fresh_g,\n";
    const book = await bookOf({ "spring.csv": typed, "cells.csv": answers });
    expect(inShort(book)).toEqual(["T1: good 205/", "T2: good 231/", "T3: asked", "T4: good 240/"]);
    expect(book.issues.filter(({ rule }) => rule === "cell-answered")).toMatchObject([
      { row: 2, column: "Fresh g", raw: "abc", result: "205 g", severity: "change" },
      { row: 3, column: "Outcome", raw: "meh", result: "good", severity: "change" },
    ]);
  });

  test("a column the sheet has not is added, and only for a canonical name", async () => {
    const sheets = { "spring.csv": "Tray,LC ml,Fresh g,Notes\nT1,10,,sold\nT2,15,231,\n" };
    const book = await bookOf({ ...sheets, "cells.csv": "file,row,tray,column,value\nspring.csv,2,T1,outcome,good\n" });
    expect(inShort(book)).toEqual(["T1: good", "T2: good 231/"]);
    const odd = await bookOf({ ...sheets, "cells.csv": "file,row,tray,column,value\nspring.csv,2,T1,Ending,good\n" });
    expect(odd.issues).toContainEqual(expect.objectContaining({ file: "cells.csv", row: 2, rule: "no-such-cell" }));
  });

  test("lines that meet no cell, or name none, are pointed out", async () => {
    const answers = "file,row,tray,column,value\nspring.csv,99,,Fresh g,205\nspring.csv,here,,Fresh g,205\n";
    const { issues } = await bookOf({ "spring.csv": typed, "cells.csv": answers });
    const own = issues.filter(({ file }) => file === "cells.csv");
    expect(own.map(({ rule, row }) => [rule, row])).toEqual([
      ["no-such-cell", 2],
      ["cell-answer-without-place", 3],
    ]);
  });

  test("a line whose tray stands in another row is not of this one, and the columns are told", async () => {
    const sheets = { "spring.csv": typed, "cells.csv": "file,row,tray,column,value\nspring.csv,2,T3,Fresh g,205\n" };
    const book = await bookOf(sheets);
    expect(inShort(book)).toEqual(["T1: asked", "T2: asked 231/", "T3: asked", "T4: good 240/"]);
    expect(book.issues.find(({ rule }) => rule === "no-such-cell")?.expected).toBe(
      "a row of spring.csv with its own tray, and a column: Tray, LC ml, Fresh g, Outcome",
    );
  });

  test("of several trays in a row the one named is meant", async () => {
    const wide = { "spring.csv": "Cook,3 ml,6 ml\nA,205,meh\nB,198,226\n" };
    const line = "spring.csv,2,A (6 ml),Weight,231";
    const book = await bookOf({ ...wide, "cells.csv": `file,row,tray,column,value\n${line}\n` });
    expect(inShort(book)).toEqual([
      "A (3 ml): good 205/",
      "A (6 ml): good 231/",
      "B (3 ml): good 198/",
      "B (6 ml): good 226/",
    ]);
  });

  test("each question about a cell, answered as the page does, is gone, and its sheet of answers can be saved", async () => {
    const source = sheet("spring.csv", typed);
    const asked = open(await cleanBook([source]));
    expect(asked.map(({ meaning, choices }) => [meaning, choices.length])).toEqual([
      ["What should “Fresh g” say? (spring.csv, row 2, tray T1)", 0],
      ["What became of the tray? (spring.csv, row 3, tray T2)", 5],
      ["What should “Fresh g” say? (spring.csv, row 4, tray T3)", 0],
    ]);
    const given = asked.map(({ key, choices }) => [key, choices[0] ?? "210 g"] as const);
    const { sources, answered } = await withAnsweredSettings([source], given);
    const book = await cleanBook(sources);
    expect(open(book)).toEqual([]);
    expect(inShort(book)).toEqual(["T1: good 210/", "T2: good 231/", "T3: good 210/", "T4: good 240/"]);
    expect(answered.cells).toMatch(/^file,row,tray,column,value,note\r\nspring\.csv,2,T1,Fresh g,210 g,answered\r\n/);
    // an answer changed takes the stead of the first
    const again = await withAnsweredSettings(sources, [[given[0]![0], "199 g"]]);
    expect(inShort(await cleanBook(again.sources))[0]).toBe("T1: good 199/");
  });
});
