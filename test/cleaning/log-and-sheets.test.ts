import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { cleanedHarvestCsv } from "../../src/cleaning/cleaned-harvest-csv.ts";
import { issuesCsv } from "../../src/cleaning/issues-csv.ts";
import { proposeColumns } from "../../src/cleaning/propose-columns.ts";
import { roleByName } from "../../src/cleaning/sort-sources.ts";
import { groupSentence, issueGroups } from "../../src/records/issue-groups.ts";
import { allFacts, bookOf, harvestOf, rulesOf, sheet, trayOf } from "./book-of.ts";

const demo = (book: string, file: string): string =>
  readFileSync(new URL(`../../data-samples/${book}/${file}`, import.meta.url), "utf8");

const demoBook = (book: string) =>
  bookOf(
    Object.fromEntries(
      ["settings.csv", "costs.csv", "products.csv", "harvests/2026-spring.csv", "harvests/2026-summer.csv"].map(
        (file) => [file, demo(book, file)],
      ),
    ),
  );

describe("the demo book", () => {
  test("the sheet as typed and the tidy one give the same trays, but for remarks", async () => {
    const [tidy, typed] = [await demoBook("demo-book"), await demoBook("as-typed-book")];
    const facts = (book: typeof tidy) => allFacts(book).map(({ note: _note, ...rest }) => rest);
    expect(tidy.trays.length).toBeGreaterThan(60);
    expect(facts(typed)).toEqual(facts(tidy));
    expect(typed.issues.filter(({ severity }) => severity === "error")).toEqual([]);
    expect(
      tidy.issues
        .filter(({ severity }) => severity === "change" || severity === "error")
        .filter(({ file }) => file.startsWith("harvests")),
    ).toEqual([]);
  });

  test("its cleaned sheet reads back as the same trays without a change", async () => {
    const typed = await demoBook("as-typed-book");
    const again = await bookOf({
      "settings.csv": demo("as-typed-book", "settings.csv"),
      "harvests/all.csv": cleanedHarvestCsv(typed),
    });
    expect(allFacts(again)).toEqual(allFacts(typed));
    expect(again.issues.filter(({ severity, file }) => severity === "change" && file === "harvests/all.csv")).toEqual(
      [],
    );
  });
});

describe("the log", () => {
  const text = "Tray,Temp,Fresh wt (g),Inoculated\nA,64,~45,3/4/26\nB,62,contam,4/5/26\nC,61,=1+1,5/5/26\n";

  test("groups read like sentences, what needs doing first", async () => {
    const groups = issueGroups((await harvestOf(text)).issues);
    expect(groups.map(groupSentence)).toContain(
      "3 cells of “Temp” read as °F because as °C they would cook the mushrooms",
    );
    expect(groups.find(({ rule }) => rule === "day-or-month")).toMatchObject({ count: 2, setting: "date_order" });
    const gravity = groups.map(({ severity }) => ["error", "warning", "note", "change"].indexOf(severity));
    expect(gravity).toEqual([...gravity].sort());
    expect(groups.reduce((sum, { count }) => sum + count, 0)).toBe((await harvestOf(text)).issues.length);
  });

  test("entries stand in the order of file, row and column, with the cell as typed", async () => {
    const { issues } = await harvestOf(text);
    const rows = issues.map(({ row }) => row);
    expect(rows).toEqual([...rows].sort((a, b) => a - b));
    expect(issues.filter(({ row }) => row === 2).map(({ column, raw }) => [column, raw])).toEqual([
      ["Temp", "64"],
      ["Fresh wt (g)", "~45"],
      ["Inoculated", "3/4/26"],
    ]);
  });

  test("as a sheet it is guarded against formulas", async () => {
    const csv = issuesCsv((await harvestOf(text)).issues);
    expect(csv.split("\r\n")[0]).toBe("file,row,column,tray,raw,result,rule,severity,reason,expected,action,setting");
    expect(csv).toContain(",'=1+1,");
    expect(csv).not.toContain(",=1+1");
  });
});

