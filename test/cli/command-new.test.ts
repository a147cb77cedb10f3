import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, expect, test } from "vitest";
import { startBook } from "../../src/cli/command-new.ts";
import { openBook } from "../../src/cli/open-book.ts";

const folder = mkdtempSync(join(tmpdir(), "gramwright-new-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const quiet = { say: () => {}, done: () => {} };

const sheet = join(folder, "mine.csv");
const typed =
  "Tray #,Cook,Inoculum,Inoculated,Picked,Dry wt (g)\nA1,C1,6 mL,3/4/26,5/6/26,27\nA2,C1,9 mL,3/4/26,5/6/26,31\n";
writeFileSync(sheet, typed);

test("a new book's sheet has about ten columns, and reads without an error", async () => {
  await startBook(join(folder, "empty"), {});
  const header = readFileSync(join(folder, "empty", "harvests", "harvest-1.csv"), "utf8")
    .trim()
    .split(",");
  expect(header.length).toBeLessThanOrEqual(12);
  const { issues, trays } = await openBook(join(folder, "empty"), quiet);
  expect([trays.length, issues.filter(({ severity }) => severity === "error").length]).toEqual([0, 0]);
});

test("a book from a sheet has a copy of it, how its columns were read, and what it left open", async () => {
  const made = join(folder, "made");
  await startBook(made, { from: sheet });
  expect(readFileSync(sheet, "utf8")).toBe(typed);
  expect(readFileSync(join(made, "harvests", "mine.csv"), "utf8")).toBe(typed);
  expect(readFileSync(join(made, "columns.csv"), "utf8")).toMatch(/Dry wt \(g\),dry_g/);
  const settings = readFileSync(join(made, "settings.csv"), "utf8");
  expect(settings).toMatch(/^date_order,,,.*asked: .*3\/4\/26/m);
  rmSync(join(made, "settings.csv"));
  writeFileSync(join(made, "settings.csv"), settings.replace("date_order,,", "date_order,day first,"));
  const { trays } = await openBook(made, quiet);
  expect(trays.map(({ inoculatedOn, dryGrams }) => [inoculatedOn, dryGrams])).toEqual([
    ["2026-04-03", 27],
    ["2026-04-03", 31],
  ]);
});

test("nothing is written over, and a sheet that is not there is told", async () => {
  await expect(startBook(join(folder, "made"), { from: sheet })).rejects.toThrow(/not empty/);
  await expect(startBook(join(folder, "other"), { from: join(folder, "none.csv") })).rejects.toThrow(/--from/);
});
