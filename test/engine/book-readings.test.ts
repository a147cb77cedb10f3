import { expect, test } from "vitest";
import { finishedCooks, readingOfBook, readingsWith } from "../../src/engine/book-readings.ts";
import { trialOf } from "../../src/engine/trial-of.ts";
import { defaultSettings } from "../../src/records/setting-definitions.ts";
import { trayRecord } from "../analyses/demo-records.ts";

// common practice, no source: a reading is a new set of finished cooks

const tray = (batch: string, outcome: "good" | "growing" = "good") =>
  trayRecord({ trayId: `${batch}${outcome}`, batch, outcome });

test("a cook is finished when none of its trays grows", () => {
  expect(finishedCooks([tray("B"), tray("A"), tray("A", "growing"), tray("C")])).toEqual(["B", "C"]);
});

test("the same cooks are the same reading, new ones the next, and fewer cooks take the record back", () => {
  expect(readingsWith([], ["A"])).toEqual([["A"]]);
  expect(readingsWith([["A"]], ["A"])).toEqual([["A"]]);
  expect(readingsWith([["A"]], ["A", "B"])).toEqual([["A"], ["A", "B"]]);
  expect(readingsWith([["A"], ["A", "B"]], ["A"])).toEqual([["A"]]);
});

test("without record or plan the reading is unknown; a record knows the first, a plan or the cooks the one waited for", () => {
  const book = (given: object) => ({
    ...{ name: "", settings: defaultSettings, trays: [tray("A"), tray("B")], temperatureLog: [], columns: [] },
    ...{ issues: [], leftOut: [], harvestFiles: [], ...given },
  });
  expect(readingOfBook(book({}))).toBeUndefined();
  const trays = ["A", "B", "C", "D"].map((cook) => tray(cook));
  expect(readingOfBook(book({ trays, readings: [["A", "B", "C", "D"]] }))).toBe("first");
  expect(readingOfBook(book({ trays, readings: [["A"], ["A", "B", "C", "D"]] }))).toBe("awaited");
  expect(readingOfBook(book({ readings: [["A"], ["A", "B"]] }))).toBe("other");
  expect(readingOfBook(book({ settings: { ...defaultSettings, plannedCooks: 2 } }))).toBe("awaited");
  expect(readingOfBook(book({ settings: { ...defaultSettings, plannedCooks: 3 } }))).toBe("other");
});

test("cooks that lie beside a plan's are none of the cooks that it counts", () => {
  const planned = (batch: string, outcome: "good" | "growing" = "good") =>
    trayRecord({
      trayId: batch,
      batch,
      outcome,
      factors: { planned_trial: "2026-03-02: inoculum_ml over 2 cooks drawn by lot" },
    });
  const readingWith = (...trays: ReturnType<typeof planned>[]) =>
    trialOf({
      ...{
        name: "",
        settings: defaultSettings,
        temperatureLog: [],
        columns: [],
        issues: [],
        leftOut: [],
        harvestFiles: [],
      },
      trays: [tray("A"), tray("B"), tray("C", "growing"), ...trays],
    }).reading;
  expect(readingWith(planned("P1"))).toBe("other");
  expect(readingWith(planned("P1"), planned("P2"))).toBe("awaited");
  expect(readingWith(planned("P1"), planned("P2", "growing"))).toBe("other");
});
