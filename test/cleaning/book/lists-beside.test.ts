import { describe, expect, test } from "vitest";
import { leaveOtherLists } from "../../../src/cleaning/leave-other-lists.ts";
import { passOverCopies } from "../../../src/cleaning/pass-over-copies.ts";
import { withPlaceNames } from "../../../src/cleaning/place-names.ts";
import type { RawTable } from "../../../src/records/sheet.ts";
import { bookOf } from "../book-of.ts";
import { tableOfText } from "../side-sheets/table-of-text.ts";

const tablesOf = (...texts: [text: string, path: string][]): Promise<RawTable[]> =>
  Promise.all(texts.map(([text, path]) => tableOfText(text, path)));

describe("tables that name no trays, beside those that do", () => {
  const trays = "Tray,Fresh g\nA,1\n";
  test.each([
    ["book.xlsx > Averages", "LC ml,Fresh g\n5,205\n", false],
    ["book.ods > Mittelwerte", "Dosis ml,Frisch g\n5,205\n", false],
    ["book.xlsx > Averages", "Tray,LC ml,Fresh g\nB,5,205\n", true],
    ["book.xlsx > Run 2", "LC ml,Fresh g\n5,205\n", true],
    ["averages.csv", "LC ml,Fresh g\n5,205\n", true],
  ])("a tab called %s", async (file, text, isKept) => {
    const { kept } = leaveOtherLists(await tablesOf([trays, "book.xlsx > Run"], [text, file]), [], new Set());
    expect(kept.length).toBe(isKept ? 2 : 1);
  });

  test.each([
    ["a name for a tray", "Tray,Colour\nB,1\n", true],
    ["a weight", "Dry weight,Colour\n2,1\n", true],
    ["a dose", "LC ml,Colour\n2,1\n", true],
    ["spawn", "Spawn (g),Colour\n2,1\n", true],
    ["a share of spawn", "Spawn (%),Colour\n2,1\n", true],
    ["a word that may be a weight beside another thing of trays", "Weight,Strain\n2,1\n", true],
    ["a word that may be a weight alone", "Weight,Colour\n2,1\n", false],
    ["a word that may be a weight beside what any list has", "Weight,Operator,Shelf,Note\n2,1,x,y\n", false],
    ["a thing of trays alone", "Strain,Colour\n2,1\n", false],
    ["nothing", "Name,Colour\n2,1\n", false],
  ])("%s", async (_, text, isKept) => {
    const [first, second] = await tablesOf([trays, "a.csv"], [text, "b.csv"]);
    const { kept, issues, leftOut } = leaveOtherLists([first!, second!], [], new Set());
    expect(kept).toEqual(isKept ? [first, second] : [first]);
    expect(issues.map(({ rule, severity, file }) => [rule, severity, file])).toEqual(
      isKept ? [] : [["unknown-sheet", "warning", "b.csv"]],
    );
    expect(leftOut.map(({ file, row, rule }) => [file, row, rule])).toEqual(
      isKept ? [] : [["b.csv", 2, "no-harvest-sheet"]],
    );
  });

  test("a table whose role is stated, or with a column pinned to one of trays, is kept", async () => {
    const [first, second] = await tablesOf([trays, "a.csv"], ["Name,Colour\n2,1\n", "b.csv"]);
    const all = [first!, second!];
    expect(leaveOtherLists(all, [], new Set([second!])).kept).toEqual(all);
    const pin = { file: "", header: " NAME ", unit: "" };
    expect(leaveOtherLists(all, [{ ...pin, field: "tray_id" }], new Set()).kept).toEqual(all);
    expect(leaveOtherLists(all, [{ ...pin, field: "strain" }], new Set()).kept).toEqual([first]);
  });

  test("where nothing names trays all are kept in doubt, and the first that has a thing of trays is asked about", async () => {
    const tables = await tablesOf(["Name,Colour\n2,1\n", "a.csv"], ["Strain,Colour\n2,1\n", "dir/b.csv"]);
    const { kept, issues } = leaveOtherLists(tables, [], new Set());
    expect(kept).toEqual(tables);
    expect(kept.map(({ isInDoubt }) => isInDoubt)).toEqual([true, true]);
    expect(issues).toMatchObject([
      { rule: "no-trays-named", severity: "error", file: "dir/b.csv", raw: "Strain, Colour", setting: "sheet_role" },
    ]);
    expect(issues[0]!.action).toContain("sheet_role = harvest with b.csv in a column sheet of settings.csv");
    const [nothing] = await tablesOf(["Name,Colour\n2,1\n", "a.csv"]);
    expect(leaveOtherLists([nothing!], [], new Set())).toMatchObject({ kept: [nothing], issues: [] });
  });

  test("counts of trays beside a mean sum up trays that others name; alone they are what there is", async () => {
    const means = "Dose ml,Trays,Mean fresh\n5,6,196\n";
    const [first, second] = await tablesOf([trays, "a.csv"], [means, "b.csv"]);
    const beside = leaveOtherLists([first!, second!], [], new Set());
    expect(beside.kept).toEqual([first]);
    expect(beside.issues[0]!.reason).toContain("sums up trays");
    expect(leaveOtherLists([second!], [], new Set()).kept).toEqual([second]);
    const [named] = await tablesOf(["Tray,Trays,Mean fresh\nA,6,196\n", "c.csv"]);
    expect(leaveOtherLists([first!, named!], [], new Set()).kept).toEqual([first, named]);
  });

  test("a thousand rows of such tables are listed", async () => {
    const [first, second] = await tablesOf([trays, "a.csv"], [`Name,Colour\n${"x,1\n".repeat(1200)}`, "b.csv"]);
    expect(leaveOtherLists([first!, second!], [], new Set()).leftOut).toHaveLength(1000);
  });
});

