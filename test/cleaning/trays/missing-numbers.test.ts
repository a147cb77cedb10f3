import { describe, expect, test } from "vitest";
import { isContaminationASignal } from "../../../analyses/losses/is-contamination-a-signal.ts";
import { whatChangedTheYield } from "../../../analyses/treatment/what-changed-the-yield.ts";
import { trialOf } from "../../../src/engine/trial-of.ts";
import { bookOf, harvestOf } from "../book-of.ts";

const header = "tray_id,batch,inoculum_ml,outcome,dry_g";
const row = (id: string, batch = "C1", index = 0) =>
  `${id},${batch},${index % 2 === 0 ? 4 : 8},good,${20 + (index % 5)}`;
const sheetOf = (ids: ReadonlyArray<string>, batchOf: (index: number) => string = () => "C1") =>
  `${[header, ...ids.map((id, index) => row(id, batchOf(index), index))].join("\n")}\n`;
const range = (from: number, to: number, without: ReadonlyArray<number> = []) =>
  Array.from({ length: to - from + 1 }, (_, index) => from + index).filter((number) => !without.includes(number));
const padded = (numbers: ReadonlyArray<number>, prefix = "C1-") =>
  numbers.map((number) => `${prefix}${String(number).padStart(3, "0")}`);

const missingIn = async (text: string) =>
  (await harvestOf(text)).issues.filter(({ rule }) => rule === "tray-number-missing");

describe("numbers missing where trays are numbered one by one", () => {
  test("each is named as it would be typed, at the row after it", async () => {
    const missing = await missingIn(sheetOf(padded(range(1, 20, [7, 12, 13]))));
    expect(missing.map(({ tray, row, column, raw }) => [tray, row, column, raw])).toEqual([
      ["C1-007", 8, "tray_id", "C1-006, C1-008"],
      ["C1-012", 12, "tray_id", "C1-011, C1-014"],
      ["C1-013", 12, "tray_id", "C1-011, C1-014"],
    ]);
  });

  test("rows in any order, a number in another sheet, and lost trays written down leave no gap", async () => {
    expect(await missingIn(sheetOf(padded(range(1, 20)).reverse()))).toEqual([]);
    const book = await bookOf({
      "harvests/a.csv": sheetOf(padded(range(1, 20, [7, 12]))),
      "harvests/b.csv": `${header}\nC1-007,C1,4,contaminated,\nC1-012,C1,8,growing,\n`,
    });
    expect(book.issues.filter(({ rule }) => rule === "tray-number-missing")).toEqual([]);
  });

  test("a running number under one prefix per cook is one sequence", async () => {
    const ids = range(1, 24, [9]).map((number) => `C${1 + Math.floor((number - 1) / 12)}-${number}`);
    const missing = await missingIn(sheetOf(ids, (index) => (index < 11 ? "C1" : "C2")));
    expect(missing.map(({ tray }) => tray)).toEqual(["C1-9"]);
  });

  test("numbers that start again with each cook are a sequence each", async () => {
    const ids = [...padded(range(1, 10, [4]), "A"), ...padded(range(1, 10), "B")];
    const missing = await missingIn(sheetOf(ids, (index) => (index < 9 ? "A" : "B")));
    expect(missing.map(({ tray }) => tray)).toEqual(["A004"]);
  });

  test.each([
    ["numbers in steps", padded(range(1, 40).filter((number) => number % 5 === 0))],
    ["every second number", padded(range(1, 40).filter((number) => number % 2 === 0))],
    ["a jump", padded([...range(1, 12), ...range(101, 112)])],
    ["few trays", padded(range(1, 7, [4]))],
    ["names without numbers", [..."abcdefghij"].map((letter) => `tray ${letter}`)],
  ])("%s: nothing is said", async (_, ids) => {
    expect(await missingIn(sheetOf(ids))).toEqual([]);
  });

  test("another cook may start at another number, one number between two cooks is missing", async () => {
    const split = (index: number) => (index < 10 ? "C1" : "C2");
    expect(await missingIn(sheetOf(padded([...range(1, 10), ...range(13, 22)]), split))).toEqual([]);
    const missing = await missingIn(sheetOf(padded([...range(1, 10), ...range(12, 22)]), split));
    expect(missing.map(({ tray }) => tray)).toEqual(["C1-011"]);
  });

  test("a tray whose row was left out is not missing, it is shown with its reason", async () => {
    const lines = sheetOf(padded(range(1, 20))).split("\n");
    const book = await harvestOf([...lines.slice(0, 9), lines[8]!, ...lines.slice(9)].join("\n"));
    expect(book.issues.filter(({ rule }) => rule === "tray-number-missing")).toEqual([]);
  });
});

test("answers on yield and losses say which trays no row tells of", async () => {
  const trial = trialOf(await harvestOf(sheetOf(padded(range(1, 30, [7, 12, 13])))));
  for (const analysis of [whatChangedTheYield, isContaminationASignal]) {
    const caveats = analysis.run(trial).caveats.map((sentence) => sentence.join(""));
    expect(caveats.filter((text) => text.includes("(C1-007, C1-012, C1-013)"))).toHaveLength(1);
  }
  const whole = trialOf(await harvestOf(sheetOf(padded(range(1, 30)))));
  const caveats = isContaminationASignal.run(whole).caveats.map((sentence) => sentence.join(""));
  expect(caveats.filter((text) => text.includes("missing from the sheets"))).toEqual([]);
});
