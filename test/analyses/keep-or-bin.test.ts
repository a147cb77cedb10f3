import { expect, test } from "vitest";
import { dueTrays } from "../../analyses/due/due-trays.ts";
import { keepOrBin, keepOrBinSays } from "../../analyses/due/keep-or-bin.ts";
import { whatIsDue } from "../../analyses/due/what-is-due.ts";
import { dateOfDay } from "../../src/measures/day-number.ts";
import { line, product } from "../costing/sample-records.ts";
import { trayRecord, trialOfTrays } from "./demo-records.ts";
import { dueBook, firstDay } from "./due-book.ts";
import { measureKeepOrBin } from "./measure-keep-or-bin.ts";
import { answerOf, moneyTrial } from "./money-books.ts";
import { renderedSentence } from "./rendered-sentence.ts";

const on = dateOfDay(firstDay + 7 * 12 + 60);
const book = { seed: 4, cooks: 12, traysPerCook: 6, cookSd: 0.05, traySd: 0.08, lost: 0.15 };
const late = (started: number) =>
  trayRecord({
    ...{ trayId: "LATE", batch: "L", outcome: "growing", strain: "strain 1", inoculumMillilitres: 6 },
    inoculatedOn: dateOfDay(firstDay + started),
  });
const costs = [
  line({ item: "substrate", packPrice: 2, per: "tray" }),
  line({ item: "rent", packPrice: 0.05, packUnit: "day", per: "shelf day" }),
];
const dried = [product({ currentPrice: 20 })];

const judged = (trays: ReturnType<typeof dueBook>, shelfPlaces: number) => {
  const trial = moneyTrial(trays, costs, dried, { shelfPlaces });
  return keepOrBin(trial, dueTrays(trays, trial.settings, on));
};

test("a tray most likely lost is better binned where new trays wait for its place, and its figures say why", () => {
  const rows = judged([...dueBook(book), late(0)], 1);
  expect(rows).toHaveLength(1);
  const [row] = rows;
  expect(row).toMatchObject({ trayId: "LATE", advice: "bin" });
  expect(row!.place).toBeGreaterThan(2 * row!.waiting);
  expect(renderedSentence(keepOrBinSays(rows, 3)[0]!)).toMatch(
    /^Better bin LATE: waiting \d+ days? leaves −?€\d+\.\d\d, new trays in its place €\d+\.\d\d\.$/,
  );
});

test("where places are free a tray is kept while it brings more than its days cost", () => {
  const often = dueBook({ ...book, second: 0.9, lost: 0 });
  const trial = moneyTrial(often, costs, dried, { shelfPlaces: 500 });
  const rows = Array.from({ length: 80 }, (_, day) =>
    keepOrBin(trial, dueTrays(often, trial.settings, dateOfDay(firstDay + 50 + day))),
  ).flat();
  expect(rows.length).toBeGreaterThan(3);
  for (const { advice, waiting, place } of rows) {
    expect([advice, place]).toEqual(["keep", 0]);
    expect(waiting).toBeGreaterThan(0);
  }
});

test("without prices nothing is said; with them the answer shows advice and figures", () => {
  const trays = [...dueBook(book), late(0)];
  const bare = trialOfTrays(trays);
  expect(keepOrBin(bare, dueTrays(trays, bare.settings, on))).toEqual([]);
  const trial = moneyTrial(trays, costs, dried, { shelfPlaces: 1, reportDate: on });
  const { tables } = answerOf(whatIsDue.run(trial));
  const table = tables.find(({ caption }) => caption === "Every growing tray")!;
  const column = table.columns.findIndex(({ label }) => label === "keep or bin");
  expect(table.rows.find(([tray]) => tray === "LATE")![column]).toBe("bin");
});

test("over two simulated years of losses seen late, a tray that was advised to be binned had mostly been lost", () => {
  // common practice, no source: the simulated grower's own truth
  const { bin, keep } = measureKeepOrBin(2, 12);
  expect(bin.trays).toBeGreaterThan(8);
  expect(bin.regretted).toBeLessThan(0.2);
  expect(bin.came).toBeGreaterThan(0);
  expect(keep.trays).toBe(0);
});
