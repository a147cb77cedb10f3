import { describe, expect, test } from "vitest";
import { cleanBook } from "../../src/cleaning/clean-book.ts";
import { writeCsv } from "../../src/csv/write-csv.ts";
import { readBookData, writeBookData } from "../../src/live/model/book-data.ts";
import { editedBook as editedWith } from "../../src/live/model/edited-book.ts";
import { cellKey, type Edits, noEdits, type SheetName } from "../../src/live/model/live-sheet.ts";
import { type SavedBook, savedBook } from "../../src/live/model/saved-book.ts";
import { packText, unpackText } from "../../src/live/packed-text.ts";
import type { Book } from "../../src/records/book.ts";
import { isSame } from "../../src/records/is-same.ts";
import { Memo } from "../../src/records/memo.ts";
import { harvestOf, sheet } from "../cleaning/book-of.ts";
import { hostileBook } from "../report/hostile.ts";
import { bookInFolder } from "./book-in-folder.ts";

const demo = bookInFolder("data-samples/demo-book");
const typed = bookInFolder("data-samples/as-typed-book");

const editedBook = (saved: SavedBook, edits: Edits) => editedWith(saved, edits, new Memo());

/** A change of one cell, by the sheet's header and its row's first cell. */
function change(saved: SavedBook, sheet: SheetName, first: string, key: string, text: string) {
  const { columns, rows } = saved.sheets[sheet]!;
  const row = rows.findIndex((cells) => cells[0] === first);
  const column = columns.findIndex((one) => one.key === key);
  expect(row).toBeGreaterThanOrEqual(0);
  expect(column).toBeGreaterThanOrEqual(0);
  return { cell: { sheet, row, column, text }, key: cellKey(sheet, row, column) };
}

const edit = (saved: SavedBook, ...cells: { sheet: SheetName; row: number; column: number; text: string }[]) =>
  editedBook(saved, { ...noEdits, cells });