describe("what the names of tabs, files and folders say of all trays", () => {
  test.each([
    ["Batch A.csv", "batch", "A"],
    ["batch_12.csv", "batch", "12"],
    ["Batch #3.csv", "batch", "3"],
    ["batch-B2.csv", "batch", "B2"],
    ["Shelf 3/trays.csv", "shelf", "3"],
    ["Load 2/x/trays.csv", "load", "2"],
    ["LC jar 4.csv", "jar", "4"],
    ["Tent 1.csv", "chamber", "1"],
    ["flush 2.csv", "flush", "2"],
    ["book.xlsx > Batch C", "batch", "C"],
    ["Batch 1/Batch 2.csv", "batch", "2"],
    ["5 ml.csv", "inoculum_ml", "5"],
    ["2.5 mL.csv", "inoculum_ml", "2.5"],
    ["10cc group.csv", "inoculum_ml", "10"],
    ["Batch 2026.csv", undefined, ""],
    ["Batch 1999.csv", undefined, ""],
    ["Batch 1850.csv", "batch", "1850"],
    ["Strain 3.csv", undefined, ""],
    ["Batch 12345.csv", undefined, ""],
    ["Batch.csv", undefined, ""],
    ["batch ab.csv", undefined, ""],
    ["5 g.csv", undefined, ""],
    ["5 ml more and more.csv", undefined, ""],
  ])("%s says %s %s", async (path, field, value) => {
    const [table] = await tablesOf(["Tray,Fresh g\nA,1\n", "a.csv"]);
    const { tables, issues } = withPlaceNames([{ ...table!, file: path }]);
    const rows: string[][] = [];
    tables[0]!.forEachRow((cells) => rows.push([...cells]));
    expect(rows).toEqual([field === undefined ? ["A", "1"] : ["A", "1", value]]);
    expect(tables[0]!.header).toHaveLength(field === undefined ? 2 : 3);
    expect(issues.map(({ result, reason }) => [result, reason.includes(`says ${field} ${value} of`)])).toEqual(
      field === undefined ? [] : [[value, true]],
    );
  });

  test("but not what a column says, nor a flush beside columns of flushes", async () => {
    const said = async (text: string, path: string): Promise<number> => {
      const [table] = await tablesOf([text, "a.csv"]);
      return withPlaceNames([{ ...table!, file: path }]).issues.length;
    };
    expect(await said("Tray,Batch\nA,1\n", "Batch 2.csv")).toBe(0);
    expect(await said("Tray,Dose ml\nA,1\n", "5 ml.csv")).toBe(0);
    expect(await said("Tray,Flush 1 g\nA,1\n", "flush 2.csv")).toBe(0);
    expect(await said("Tray,Fresh g\nA,1\n", "Shelf 2/Batch 2.csv")).toBe(2);
  });
});

