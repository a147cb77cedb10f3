import { expect, test } from "vitest";
import { whichRowsCannotBeTrusted } from "../../analyses/rows/which-rows-cannot-be-trusted.ts";
import type { Outcome, Trial } from "../../src/analysis.ts";
import type { Issue } from "../../src/records/issue.ts";
import type { Tray } from "../../src/records/tray.ts";
import { seededRandom } from "../../src/statistics/random/seeded-random.ts";
import { trayRecord, trialOfTrays } from "./demo-records.ts";

function book(seed: number, given: (index: number) => Partial<Tray> = () => ({})): Tray[] {
  const random = seededRandom(seed);
  return Array.from({ length: 48 }, (_, index) => {
    const cook = Math.floor(index / 12);
    const dose = index % 2 ? 10 : 5;
    return trayRecord({
      trayId: `T${index}`,
      batch: `C${cook}`,
      inoculumMillilitres: dose,
      dryGrams: 10 + dose / 2 + 3 * cook + random.normal(),
      sources: [{ file: "harvests/a.csv", row: index + 2 }],
      ...given(index),
    });
  });
}

const text = (outcome: Outcome): string =>
  (outcome.kind === "answer" ? outcome.sentence : outcome.reason)
    .map((part) => (typeof part === "string" ? part : "#"))
    .join("");

test("flagged trays are named with file and row, grouped by rule, and figures compared", () => {
  const trays = book(1, (index) => (index === 5 ? { flags: ["weight-unusual"] } : {}));
  const issue: Issue = {
    file: "harvests/a.csv",
    row: 7,
    column: "dry",
    tray: "T5",
    raw: "1,2",
    result: "",
    rule: "weight-unusual",
    severity: "warning",
    reason: "weight unlike the others",
    expected: "",
    action: "weigh again",
  };
  const outcome = whichRowsCannotBeTrusted.run({ ...trialOfTrays(trays), issues: [issue] });
  expect(text(outcome)).toContain("1 of 48 trays has rows to re-read, such as T5 (harvests/a.csv row 7)");
  expect(text(outcome)).toContain("the main figures do not change");
  expect(outcome.tables[1]!.rows[0]).toEqual([
    "weight unlike the others",
    1,
    "T5 (harvests/a.csv row 7)",
    "weigh again",
  ]);
});

test("a slipped decimal point that is flagged: the gain it hid is reported as changed", () => {
  const trays = book(2, (index) => (index === 11 ? { dryGrams: 240, flags: ["weight-unusual"] } : {}));
  const outcome = whichRowsCannotBeTrusted.run(trialOfTrays(trays));
  expect(text(outcome)).toContain("T11");
  expect(text(outcome)).toContain("these figures change: 10 mL against 5 mL");
  const gain = outcome.estimates.find(({ label }) => label.startsWith("10 mL"))!;
  expect(gain.low!).toBeLessThan(2.5);
  expect(gain.high!).toBeGreaterThan(2.5);
});

test("the front says what stands in the first doubtful cell, and what was expected", () => {
  const issue = {
    file: "a.csv",
    row: 7,
    column: "dry",
    tray: "T5",
    raw: "17.4",
    result: "17.4",
    rule: "weight-unusual",
  } as const;
  const said = { severity: "warning", reason: "far below the others", expected: "near 25.3 g", action: "" } as const;
  const trays = book(1, (index) => (index === 5 ? { flags: ["weight-unusual"] } : {}));
  const outcome = whichRowsCannotBeTrusted.run({ ...trialOfTrays(trays), issues: [{ ...issue, ...said }] });
  // nothing changes without it, so what is due comes first
  expect(outcome.next).toEqual([
    { rank: "record", act: ["Re-read T5."], because: ["“17.4”, expected near 25.3 g."], see: "tray:T5" },
  ]);
});

test("a clean book says so", () => {
  const outcome = whichRowsCannotBeTrusted.run(trialOfTrays(book(3)));
  expect(outcome.kind === "answer" && outcome.certainty).toBe("measured");
  expect(text(outcome)).toContain("No row of 48 trays is doubtful");
});

test.each<[string, Trial]>([
  ["one tray", trialOfTrays([trayRecord({ trayId: "T1", flags: ["x"] })])],
  [
    "all growing",
    trialOfTrays(Array.from({ length: 20 }, (_, i) => trayRecord({ trayId: `T${i}`, outcome: "growing" }))),
  ],
  ["all lost", trialOfTrays(Array.from({ length: 20 }, (_, i) => trayRecord({ trayId: `T${i}`, outcome: "failed" })))],
  [
    "all alike and flagged",
    trialOfTrays(Array.from({ length: 20 }, (_, i) => trayRecord({ trayId: `T${i}`, dryGrams: 9, flags: ["x"] }))),
  ],
])("%s: an answer without upset", (_, trial) => {
  expect(whichRowsCannotBeTrusted.run(trial).kind).toBe("answer");
});

test("no tray: cannot tell", () => {
  expect(whichRowsCannotBeTrusted.run(trialOfTrays([])).kind).toBe("cannot-tell");
});
