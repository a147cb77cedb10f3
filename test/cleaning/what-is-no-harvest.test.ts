import { describe, expect, test } from "vitest";
import { cleanedHarvestCsv } from "../../src/cleaning/cleaned-harvest-csv.ts";
import { issuesCsv } from "../../src/cleaning/issues-csv.ts";
import { allFacts, bookOf, trayOf } from "./book-of.ts";

const harvest = "Tray,LC ml,Fresh g,Dry g\nT1,10,205,21\nT2,15,231,24\nT3,20,240,25\nT4,20,,\n";

describe("what is no harvest sheet is said, with the reason", () => {
  test.each([
    ["English", "Date,Payee,Memo,Amount,Balance\n2026-03-01,Grain Co,rye,-45.00,1200.00\n"],
    [
      "German",
      "Buchungstag;Auftraggeber/Empfänger;Verwendungszweck;Betrag;Saldo\n01.03.2026;Mühle;Roggen;-45,00;1200,00\n",
    ],
    ["French", "Date opération;Libellé;Débit;Crédit;Solde\n01/03/2026;Moulin;45,00;;1200,00\n"],
    ["Spanish", "Fecha;Concepto;Importe;Saldo\n01/03/2026;Molino;-45,00;1200,00\n"],
    ["Italian", "Data contabile;Descrizione;Importo;Saldo\n01/03/2026;Mulino;-45,00;1200,00\n"],
    ["Dutch", "Boekdatum;Naam tegenpartij;Omschrijving;Bedrag\n01-03-2026;Molen;rogge;-45,00\n"],
    ["Polish", "Data operacji;Odbiorca;Opis;Kwota;Saldo\n2026-03-01;Młyn;żyto;-45,00;1200,00\n"],
    ["Portuguese", "Data;Descrição;Valor;Saldo\n01/03/2026;Moinho;-45,00;1200,00\n"],
  ])("a statement of an account, %s", async (_, statement) => {
    const book = await bookOf({ "spring.csv": harvest, "harvests/statement.csv": statement });
    expect(book.trays.length).toBe(4);
    expect(book.issues.find(({ rule }) => rule === "no-harvest-sheet")).toMatchObject({
      file: "harvests/statement.csv",
    });
  });

  test("a statement alone is an error, not an empty book", async () => {
    const book = await bookOf({ "statement.csv": "Date,Payee,Amount\n2026-03-01,Mill,-45.00\n" });
    expect(book.issues.map(({ rule, severity }) => `${rule}: ${severity}`)).toContain("no-harvest-sheet: error");
  });

  test.each([
    ["prices", "Artikel;Menge;Preis\nGetrocknet;30 g;12,90\nFrisch;200 g;8,50\n"],
    ["contacts", "Name,Email\nJo,jo@example.org\nSam,sam@example.org\n"],
    ["names nobody knows", "Zorb,Quux,Flim\n1,10,205\n2,10,211\n3,20,240\n4,20,248\n"],
  ])("rows that nothing says are of trays are no trays, alone: %s", async (_, text) => {
    const book = await bookOf({ "list.csv": text });
    expect(book.trays).toEqual([]);
    expect(book.issues.some(({ severity }) => severity === "error")).toBe(true);
    expect(book.account?.lost).toBe(0);
  });

  test("a sheet with days of inoculation that nobody has filled in is planned, not started", async () => {
    const rows = "1,10,,,\n2,10,,,\n3,20,,,\n";
    const book = await bookOf({ "plan.csv": `tray,LC ml,inoculated,outcome,fresh g\n${rows}` });
    expect([book.trays.length, book.planned?.length]).toEqual([0, 3]);
    const begun = await bookOf({ "plan.csv": `tray,LC ml,inoculated,outcome,fresh g\n${rows}4,20,2026-03-01,,\n` });
    expect([begun.trays.length, begun.planned]).toEqual([4, undefined]);
  });

  test("a tab of costs is one of costs, whatever its columns are called", async () => {
    const costs = "item,price,pack,per tray\nrye,31,25 kg,600 g\n";
    const book = await bookOf({ "spring.csv": harvest, "Kosten.csv": costs });
    expect(book.trays.length).toBe(4);
    expect(book.costLines?.map(({ item }) => item)).toEqual(["rye"]);
  });

  test("the program's own log, whatever its name", async () => {
    const book = await bookOf({ "spring.csv": harvest });
    const again = await bookOf({ "spring.csv": harvest, "harvests/notes.csv": issuesCsv(book.issues) });
    expect(allFacts(again)).toEqual(allFacts(book));
    expect(again.issues.find(({ rule }) => rule === "no-harvest-sheet")?.reason).toContain("log");
  });

  test("a harvest whose name speaks of temperatures is read", async () => {
    const book = await bookOf({ "harvest temps march.csv": harvest, "costs.csv": "item,pack_price\nrye,20\n" });
    expect(book.trays.length).toBe(4);
  });

  test("a sheet that nothing tells the purpose of names the setting that decides, and it works", async () => {
    const stranger = "Thing,Colour\na,red\nb,blue\n";
    const book = await bookOf({ "spring.csv": harvest, "x.csv": stranger });
    const said = book.issues.find(({ rule }) => rule === "unknown-sheet")!;
    expect(said).toMatchObject({ file: "x.csv", setting: "sheet_role" });
    const settings = "key,value,unit,note,sheet\nsheet_role,ignore,,,x.csv\n";
    const settled = await bookOf({ "spring.csv": harvest, "x.csv": stranger, "settings.csv": settings });
    expect(settled.issues.filter(({ rule }) => rule === "unknown-sheet")).toEqual([]);
    expect(settled.issues.find(({ rule }) => rule === "ignored-sheet")).toMatchObject({ file: "x.csv" });
  });

  test("a list is a sheet of trays where the settings say so of the whole book", async () => {
    const files = { "spring.csv": harvest, "x.csv": "Strain,Colour\na,red\nb,blue\n" };
    expect((await bookOf(files)).trays.length).toBe(4);
    const taken = await bookOf({ ...files, "settings.csv": "key,value\nsheet_role,harvest\n" });
    expect(taken.trays.length).toBe(6);
  });
});