describe("columns.csv", () => {
  const text = "tray_id,Fresh wt,Harvest weight,Dose\nA,200,210,2\n";

  test("what is proposed, read back, changes nothing", async () => {
    const book = await harvestOf(text);
    const pinned = await bookOf({ "harvests/one.csv": text, "columns.csv": proposeColumns(book) });
    expect(allFacts(pinned)).toEqual(allFacts(book));
    expect(pinned.columns.map(({ field }) => field)).toEqual(book.columns.map(({ field }) => field));
  });

  test("a proposal kept under another name, or proposed twice, is read as what it is", async () => {
    const book = await harvestOf(text);
    const first = proposeColumns(book);
    const twice = await bookOf({ "harvests/one.csv": text, "columns.csv": first, "columns-2.csv": first });
    const renamed = await bookOf({ "harvests/one.csv": text, "how they were read.csv": first });
    for (const again of [twice, renamed]) {
      expect(allFacts(again)).toEqual(allFacts(book));
      expect(again.columns.map(({ field }) => field)).toEqual(book.columns.map(({ field }) => field));
      expect(again.issues.filter(({ file }) => file !== "harvests/one.csv")).toEqual([]);
    }
  });

  test("a pin chooses between two candidates and states a unit", async () => {
    const pins = "file,header,field,unit\n,Harvest weight,fresh_g,g\n,Fresh wt,factor,\none.csv,Dose,inoculum_ml,tsp\n";
    const book = await bookOf({ "harvests/one.csv": text, "columns.csv": pins });
    expect(trayOf(book, "A")).toMatchObject({
      freshGrams: 210,
      factors: { "Fresh wt": "200" },
      inoculumMillilitres: 9.8578431875,
    });
    expect(book.issues.filter(({ severity }) => severity === "error")).toEqual([]);
  });
});

describe("sheets of a book", () => {
  test.each([
    ["settings.csv", "settings"],
    ["Costs.csv", "costs"],
    ["products.xlsx", "products"],
    ["columns.csv", "columns"],
    ["logger-2026.csv", "temperature log"],
    ["tent_temps.csv", "temperature log"],
    ["harvests/costs.csv", "harvest"],
    ["spring.csv", undefined],
  ])("%s is for %s", (path, role) => {
    expect(roleByName(sheet(path, ""))).toBe(role);
  });

  test("a harvest sheet anywhere, a log by its columns, and a stranger", async () => {
    const book = await bookOf({
      "spring.csv": "tray_id,fresh_g\nA,200\n",
      "notes.csv": "timestamp,temperature °C\n2026-03-04 13:30,18.5\n",
      "friends.csv": "first name,phone\nAnn,123\n",
    });
    expect(book.harvestFiles).toEqual([{ file: "spring.csv", rows: 1 }]);
    expect(book.temperatureLog).toHaveLength(1);
    expect(rulesOf(book)).toContain("unknown-sheet");
    expect(book.name).toBe("spring");
    // only what stands behind the last point is the kind of file
    expect((await bookOf({ "spring.2026.csv": "tray_id,fresh_g\nA,200\n" })).name).toBe("spring.2026");
  });

  test("no sheet, an empty one, a header alone, and columns nobody knows", async () => {
    expect((await bookOf({})).trays).toEqual([]);
    expect((await harvestOf("")).trays).toEqual([]);
    expect((await harvestOf("tray_id,fresh_g\n")).trays).toEqual([]);
    const strange = await harvestOf("foo,,bar\n1,,2\n");
    const errors = strange.issues.filter(({ severity }) => severity === "error");
    expect(errors.map(({ rule, raw }) => [rule, raw])).toContainEqual(["no-known-column", "foo, bar"]);
  });

  test("the progress of a long sheet is reported", async () => {
    const { cleanBook } = await import("../../src/cleaning/clean-book.ts");
    const rows = Array.from({ length: 20_500 }, (_, index) => `T${index},${200 + (index % 50)}`);
    const reported: number[] = [];
    await cleanBook([sheet("harvests/long.csv", `tray_id,fresh_g\n${rows.join("\n")}`)], {
      onProgress: ({ rows: done }) => reported.push(done),
    });
    expect(reported).toEqual([20_000]);
  });

  test("limits on one flush reach the total", async () => {
    const book = await harvestOf("tray_id,flush,fresh_g\nA,1,200\nA,2,>50\n");
    expect(trayOf(book, "A")).toMatchObject({ bounds: { fresh_g: { low: 250 } }, outcome: "good" });
    expect(trayOf(book, "A").freshGrams).toBeUndefined();
  });
});
