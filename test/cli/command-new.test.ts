import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, expect, test } from "vitest";
import { startBook } from "../../src/cli/command-new.ts";
import { openBook } from "../../src/cli/open-book.ts";
import { harvestFields } from "../../src/records/harvest-field.ts";

const folder = mkdtempSync(join(tmpdir(), "gramwright-new-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const quiet = { say: () => {}, done: () => {} };

const sheet = join(folder, "mine.csv");
const typed =
  "Tray #,Cook,Inoculum,Inoculated,Picked,Dry wt (g)\nA1,C1,6 mL,3/4/26,5/6/26,27\nA2,C1,9 mL,3/4/26,5/6/26,31\n";
writeFileSync(sheet, typed);

test("a new book's sheet has about ten columns and two example rows, which are left out and said so", async () => {
  const place = join(folder, "empty");
  await startBook(place, {});
  const path = join(place, "harvests", "harvest-1.csv");
  const [header, ...rows] = readFileSync(path, "utf8").trim().split("\n");
  expect(header!.split(",").length).toBeLessThanOrEqual(12);
  expect(rows).toHaveLength(2);
  const { issues, trays, leftOut } = await openBook(place, quiet);
  expect([trays.length, issues.filter(({ severity }) => severity === "error").length]).toEqual([0, 0]);
  expect(leftOut.map(({ row, rule }) => [row, rule])).toEqual([
    [2, "example-row"],
    [3, "example-row"],
  ]);
  expect(issues.filter(({ rule }) => rule === "example-row").map(({ reason }) => reason)).toEqual([
    "example row, left out",
    "example row, left out",
  ]);
});

test("rows typed below, above or instead of the examples are read; each example is left out wherever it stands", async () => {
  const path = join(folder, "empty", "harvests", "harvest-1.csv");
  const [header, first, second] = readFileSync(path, "utf8").trim().split("\n");
  const own = ["A1,C1,oyster,6,2026-03-01,,2026-04-12,good,300,31,", "A2,C1,oyster,9,2026-03-01,,,contaminated,,,"];
  for (const rows of [
    [first, second, ...own],
    [...own, first, second],
    [own[0], second, own[1], first],
  ]) {
    writeFileSync(path, `${[header, ...rows].join("\n")}\n`);
    const { trays, leftOut } = await openBook(join(folder, "empty"), quiet);
    expect(trays.map(({ trayId, outcome, dryGrams }) => [trayId, outcome, dryGrams])).toEqual([
      ["A1", "good", 31],
      ["A2", "contaminated", undefined],
    ]);
    expect(leftOut).toHaveLength(2);
  }
});

test("a page shows every other column, by the question that asks for it", () => {
  const page = readFileSync(join(folder, "empty", "columns-by-question.html"), "utf8");
  const first = page.indexOf("Are losses more than chance");
  expect(page.slice(first, page.indexOf("<h2>", first))).toMatch(/<code>jar<\/code>.*<code>operator<\/code>/s);
  for (const { key } of harvestFields) expect(page).toContain(key);
});

test("a book from a sheet has a copy of it, how its columns were read, and what it left open", async () => {
  const made = join(folder, "made");
  await startBook(made, { from: sheet });
  expect(readFileSync(sheet, "utf8")).toBe(typed);
  expect(readFileSync(join(made, "harvests", "mine.csv"), "utf8")).toBe(typed);
  expect(readFileSync(join(made, "columns.csv"), "utf8")).toMatch(/Dry wt \(g\),dry_g/);
  expect(readFileSync(join(made, "README.md"), "utf8")).not.toContain("[example]");
  expect(readFileSync(join(made, "columns-by-question.html"), "utf8")).toContain(
    "<code>tray_id,batch,inoculum_ml,inoculated_on,harvested_on,dry_g</code>",
  );
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

test("nothing is written over, and a sheet that is not there is reported", async () => {
  await expect(startBook(join(folder, "made"), { from: sheet })).rejects.toThrow(/not empty/);
  await expect(startBook(join(folder, "other"), { from: join(folder, "none.csv") })).rejects.toThrow(/--from/);
});