describe("a cleaned copy beside its original", () => {
  test("is passed over and named", async () => {
    const book = await bookOf({ "spring.csv": harvest });
    const both = await bookOf({ "spring.csv": harvest, "spring-fixed.csv": cleanedHarvestCsv(book) });
    expect(allFacts(both)).toEqual(allFacts(book));
    expect(both.issues.find(({ rule }) => rule === "copy-passed-over")).toMatchObject({
      file: "spring-fixed.csv",
      raw: "spring.csv",
    });
  });

  // common practice, no source: corrections change some numbers, another month's weights nearly all
  test("is one by most of its numbers, six in ten; where its name says so, by two in ten; for three trays or more", async () => {
    const typed = ["T1,10,200,20", "T2,15,210,21", "T3,25,220,22", "T4,30,230,23", "T5,35,240,24"];
    const isCopy = async (changed: number, file: string, trays = 5) => {
      const rows = typed.slice(0, trays);
      let left = changed;
      const other = rows.map((row) => row.replace(/(?<=,)\d+/g, (number) => (left-- > 0 ? `${number}7` : number)));
      const book = await bookOf({
        "march.csv": `Tray,LC ml,Fresh,Dry\n${rows.join("\n")}\n`,
        [file]: `tray_id,inoculum_ml,fresh_g,dry_g,outcome\n${other.map((row) => `${row},good`).join("\n")}\n`,
      });
      return book.issues.some(({ rule, file: of }) => rule === "copy-passed-over" && of === file);
    };
    expect([await isCopy(6, "b.csv"), await isCopy(7, "b.csv")]).toEqual([true, false]);
    expect([await isCopy(12, "march-clean.csv"), await isCopy(13, "march-clean.csv")]).toEqual([true, false]);
    expect([await isCopy(0, "b.csv", 3), await isCopy(0, "b.csv", 2)]).toEqual([true, false]);
  });

  test("another month with the same trays' names is no copy", async () => {
    const april =
      "tray_id,inoculum_ml,outcome,fresh_g,dry_g\nT1,10,good,188,19\nT2,15,good,211,22\nT3,20,good,222,23\nT4,20,good,219,24\n";
    const book = await bookOf({ "march.csv": harvest, "april.csv": april });
    expect(book.issues.filter(({ rule }) => rule === "copy-passed-over")).toEqual([]);
  });
});

