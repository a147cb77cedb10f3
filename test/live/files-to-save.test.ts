import { describe, expect, test } from "vitest";
import { cleanBook } from "../../src/cleaning/clean-book.ts";
import { writeBookData } from "../../src/live/model/book-data.ts";
import { filesToSave } from "../../src/live/model/files-to-save.ts";
import { leftOutOf, savedCsv } from "../../src/live/model/saved-csv.ts";
import { backToSaved, change, current, edits, openWorkbook, workbook } from "../../src/live/model/workbook.ts";
import { sheetSources } from "../engine/demo-answers.ts";

const header = "tray_id,batch,inoculum_ml,outcome,fresh_g,dry_g";
const files = {
  "harvests/spring.csv": [header, "A1,C1,3,good,200,20", "A2,C1,6,good,250,25", "total,,,,450,45"].join("\n"),
  "harvests/summer.csv": [header, "B1,C2,3,good,210,21", "B2,C2,6,good,260,26", "B3,C2,6,growing,,"].join("\n"),
  "late.tsv": ["tray_id\toutcome\tfresh_g\tdry_g", "B3\tgood\t270\t27"].join("\n"),
  "money/costs.csv": [
    "item,kind,pack_price,pack_size,pack_unit,amount,amount_unit,per",
    "grain,ingredient,20,20,kg,0.5,kg,tray",
    "bag,consumable,many,50,each,1,each,tray",
  ].join("\n"),
};
type Files = Readonly<Record<string, string>>;
const bookOf = (given: Files) => cleanBook(sheetSources(given), { name: "shed" });

const columnOf = (sheet: "trays" | "costs", key: string): number =>
  workbook().saved.sheets[sheet]!.columns.findIndex((column) => column.key === key);
const rowOf = (sheet: "trays" | "costs", name: string): number =>
  workbook().saved.sheets[sheet]!.rows.findIndex(([first]) => first === name);
const type = (sheet: "trays" | "costs", row: string, key: string, text: string): void =>
  change([{ sheet, row: rowOf(sheet, row), column: columnOf(sheet, key), text }]);

const opened = async (given: Files): Promise<void> => {
  openWorkbook(writeBookData(await bookOf(given)));
  backToSaved();
};
const toSave = () => filesToSave(workbook().saved, edits.value);

/** The book's files with the saved ones in the places of their originals. */
const replaced = (given: Files): Files => ({
  ...given,
  ...Object.fromEntries(toSave().map((file) => [file.source, savedCsv(file)])),
});

describe("sheets are saved under their own names, one per source file", () => {
  test("a change in one sheet saves that sheet alone, and dropped back it gives the changed book", async () => {
    await opened(files);
    type("trays", "A2", "dry_g", "24");
    const saved = toSave();
    expect(saved.map(({ name, source, replaces }) => ({ name, source, replaces }))).toEqual([
      { name: "spring.csv", source: "harvests/spring.csv", replaces: true },
    ]);
    expect(savedCsv(saved[0]!)).not.toContain("B1");
    expect(leftOutOf(saved[0]!)).toBe(1);
    const again = await bookOf(replaced(files));
    const values = (trays: typeof again.trays) =>
      trays
        .map(({ trayId, dryGrams, outcome }) => ({ trayId, dryGrams, outcome }))
        .sort((a, b) => (a.trayId < b.trayId ? -1 : 1));
    expect(values(again.trays)).toEqual(values(current.value.book.trays));
    expect(again.trays.find(({ trayId }) => trayId === "A2")?.dryGrams).toBe(24);
    // the sheets stay two, so what compares them is still asked
    expect(again.harvestFiles.map(({ file }) => file).sort()).toEqual(
      Object.keys(files)
        .filter((file) => !file.includes("costs"))
        .sort(),
    );
  });

  test("sheets that speak of one tray are saved together, and none says the old value", async () => {
    await opened(files);
    type("trays", "B3", "dry_g", "31");
    expect(toSave().map(({ name }) => name)).toEqual(["summer.csv", "late.tsv"]);
    const again = await bookOf(replaced(files));
    expect(again.trays.find(({ trayId }) => trayId === "B3")?.dryGrams).toBe(31);
    const wrong = again.issues.filter(({ severity, file }) => severity === "error" && !file.includes("costs"));
    expect(wrong).toEqual([]);
  });

  test("a cost line that could not be read is still missing money after the sheet was replaced", async () => {
    await opened(files);
    const before = current.value.book.unread?.filter(({ inUse }) => !inUse).map(({ name }) => name);
    expect(before).toEqual(["bag"]);
    type("costs", "grain", "pack_price", "22");
    expect(toSave().map(({ name }) => name)).toEqual(["costs.csv"]);
    const again = await bookOf(replaced(files));
    expect(again.costLines?.map(({ item, packPrice }) => [item, packPrice])).toEqual([["grain", 22]]);
    expect(again.unread?.filter(({ inUse }) => !inUse).map(({ name }) => name)).toEqual(["bag"]);
  });

  test("a cell that changes what another one says is saved as typed", async () => {
    await opened(files);
    type("costs", "grain", "per", "3 trays");
    const [line] = current.value.book.costLines!;
    expect(line).toMatchObject({ per: "tray", packPrice: 20 });
    expect(line!.amount / line!.packSize).toBeCloseTo(0.5 / 20 / 3, 12);
    const again = await bookOf(replaced(files));
    expect(again.costLines![0]).toMatchObject({ amount: line!.amount, packSize: line!.packSize, per: "tray" });
  });

  test("a product that could not be read is still asked for, and one made unreadable is written once", async () => {
    const sheet = [
      "product,form,grams,current_price,fee_pct",
      "punnet 200 g,fresh,200,6.50,?",
      "sachet 50 g,dried,50,20,5",
    ];
    const given = { ...files, "products.csv": `${sheet.join("\n")}\nbag 100 g,dried,100,35,5` };
    await opened(given);
    const column = workbook().saved.sheets.products!.columns.findIndex(({ key }) => key === "current_price");
    change([{ sheet: "products", row: 1, column, text: "dear" }]);
    const again = await bookOf(replaced(given));
    expect(again.products?.map(({ product }) => product)).toEqual(["sachet 50 g"]);
    expect(again.unread?.flatMap(({ sheet, name }) => (sheet === "products" ? [name] : []))).toEqual([
      "bag 100 g",
      "punnet 200 g",
    ]);
  });

  test("a workbook is not replaced by its trays alone", async () => {
    const book = await bookOf(files);
    for (const tray of book.trays) tray.file = "shed.xlsx > Spring";
    openWorkbook(writeBookData(book));
    backToSaved();
    type("trays", "A2", "dry_g", "24");
    expect(toSave().map(({ name, replaces }) => ({ name, replaces }))).toEqual([
      { name: "shed-trays.csv", replaces: false },
    ]);
  });
});
