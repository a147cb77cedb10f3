import { spawnSync } from "node:child_process";
import { readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { bookPrices } from "../../analyses/costs/book-prices.ts";
import { priceOutlook } from "../../analyses/prices/price-outlook.ts";
import { cleanedHarvestCsv } from "../../src/cleaning/cleaned-harvest-csv.ts";
import { issuesCsv } from "../../src/cleaning/issues-csv.ts";
import { proposeColumns } from "../../src/cleaning/propose-columns.ts";
import { planFor } from "../../src/cli/command-plan.ts";
import { priceListCsv } from "../../src/cli/price-list-csv.ts";
import { writeCsv } from "../../src/csv/write-csv.ts";
import { readBook } from "../../src/engine/read-book.ts";
import { trialOf } from "../../src/engine/trial-of.ts";
import { sheet } from "../cleaning/book-of.ts";
import type { AttackTable } from "./attacks.ts";

const before = ["", " ", "\t", "\u00a0", "\u200b", "\ufeff", "\u001f", "note;", "note; ", "note\t", "note|", '"', "'"];
const formulas = ["=1+1", "+1+1", "-1+1", "@SUM(1)", "＝1+1", "=HYPERLINK(A1)"];

/** Cells that a spreadsheet program could take for formulas, with what may stand before one. */
export const hostileCells: ReadonlyArray<string> = before.flatMap((start) => formulas.map((cell) => start + cell));

const bare = (rows: ReadonlyArray<ReadonlyArray<string>>): string => writeCsv(rows, { guard: false });

/** Every sheet that this program writes, by name, from a book whose names, headers, notes and cells are hostile. */
export async function writtenSheets(): Promise<Record<string, string>> {
  const cellOf = (row: number): string => hostileCells[row % hostileCells.length]!;
  const header = ["tray_id", "batch", "strain", "chamber", "jar", "inoculum_ml", "fresh_g", "dry_g", "outcome", "note"];
  const rows = Array.from({ length: 3 * hostileCells.length }, (_, row) => {
    const [own, cook] = [cellOf(row), cellOf(Math.floor(row / 12))];
    const dry = (20 + (row % 5) + (row % 2) * 3).toFixed(1);
    const named = [`${own}${row}`, cook, own, own, own, row % 2 === 0 ? "5" : "10", "240", dry, "good", own];
    return [...named, own, row % 9 === 0 ? own : ""];
  });
  const costs = hostileCells.map((cell) => [cell, "ingredient", "20", "10", "kg", "1", "kg", "tray", cell]);
  const products = hostileCells.map((cell) => [cell, cell, "dried", "50", "20", cell]);
  const book = await readBook([
    sheet("harvests/one.csv", bare([[...header, "=1+1", ";=2+2"], ...rows])),
    sheet(
      "costs.csv",
      bare([
        ["item", "kind", "pack_price", "pack_size", "pack_unit", "amount", "amount_unit", "per", "note"],
        ...costs,
      ]),
    ),
    sheet("products.csv", bare([["product", "channel", "form", "grams", "current_price", "note"], ...products])),
  ]);
  const prices = bookPrices(trialOf(book));
  if (prices.kind === "cannot-tell") throw new Error(`writtenSheets: no price list: ${prices.reason}`);
  const { priced, unpriced } = priceOutlook(trialOf(book), prices);
  const { doubts } = prices.costs;
  return {
    log: issuesCsv(book.issues),
    cleaned: cleanedHarvestCsv(book),
    columns: proposeColumns(book),
    prices: priceListCsv(priced, unpriced, book.settings, { hasMonths: false, doubts }),
    plan: planFor(book, { layout: "blocks", doses: [5, 10] }).files["planned-harvest.csv"],
    cells: writeCsv(
      hostileCells.map((cell) => ["x", cell, "y"]),
      { guard: true },
    ),
    "cells without a guard": bare(hostileCells.map((cell) => ["x", cell, "y"])),
  };
}

/** Opens every written sheet in a spreadsheet program with formulas evaluated, under four separators, and counts what is live. */
export async function liveFormulas(folder: string, table: AttackTable): Promise<void> {
  const sheets = await writtenSheets();
  const paths = Object.entries(sheets).map(([name, text]) => {
    writeFileSync(join(folder, `${name}.csv`), text);
    return join(folder, `${name}.csv`);
  });
  const live = new Map(Object.keys(sheets).map((name) => [name, 0]));
  for (const separator of [44, 59, 9, 124]) {
    // separator, quote, UTF-8, from row 1, en-US, quoted cells not as text, numbers seen, no saving, formulas evaluated
    const filter = `CSV:${separator},34,76,1,,1033,false,true,false,false,false,0,true`;
    const own = `-env:UserInstallation=file://${join(folder, "office")}`;
    const args = [own, "--headless", `--infilter=${filter}`, "--convert-to", "fods", "--outdir", folder, ...paths];
    const { error } = spawnSync("soffice", args, { stdio: "ignore", timeout: 600_000 });
    if (error !== undefined) {
      table.skip("formulas in written sheets", `LibreOffice cannot be run (${error.message})`);
      return;
    }
    const made = readdirSync(folder).filter((file) => file.endsWith(".fods"));
    if (made.length !== paths.length)
      throw new Error(`liveFormulas: ${made.length} of ${paths.length} sheets were opened`);
    for (const file of made) {
      const name = file.replace(/\.fods$/, "");
      const text = readFileSync(join(folder, file), "utf8");
      live.set(name, live.get(name)! + text.split("table:formula").length - 1);
      rmSync(join(folder, file));
    }
  }
  for (const [name, count] of live) {
    // the control: without a guard they are live
    const goal = name.endsWith("without a guard") ? "above 0 live" : "0 live";
    table.add(`formulas in ${name}, under four separators`, hostileCells.length, { live: count }, goal);
  }
}
