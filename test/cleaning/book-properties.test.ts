import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { cleanBook } from "../../src/cleaning/clean-book.ts";
import { cleanedHarvestCsv } from "../../src/cleaning/cleaned-harvest-csv.ts";
import type { Book } from "../../src/records/book.ts";
import { sourcesOf } from "../../src/records/tray.ts";
import { allFacts, bookOf, harvestOf, sheet } from "./book-of.ts";

const cell = fc.oneof(
  fc.constantFrom(
    ..."|-|n/a|0|contam|mold?|310|310 g|1,5|1.234|1,234|2 lb 3 oz|~45|45ish|40-50|>50|<1|72F|72|22|3/4/26|13/4/26|4/13/26|2026-03-04|45800|Mar 3|3/4|#REF!|2 trays 310g|1 syringe|½ cup|good|tossed|growing|still going|2 oz|5 g|1e5|-5|T1|T2|T3|1|2|green?|not yet|=1+1|'=x|yes|no|12 %|0.12|2 wk 3 d|10 to 12".split(
      "|",
    ),
  ),
  fc.string({ maxLength: 6 }),
);
const header = fc.constantFrom(
  ..."Tray|tray_id|Fresh wt|Fresh wt (oz)|dry_g|Dry|Dried|Inoculated|Inoc (cc)|inoculum_ml|Temp|Fruiting temp °F|Colonised|Harvest|harvested_on|Outcome|Contaminated?|Flush|Notes|Supplement|Soy hulls|final_moisture_pct|Light|Days to colonise|Block|Flush 1 (g)|Flush 2 (g)|trays_in_pool|Yield||xyz|fresh_g|batch|Date".split(
    "|",
  ),
);
const messySheet = fc
  .tuple(
    fc.array(header, { minLength: 1, maxLength: 9 }),
    fc.array(fc.array(cell, { maxLength: 10 }), { maxLength: 12 }),
    fc.constantFrom(",", ";", "\t"),
  )
  .map(([names, rows, delimiter]) =>
    [names, ...rows].map((row) => row.map((text) => `"${text.replaceAll('"', '""')}"`).join(delimiter)).join("\n"),
  );

/** What the log says, apart from where. */
const said = ({ issues }: Book): string[] =>
  issues
    .map(({ column, tray, raw, result, rule, severity, reason }) =>
      [column, tray, raw, result, rule, severity, reason].join("\t"),
    )
    .sort();

const tidyRow = fc.record({
  dose: fc.constantFrom("5", "7.5", "10 mL", "10cc", "n/a"),
  fresh: fc.oneof(fc.integer({ min: 50, max: 600 }).map(String), fc.constantFrom("contam", "~210", "0,2 kg", "")),
  dry: fc.oneof(fc.integer({ min: 5, max: 60 }).map(String), fc.constantFrom("-", "1,25", "40-50")),
  on: fc.constantFrom("3/4/26", "14/4/26", "2026-04-09", "12 Apr 2026", ""),
  grade: fc.constantFrom("fine", "coarse", " fine"),
});
const tidySheet = fc.array(tidyRow, { minLength: 1, maxLength: 12 });
const columns = ["Tray", "Dose (mL)", "Fresh wt (g)", "Dry wt (g)", "Inoculated", "Grade", "Lid"];
const cellsOf = (
  rows: ReadonlyArray<{ dose: string; fresh: string; dry: string; on: string; grade: string }>,
): string[][] =>
  rows.map(({ dose, fresh, dry, on, grade }, index) => [
    `T${index}`,
    dose,
    fresh,
    dry,
    on,
    grade,
    index % 2 ? "red" : "blue",
  ]);
const textOf = (names: ReadonlyArray<string>, rows: ReadonlyArray<ReadonlyArray<string>>): string =>
  [names, ...rows].map((row) => row.join(";")).join("\n");