describe("a book as data in a page", () => {
  test.each([
    ["the demo book", demo],
    ["the book as typed", typed],
    ["a hostile book", Promise.resolve(hostileBook())],
  ])("%s comes back as it was", async (_, given) => {
    const book = await given;
    const text = writeBookData(book);
    const packed = packText(text);
    expect(packed).not.toMatch(/[<\s"]/);
    expect(readBookData(await unpackText(packed))).toEqual(book);
  });
});

describe("rows that are read again unchanged", () => {
  test.each([
    ["the demo book", demo],
    ["the book as typed", typed],
  ])("%s: every row gives the record it came from", async (_, given) => {
    const saved = savedBook(await given);
    const { book } = saved;
    // typing again what stands there changes nothing
    for (const name of ["costs", "products", "settings", "trays"] as const) {
      const sheet = saved.sheets[name]!;
      const at =
        name === "settings" || name === "costs"
          ? 1
          : sheet.columns.findIndex(({ key }) => ["channel", "outcome"].includes(key));
      const cells = sheet.rows.map((row, index) => ({ sheet: name, row: index, column: at, text: row[at]! }));
      const again = edit(saved, ...cells.filter(({ text }) => text !== ""));
      expect(again.book.settings).toEqual(book.settings);
      expect(again.book.costLines).toEqual(book.costLines);
      expect(again.book.products).toEqual(book.products);
      expect(again.book.trays.map((tray) => ({ ...tray, flags: [...tray.flags].sort() }))).toEqual(
        book.trays.map((tray) => ({ ...tray, flags: [...tray.flags].sort() })),
      );
    }
  });
});

describe("changed cells", () => {
  test("a cost is read by the rules of cost sheets, with a unit or a comma in the cell", async () => {
    const saved = savedBook(await demo);
    const price = change(saved, "costs", "cracked sorghum", "pack_price", "€ 40,50");
    const size = change(saved, "costs", "cracked sorghum", "pack_size", "20 kg");
    const { book, written } = edit(saved, price.cell, size.cell);
    const line = book.costLines!.find(({ item }) => item === "cracked sorghum")!;
    expect([line.packPrice, line.packSize, line.packUnit]).toEqual([40.5, 20_000, "g"]);
    expect(written.get(price.key)).toBe("40.5");
    expect(written.get(size.key)).toBe("20000");
  });

  test("a bad cell keeps the typed text, says what is wrong, and its line is left out as it would be in a sheet", async () => {
    const saved = savedBook(await demo);
    const bad = change(saved, "costs", "filter bag", "pack_price", "a few coins");
    const { book, findings, written } = edit(saved, bad.cell);
    expect(findings.get(bad.key)).toMatchObject({ kind: "bad" });
    expect(findings.get(bad.key)!.text).toMatch(/number/i);
    expect(written.has(bad.key)).toBe(false);
    expect(book.costLines!.length).toBe(saved.book.costLines!.length - 1);
    expect(book.leftOut.at(-1)!.file).toBe("costs.csv");
    // what it would have cost is known to be missing, at its own row
    const { source } = saved.book.costLines!.find(({ item }) => item === "filter bag")!;
    expect(book.unread).toMatchObject([{ sheet: "costs", name: "filter bag", source }]);
    expect(edit(saved).book.unread).toEqual(saved.book.unread);
  });

  test("a setting that cannot be read keeps the saved value", async () => {
    const saved = savedBook(await demo);
    const bad = change(saved, "settings", "shelf_places", "value", "a lot");
    const good = change(saved, "settings", "jar_ml", "value", "0.4 L");
    const { book, findings } = edit(saved, bad.cell, good.cell);
    expect(book.settings.shelfPlaces).toBe(saved.book.settings.shelfPlaces);
    expect(findings.get(bad.key)!.kind).toBe("bad");
    expect(book.settings.jarMillilitres).toBe(400);
  });

  test("a tray's weight is read with its unit, and a doubtful one is flagged", async () => {
    const saved = savedBook(await demo);
    const tray = saved.book.trays.find(
      ({ outcome, dryGrams, flushes }) => outcome === "good" && dryGrams !== undefined && flushes?.length === 0,
    )!;
    const kilo = change(saved, "trays", tray.trayId, "fresh_g", "0.25 kg");
    const heavy = change(saved, "trays", tray.trayId, "dry_g", "900");
    expect(edit(saved, kilo.cell).book.trays.find(({ trayId }) => trayId === tray.trayId)!.freshGrams).toBe(250);
    const doubtful = edit(saved, heavy.cell);
    expect(doubtful.book.trays.find(({ trayId }) => trayId === tray.trayId)!.flags).toContain("dry-above-fresh");
    expect(doubtful.findings.get(heavy.key)!.kind).toBe("bad");
  });

  test("with a comma as the decimal mark, cells nobody changed still read as they did", async () => {
    const given = await demo;
    const book: Book = { ...given, settings: { ...given.settings, decimalMark: "comma" } };
    const saved = savedBook(book);
    const price = change(saved, "costs", "malt broth", "pack_price", "9,75");
    const line = edit(saved, price.cell).book.costLines!.find(({ item }) => item === "malt broth")!;
    const before = book.costLines!.find(({ item }) => item === "malt broth")!;
    expect(line).toEqual({ ...before, packPrice: 9.75 });
  });

  test("a tray set aside is in no answer and is listed with its reason", async () => {
    const saved = savedBook(await demo);
    const { trayId } = saved.book.trays[3]!;
    const { book } = editedBook(saved, { ...noEdits, aside: [{ tray: trayId, reason: "dropped" }] });
    expect(book.trays.some((tray) => tray.trayId === trayId)).toBe(false);
    expect(book.leftOut.at(-1)).toMatchObject({ rule: "set-aside", reason: "set aside in the report: dropped" });
  });
});

describe("rows added and deleted", () => {
  /** An added row of a sheet, filled by header. */
  function filled(saved: SavedBook, sheet: SheetName, cells: Record<string, string>): Edits {
    const { columns, rows } = saved.sheets[sheet]!;
    const edits = Object.entries(cells).map(([key, text]) => {
      const column = columns.findIndex((one) => one.key === key);
      expect(column, key).toBeGreaterThanOrEqual(0);
      return { sheet, row: rows.length, column, text };
    });
    return { ...noEdits, cells: edits, added: { [sheet]: 1 } };
  }
  const rowOf = (saved: SavedBook, sheet: SheetName, first: string): number =>
    saved.sheets[sheet]!.rows.findIndex(([name]) => name === first);

  test("a number missing among the trays is reported until its row is added, and when its row is deleted", async () => {
    const rows = Array.from(
      { length: 12 },
      (_, index) => `T${index + 1},C1,${index % 2 === 0 ? 4 : 8},good,${20 + index}`,
    );
    const missing = ({ book }: { book: Book }) =>
      book.issues.flatMap(({ rule, tray }) => (rule === "tray-number-missing" ? [tray] : []));
    const sheet = ["tray_id,batch,inoculum_ml,outcome,dry_g", ...rows.filter((row) => !row.startsWith("T5,"))].join(
      "\n",
    );
    const saved = savedBook(await harvestOf(sheet));
    expect(missing(saved)).toEqual(["T5"]);
    expect(missing(editedBook(saved, filled(saved, "trays", { tray_id: "T5", outcome: "contaminated" })))).toEqual([]);
    const ninth = saved.sheets.trays!.rows.findIndex(([id]) => id === "T9");
    const without = editedBook(saved, { ...noEdits, deleted: [{ sheet: "trays", row: ninth }] });
    expect(missing(without)).toEqual(["T5", "T9"]);
  });

  test("a cost line added is read as its sheet would be and comes last; an empty one counts for nothing", async () => {
    const saved = savedBook(await demo);
    const cells = { item: "gloves", kind: "consumable", pack_price: "€ 8,40", pack_size: "100", pack_unit: "piece" };
    const edits = filled(saved, "costs", { ...cells, amount: "2", amount_unit: "piece", per: "tray" });
    const { book, findings } = editedBook(saved, edits);
    expect([...findings.values()].map(({ kind }) => kind)).not.toContain("bad");
    expect(book.costLines!.slice(0, -1)).toEqual(saved.book.costLines);
    expect(book.costLines!.at(-1)).toMatchObject({ item: "gloves", packPrice: 8.4, packSize: 100, amount: 2 });
    expect(editedBook(saved, { ...noEdits, added: { costs: 3, trays: 2, products: 1 } }).book).toEqual(saved.book);
  });

  test("an added row that lacks what it needs says so and is left out", async () => {
    const saved = savedBook(await demo);
    const { book, findings } = editedBook(saved, filled(saved, "costs", { item: "gloves", pack_price: "dear" }));
    expect(book.costLines).toEqual(saved.book.costLines);
    expect([...findings.values()].map(({ kind }) => kind)).toContain("bad");
    expect(book.leftOut.length).toBe(saved.book.leftOut.length + 1);
  });

  test("a tray added is in every answer, and is checked against the others", async () => {
    const saved = savedBook(await demo);
    const cells = { tray_id: "Z-1", inoculum_ml: "6", outcome: "good", fresh_g: "0.2 kg", dry_g: "900" };
    const { book, findings } = editedBook(saved, filled(saved, "trays", cells));
    expect(book.trays.slice(0, -1).map(({ trayId }) => trayId)).toEqual(saved.book.trays.map(({ trayId }) => trayId));
    expect(book.trays.at(-1)).toMatchObject({ trayId: "Z-1", outcome: "good", inoculumMillilitres: 6 });
    expect(book.trays.at(-1)!.flags).toContain("dry-above-fresh");
    expect([...findings.values()].some(({ kind }) => kind === "bad")).toBe(true);
  });

  test("a row added for a known tray that says something else of it is a conflict, as in a sheet", async () => {
    const saved = savedBook(await demo);
    const { trayId } = saved.book.trays.find(({ outcome }) => outcome === "good")!;
    const { book, findings } = editedBook(saved, filled(saved, "trays", { tray_id: trayId, fresh_g: "150" }));
    expect(book.trays.length).toBe(saved.book.trays.length);
    expect(book.trays.find((tray) => tray.trayId === trayId)!.flags).toContain("conflict");
    expect([...findings.values()].map(({ text }) => text).join()).toMatch(/one name give different value/);
  });

  test("a row added for another flush of a known tray: the weights add up", async () => {
    const sources = [sheet("trays.csv", "tray_id,flush,outcome,fresh_g\nA,1,good,100\nB,1,good,90\n")];
    const saved = savedBook(await cleanBook(sources, { name: "small" }));
    const { book } = editedBook(saved, filled(saved, "trays", { tray_id: "A", flush: "2", fresh_g: "30" }));
    expect(book.trays.map(({ trayId, freshGrams }) => [trayId, freshGrams])).toEqual([
      ["A", 130],
      ["B", 90],
    ]);
  });

  test.each(["costs", "products", "trays"] as const)(
    "deleted rows of %s are in no answer and stay listed",
    async (sheet) => {
      const saved = savedBook(await demo);
      const first = saved.sheets[sheet]!.rows[2]![0]!;
      const rows = saved.sheets[sheet]!.rows.flatMap(([name], row) => (name === first ? [row] : []));
      const { book } = editedBook(saved, { ...noEdits, deleted: rows.map((row) => ({ sheet, row })) });
      const names = {
        costs: (book.costLines ?? []).map(({ item }) => item),
        products: (book.products ?? []).map(({ product }) => product),
        trays: book.trays.map(({ trayId }) => trayId),
      }[sheet];
      expect(rowOf(saved, sheet, first)).toBe(2);
      expect(names).not.toContain(first);
      expect(book.leftOut.slice(saved.book.leftOut.length)).toMatchObject(
        rows.map((row) => ({ rule: "row-deleted", cells: saved.sheets[sheet]!.rows[row] })),
      );
      if (sheet !== "trays") return;
      // nothing but that its number is missing now
      expect(book.issues.filter(({ tray, rule }) => tray === first && rule !== "tray-number-missing")).toEqual([]);
      expect(book.trays.length).toBe(saved.book.trays.length - 1);
    },
  );

  test("changes of a deleted row wait until it is brought back", async () => {
    const saved = savedBook(await demo);
    const price = change(saved, "costs", "malt broth", "pack_price", "99");
    const gone: Edits = { ...noEdits, cells: [price.cell], deleted: [{ sheet: "costs", row: price.cell.row }] };
    expect(editedBook(saved, gone).book.costLines!.some(({ item }) => item === "malt broth")).toBe(false);
    const back = editedBook(saved, { ...gone, deleted: [] }).book.costLines!;
    expect(back.find(({ item }) => item === "malt broth")!.packPrice).toBe(99);
  });
});

describe("a changed sheet is cleaned as it would be if it were saved and read", () => {
  const cells = ["0.25 kg", "12,5", "~30 g", "n/a", "", "8.8 oz", "lost", "900", "1.234,5", "thirty"];

  /** The tray sheet with one cell changed, written as a file and cleaned from the start. */
  async function cleanedFromFile(saved: SavedBook, row: number, column: number, text: string) {
    const { columns, rows } = saved.sheets.trays!;
    const changed = rows.map((own, at) =>
      at === row ? own.map((cell, index) => (index === column ? text : cell)) : own,
    );
    const typed = writeCsv([columns.map(({ key }) => key), ...changed], { guard: false });
    const read = await cleanBook([sheet("trays.csv", typed)]);
    return read.trays[row]!;
  }

  test.each(cells)("a fresh weight of %j", async (text) => {
    const saved = savedBook(await demo);
    const row = saved.book.trays.findIndex(({ outcome, flushes }) => outcome === "good" && flushes?.length === 0);
    const { trayId } = saved.book.trays[row]!;
    const { cell } = change(saved, "trays", trayId, "fresh_g", text);
    const {
      file: _f,
      row: _r,
      sources: _,
      flags,
      ...tray
    } = edit(saved, cell).book.trays.find((one) => one.trayId === trayId)!;
    const {
      file: __f,
      row: __r,
      sources: __,
      flags: wanted,
      ...fromFile
    } = await cleanedFromFile(saved, cell.row, cell.column, text);
    expect(tray).toEqual(fromFile);
    expect([...flags].sort()).toEqual([...wanted].sort());
  });

  test.each([
    ["the demo book", demo],
    ["the book as typed", typed],
  ])(
    "%s: the log of the sheets as typed stays, and trays that were not changed are the very same",
    async (_, given) => {
      const saved = savedBook(await given);
      const row = saved.book.trays.findIndex(({ outcome, flushes }) => outcome === "good" && flushes?.length === 0);
      const { trayId } = saved.book.trays[row]!;
      const { book } = edit(saved, change(saved, "trays", trayId, "dry_g", "21.5").cell);
      const header = saved.book.columns.filter(({ field }) => field === "dry_g").map((one) => one.header);
      const lost = saved.book.issues.filter((issue) => !book.issues.some((now) => isSame(now, issue)));
      expect(lost.filter(({ tray, column }) => tray !== trayId || !header.includes(column))).toEqual([]);
      const others = book.trays.filter((tray) => tray.trayId !== trayId);
      expect(others.filter((tray) => !saved.book.trays.includes(tray))).toEqual([]);
      expect(book.trays.find((tray) => tray.trayId === trayId)!.dryGrams).toBe(21.5);
      expect(book.costLines).toBe(saved.book.costLines);
    },
  );

  test("a setting that flags trays flags them; one that does not leaves every tray as it is", async () => {
    const saved = savedBook(await demo);
    const strict = edit(saved, change(saved, "settings", "drying_ratio_high", "value", "7").cell).book;
    expect(strict.trays.filter(({ flags }) => flags.includes("drying-ratio-range")).length).toBeGreaterThan(
      saved.book.trays.filter(({ flags }) => flags.includes("drying-ratio-range")).length,
    );
    const roomier = edit(saved, change(saved, "settings", "shelf_places", "value", "99").cell).book;
    expect(roomier.settings.shelfPlaces).toBe(99);
    expect(roomier.trays).toBe(saved.book.trays);
    expect(roomier.issues).toBe(saved.book.issues);
  });
});
