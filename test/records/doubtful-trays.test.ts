import { expect, test } from "vitest";
import { doubtfulTrays, sheetWideFlags } from "../../src/records/doubtful-trays.ts";
import { trayRecord } from "../analyses/demo-records.ts";

const trays = (...flags: string[][]) => flags.map((own, at) => trayRecord({ trayId: `T${at}`, flags: own }));
const names = (flags: string[][]): string[] => doubtfulTrays(trays(...flags)).map(({ trayId }) => trayId);

test("what most trays share is a doubt of the sheet: only trays with one of their own stand out", () => {
  const shared = [["no-year"], ["no-year"], ["no-year", "weight-unusual"], ["no-year"], []];
  expect([...sheetWideFlags(trays(...shared))]).toEqual(["no-year"]);
  expect(names(shared)).toEqual(["T2"]);
});

test("half of the trays are not most, and of three trays each stands for itself", () => {
  expect(names([["a"], ["a"], [], []])).toEqual(["T0", "T1"]);
  expect(names([["a"], ["a"], ["a"]])).toEqual(["T0", "T1", "T2"]);
  expect(names([["a"], ["b"], ["c"], ["d"]])).toEqual(["T0", "T1", "T2", "T3"]);
});