describe("settings of shape for one sheet", () => {
  const blocks = "Batch,Dose ml,Tray,Fresh g\nA,10,T1,200\n,,T2,205\n,,T3,210\nB,15,T4,220\n,,T5,230\n,,T6,240\n";

  test("undo what was assumed there and leave the other sheets as they are", async () => {
    const files = { "a.csv": blocks, "b.csv": blocks.replace(/T(\d)/g, "U$1") };
    const filled = await bookOf(files);
    expect(trayOf(filled, "T2").inoculumMillilitres).toBe(10);
    const said = filled.issues.find(({ rule, column }) => rule === "fill-down" && column === "Dose ml")!;
    expect(said.action).toContain("fill_down = no");
    const settings = "key,value,unit,note,sheet\nfill_down,no,,,a.csv\n";
    const undone = await bookOf({ ...files, "settings.csv": settings });
    expect(trayOf(undone, "T2").inoculumMillilitres).toBeUndefined();
    expect(trayOf(undone, "U2").inoculumMillilitres).toBe(10);
  });

  test.each([
    ["settings.csv", "key,value\nfill_down,no\n"],
    ["mine.csv", "key,value\nfill_down,no\n"],
    ["mine.csv", "key,value,sheet\nfill_down,no,a.csv\n"],
  ])("stated in %s: %j", async (path, settings) => {
    const undone = await bookOf({ "a.csv": blocks, [path]: settings });
    expect(trayOf(undone, "T2").inoculumMillilitres).toBeUndefined();
  });

  test("a setting of the whole book cannot be set for one sheet, and says so", async () => {
    const book = await bookOf({ "a.csv": blocks, "settings.csv": "key,value,sheet\ncurrency,USD,a.csv\n" });
    expect(book.settings.currency).toBe("EUR");
    expect(book.issues.map(({ rule }) => rule)).toContain("setting-for-one-sheet");
  });
});

describe("a table of means", () => {
  const means = "Dose,n,Mean fresh,SD\n10,2,201.5,4.9\n15,2,230,1.4\n";

  test.each([
    ["below the trays", `${harvest}\n${means}`],
    [
      "beside the trays",
      "Tray,LC ml,Fresh g,Dry g,,Dose,n,Mean fresh,SD\nT1,10,205,21,,10,2,201.5,4.9\nT2,15,231,24,,15,2,230,1.4\nT3,20,240,25,,,,,\nT4,20,,,,,,,\n",
    ],
  ])("%s gives no trays and is pointed out", async (_, text) => {
    const book = await bookOf({ "spring.csv": text });
    expect(book.trays.map(({ trayId }) => trayId)).toEqual(["T1", "T2", "T3", "T4"]);
    const said = book.issues.filter(({ rule }) => rule === "no-harvest-sheet" || rule === "beside-table");
    expect(said).toMatchObject([{ severity: "warning" }]);
    expect(book.leftOut.length).toBeGreaterThan(0);
  });

  test("of another tab or file is refused too", async () => {
    const book = await bookOf({ "spring.csv": harvest, "harvests/summary.csv": means });
    expect(book.trays.length).toBe(4);
  });
});