describe("whatever is in the files", () => {
  test("any bytes give a book and a log, never a crash", async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.uint8Array({ maxLength: 300 }),
        fc.constantFrom("harvests/a.csv", "costs.csv", "settings.csv", "x.xlsx"),
        async (bytes, path) => {
          const book = await cleanBook([sheet(path, bytes)]);
          expect(Array.isArray(book.trays)).toBe(true);
        },
      ),
    );
  });

  test("any text gives a book whose every row is a tray, part of one, or in the list of rows left out", async () => {
    await fc.assert(
      fc.asyncProperty(fc.oneof(fc.string({ unit: "grapheme", maxLength: 200 }), messySheet), async (text) => {
        const book = await harvestOf(text);
        const rows = book.harvestFiles.reduce((sum, file) => sum + file.rows, 0);
        // rows that nothing says are of trays are asked about, those of a sheet nobody filled in are planned: neither counts
        const none = new Set(["no-harvest-sheet", "planned-not-started"]);
        const notCounted = book.leftOut.filter(({ rule }) => none.has(rule)).length;
        expect(book.trays.reduce((sum, tray) => sum + sourcesOf(tray).length, notCounted)).toBe(rows);
        expect(book.account?.lost ?? 0).toBe(0);
        for (const { freshGrams, dryGrams, inoculumMillilitres } of book.trays) {
          for (const amount of [freshGrams, dryGrams, inoculumMillilitres]) {
            if (amount !== undefined) expect(Number.isFinite(amount) && amount >= 0).toBe(true);
          }
        }
      }),
    );
  });

  test("cleaning a cleaned sheet changes nothing", async () => {
    await fc.assert(
      fc.asyncProperty(messySheet, async (text) => {
        const book = await harvestOf(text);
        if (book.trays.length === 0) return;
        const cleaned = cleanedHarvestCsv(book);
        const again = await harvestOf(cleaned);
        expect(cleanedHarvestCsv(again)).toBe(cleaned);
        expect(allFacts(again)).toEqual(allFacts(book));
      }),
      {
        examples: [
          ['"Tray","Tray","harvested_on","Flush 2 (g)"\n"!","","green?","1e5"'],
          ['Tray,fresh_g,dry_g,Notes\n":",,,\nT1,200,20,\nT2,210,21,\n"@",,,\nT3,220,22,'],
          ['"fresh_g","Contaminated?","dry_g"\n"2","green?","0"'],
          ['"Flush","Notes","Tray"\n"","contam","contam"\n"","0","=1+1"'],
          ['"Tray","Yield","Temp","batch","dry_g"\n"contam","","","#","green?"'],
          ['"Harvest","Flush","Tray","Soy hulls","Date","trays_in_pool"\n"","","40-50","","","T1"'],
        ],
      },
    );
  });
});

describe("what must not matter", () => {
  test("the order of rows and of columns", async () => {
    const order = fc.shuffledSubarray([0, 1, 2, 3, 4, 5, 6], { minLength: 7 });
    await fc.assert(
      fc.asyncProperty(tidySheet, order, fc.infiniteStream(fc.nat()), async (rows, order, keys) => {
        const cells = cellsOf(rows);
        const shuffled = cells
          .map((row) => ({ row, key: keys.next().value as number }))
          .sort((a, b) => a.key - b.key)
          .map(({ row }) => order.map((at) => row[at]!));
        // a column typed once for each block of rows is the one thing in which their order counts
        const book = await harvestOf(textOf(columns, cells), "fill_down,no");
        const names = order.map((at) => columns[at]!);
        const other = await harvestOf(textOf(names, shuffled), "fill_down,no");
        expect(allFacts(other)).toEqual(allFacts(book));
        expect(said(other)).toEqual(said(book));
      }),
    );
  });

  test("the order of files, and the order of repeated rows", async () => {
    const [a, b] = ["tray_id,fresh_g,batch\nA,200,C1\nB,,C1\n", "tray_id,fresh_g,batch\nB,180,c1\nA,205,C1\n"];
    const book = await bookOf({ "harvests/a.csv": a, "harvests/b.csv": b });
    const other = await bookOf({ "harvests/b.csv": a, "harvests/a.csv": b });
    expect(allFacts(other)).toEqual(allFacts(book));
    expect(said(other)).toEqual(said(book));
  });

  test("the units that amounts were typed in", async () => {
    const amounts = fc.array(
      fc.record({
        dose: fc.integer({ min: 1, max: 400 }).map((tenths) => tenths / 10),
        fresh: fc.integer({ min: 100, max: 9000 }).map((tenths) => tenths / 10),
        celsius: fc.integer({ min: 100, max: 300 }).map((tenths) => tenths / 10),
        days: fc.integer({ min: 1, max: 90 }),
      }),
      { minLength: 1, maxLength: 8 },
    );
    await fc.assert(
      fc.asyncProperty(amounts, async (rows) => {
        const metric = rows.map(({ dose, fresh, celsius, days }, index) =>
          [`T${index}`, dose, fresh, celsius, days].join(","),
        );
        const other = rows.map(({ dose, fresh, celsius, days }, index) =>
          [`T${index}`, dose / 29.5735295625, fresh / 453.59237, celsius * 1.8 + 32, `${days / 7} wk`].join(","),
        );
        const inCells = rows.map(({ dose, fresh, celsius, days }, index) =>
          [`T${index}`, `${dose} cc`, `${fresh / 1000} kg`, `${celsius + 273.15} K`, `${days} days`].join(","),
        );
        const names = (dose: string, fresh: string, temperature: string) =>
          `tray_id,${dose},${fresh},${temperature},days to colonise\n`;
        const book = await harvestOf(`${names("inoculum_ml", "fresh_g", "fruiting_c")}${metric.join("\n")}`);
        const us = await harvestOf(
          `${names("Inoculum (fl oz)", "Fresh wt (lb)", "Fruiting temp °F")}${other.join("\n")}`,
        );
        const mixed = await harvestOf(`${names("Inoculum", "Fresh wt", "Fruiting temp")}${inCells.join("\n")}`);
        expect(allFacts(us)).toEqual(allFacts(book));
        expect(allFacts(mixed)).toEqual(allFacts(book));
      }),
    );
  });
});