describe("a cleaned copy", () => {
  const typed = "Tray,Fresh,Dry\nT01,200,20\nT02,210,21\nT03,220,22\n";
  const tidy = (rows: string): string => `tray_id,outcome,fresh_g,dry_g\n${rows}`;
  const same = "t1,good,200,20\nT-2,good,210,21\nt 3,good,220,22\n";
  const passed = async (...texts: [string, string][]): Promise<string[]> =>
    passOverCopies(await tablesOf(...texts)).issues.map(({ file, raw }) => `${file} of ${raw}`);
  test("is known by its trays, whatever the case, marks and noughts of their names", async () => {
    expect(await passed([typed, "a.csv"], [tidy(same), "b.csv"])).toEqual(["b.csv of a.csv"]);
    expect(await passed([tidy(same), "b.csv"], [typed, "a.csv"])).toEqual(["b.csv of a.csv"]);
    expect(await passed([typed, "a.csv"], [tidy(same.replace("t1", "t9")), "b.csv"])).toEqual([]);
    expect(await passed([typed, "a.csv"], [tidy(`${same}t4,good,230,23\n`), "b.csv"])).toEqual([]);
    expect(await passed([tidy(same), "b.csv"])).toEqual([]);
    expect(await passed([typed, "a.csv"], [typed, "b.csv"])).toEqual([]);
    expect(await passed([typed, "a.csv"], [tidy("t1,good,,\nt2,good,,\nt3,good,,\n"), "b.csv"])).toEqual([]);
  });
  test("of a cleaned sheet is one only where its name says so", async () => {
    expect(await passed([tidy(same), "a.csv"], [tidy(same), "b.csv"])).toEqual([]);
    for (const name of [
      "a-clean.csv",
      "a fixed.csv",
      "tidy.csv",
      "a copy.csv",
      "Kopie von a.csv",
      "copie.csv",
      "copia.csv",
      "bereinigt.csv",
      "a-fix.csv",
    ])
      expect(await passed([tidy(same), "a.csv"], [tidy(same), name])).toEqual([`${name} of a.csv`]);
    expect(await passed([tidy(same), "a.csv"], [tidy(same), "clean/suffixes.csv"])).toEqual([]);
  });
  test("in decimal commas is one too", async () => {
    const commas = "Tray;Fresh;Dry\nT1;200,5;20,5\nT2;210,5;21,5\nT3;220,5;22,5\n";
    const points = tidy("T1,good,200.5,20.5\nT2,good,210.5,21.5\nT3,good,220.5,22.5\n");
    expect(await passed([commas, "a.csv"], [points, "b.csv"])).toEqual(["b.csv of a.csv"]);
  });
});

/** What a book lacks that cannot answer anything. */
test.each([
  ["Tray,Dose ml,Fresh g\nA,5,200\nB,10,210\n", []],
  ["Tray,Fresh g\nA,200\nB,210\n", ["no-varied-column"]],
  ["Tray,Dose ml\nA,5\nB,10\n", ["no-result-column"]],
  ["Tray,Batch,Shelf,Inoculated,Note,Fresh g\nA,1,2,2026-01-01,x,200\nB,1,2,2026-01-01,y,210\n", ["no-varied-column"]],
  ["Tray,Dose ml,Outcome\nA,5,good\nB,10,contam\n", []],
  ["Tray,Dose ml,Picked on\nA,5,2026-01-01\nB,10,2026-01-01\n", []],
  // a column of one's own in which a few values recur can be what was varied
  ["Tray,Quux,Fresh g\nA,x,200\nB,y,210\nC,x,205\nD,y,211\n", []],
  ["Tray,Quux,Fresh g\nA,x,200\nB,y,210\nC,z,205\nD,w,211\n", ["no-varied-column"]],
  // a column asked about counts as one
  ["Tray,Dose ml,Fresh wt,Harvest weight\nA,5,200,210\nB,10,210,220\n", []],
  // numbers that look like weights beside an outcome
  ["Tray,Dose ml,Outcome,Quux\nA,5,good,200\nB,10,good,210\nC,5,good,205\n", ["no-weight-column"]],
  ["Tray,Dose ml,Outcome,Price\nA,5,good,200\nB,10,good,210\nC,5,good,205\n", []],
])("%j lacks %j", async (text, rules) => {
  const { issues } = await bookOf({ "a.csv": text });
  expect(issues.map(({ rule }) => rule).filter((rule) => /^no-(?:varied|result|weight)-column$/.test(rule))).toEqual(
    rules,
  );
});

test("what is lacking is asked for with the lines that would most likely settle it", async () => {
  const { issues, columns } = await bookOf({ "a.csv": "Tray,Dose ml,Quux\nA,5,200\nB,10,210\nC,5,205\n" });
  const asked = issues.find(({ rule }) => rule === "no-result-column")!;
  expect(asked).toMatchObject({ file: "a.csv", severity: "error" });
  expect(asked.action.split("\n")).toEqual([
    "Add a column such as fresh_g with each tray’s fresh weight in grams, or put the right ones of these lines into columns.csv:",
    "file,header,field",
    "a.csv,Quux,fresh_g",
  ]);
  expect(columns.find(({ header }) => header === "Quux")?.mayBe).toEqual(["fresh_g"]);
  const none = (await bookOf({ "a.csv": "Tray,Dose ml\nA,5\nB,10\n" })).issues.find(
    ({ rule }) => rule === "no-result-column",
  )!;
  expect(none.action).toBe("Add a column such as fresh_g with each tray’s fresh weight in grams");
});
