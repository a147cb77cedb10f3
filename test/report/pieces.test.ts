import { h } from "preact";
import { renderToString } from "preact-render-to-string";
import { describe, expect, test } from "vitest";
import { issueGroups, worstIssues } from "../../src/records/issue-groups.ts";
import { defaultSettings } from "../../src/records/setting-definitions.ts";
import { letterWidth } from "../../src/report/charts/letter-width.ts";
import { namedPlaces } from "../../src/report/charts/named-places.ts";
import { thinPoints } from "../../src/report/charts/thin-points.ts";
import { AnswerTable } from "../../src/report/questions/answer-table.tsx";
import { trayNames } from "../../src/report/questions/excluded-trays.tsx";
import { reportFacts } from "../../src/report/report-facts.ts";
import { trayColumns } from "../../src/report/sheets/tray-columns.ts";
import { visibleText } from "../../src/report/visible-text.ts";
import { sampleBook, sampleIssue, sampleTray } from "./sample-book.ts";

test("cell text shows what cannot be seen and is cut when very long", () => {
  expect(visibleText("two\nlines")).toBe("two↵lines");
  expect(visibleText("a\r\nb\tc")).toBe("a↵b c");
  expect(visibleText("\u0000\u0007\u007f\u0085")).toBe("␀␇␡\ufffd");
  expect(visibleText("left\u202eright\ufeff")).toBe("left\ufffdright\ufffd");
  expect(visibleText("half \ud800 whole 🍄")).toBe("half \ufffd whole 🍄");
  expect(visibleText("ünïcode <b> & more")).toBe("ünïcode <b> & more");
  expect(visibleText("x".repeat(300), 10)).toBe("xxxxxxxxxx… (300 characters)");
  expect(visibleText("C1-001, C1-002, C1-003", 20)).toBe("C1-001, C1-002… (22 characters)");
  expect(visibleText("C1-001, C1-002, C1-003", 22)).toBe("C1-001, C1-002, C1-003");
  expect(visibleText(`no ${"x".repeat(300)}`, 60)).toBe(`no ${"x".repeat(57)}… (303 characters)`);
});

describe("thinning", () => {
  const points = Array.from({ length: 5000 }, (_, index) => ({
    group: index % 5 === 0 ? "few" : "many",
    value: (index * 7919) % 5003,
  }));
  const thin = (most: number) =>
    thinPoints(
      points,
      ({ group }) => group,
      ({ value }) => value,
      most,
    );
  test("keeps shares of groups, extremes and order", () => {
    const kept = thin(500);
    expect(kept.length).toBe(500);
    expect(kept.filter(({ group }) => group === "few").length).toBe(100);
    const values = kept.filter(({ group }) => group === "many").map(({ value }) => value);
    const all = points.filter(({ group }) => group === "many").map(({ value }) => value);
    expect([Math.min(...values), Math.max(...values)]).toEqual([Math.min(...all), Math.max(...all)]);
    const places = kept.map((point) => points.indexOf(point));
    expect(places).toEqual(places.toSorted((a, b) => a - b));
  });
  test("keeps the middle where it was", () => {
    const middle = (values: number[]) => values.toSorted((a, b) => a - b)[Math.floor(values.length / 2)]!;
    const of = (list: typeof points) => middle(list.map(({ value }) => value));
    expect(Math.abs(of(thin(500)) - of(points))).toBeLessThan(60);
  });
  test("leaves few points alone", () => {
    expect(thin(5000)).toEqual(points);
  });
});

test("names on an axis cannot clash, act as code or grow without end", () => {
  const names = ["__proto__", "constructor", "a b", "x".repeat(400), `${"x".repeat(400)}y`];
  const places = namedPlaces(names, { letters: 10, lines: 2 });
  expect(new Set(places.keys).size).toBe(5);
  expect(places.keys.every((key) => key.length < 40)).toBe(true);
  expect(places.keyOf("__proto__")).toContain("__proto__");
  expect(() => places.keyOf("absent")).toThrow(RangeError);
});

test("letters have widths", () => {
  expect(letterWidth("ll", 10)).toBeCloseTo(5.4, 10);
  expect(letterWidth("", 10)).toBe(0);
});

describe("the log", () => {
  const issues = [
    ...Array.from({ length: 5 }, (_, index) => sampleIssue({ row: index + 1, raw: `${index},5` })),
    sampleIssue({ row: 9, severity: "error", rule: "r", reason: "broken", file: "b.csv" }),
    sampleIssue({ row: 10, severity: "warning", rule: "w", reason: "doubtful" }),
    sampleIssue({ row: 11, severity: "warning", rule: "w", reason: "doubtful", column: "Other" }),
  ];
  test("like entries are put together, worst first", () => {
    const groups = issueGroups(issues);
    expect(groups.map(({ severity, count }) => [severity, count])).toEqual([
      ["error", 1],
      ["warning", 2],
      ["change", 5],
    ]);
    expect(groups[1]!.columns).toEqual(["Dry wt (g)", "Other"]);
    expect(groups[1]!.examples).toHaveLength(1);
    expect(groups[2]!.examples.map(({ raw }) => raw)).toEqual(["0,5", "1,5", "2,5", "3,5", "4,5"]);
  });
  test("a long log keeps its worst in the order of the sheets", () => {
    expect(worstIssues(issues, 4).map(({ row }) => row)).toEqual([1, 9, 10, 11]);
    expect(worstIssues(issues, 100)).toEqual(issues);
  });
});

test("the trays table says once what is the same for all, and what is known within bounds", () => {
  const { settings } = sampleBook();
  const trays = [
    sampleTray(0, { bounds: { light_hours: { low: 10 } } }),
    sampleTray(1, { bounds: { light_hours: { high: 12 } } }),
    sampleTray(2, { bounds: { light_hours: { low: 10, high: 12 } } }),
  ];
  const { columns, same } = trayColumns(trays, settings);
  const heads = columns.map(({ column }) => column.label);
  expect(heads.slice(0, 3)).toEqual(["Tray", "Outcome", "Inoculum"]);
  expect(same.map(({ label }) => label)).toContain("Strain");
  expect(columns.find(({ column }) => column.label === "Light")!.cells).toEqual(["over 10", "under 12", "10 to 12"]);
  expect(heads).not.toContain("Operator");
});

test("free columns with odd names are shown as they are", () => {
  const factors = Object.fromEntries([["__proto__", "odd"]]);
  const { columns } = trayColumns([sampleTray(0, { factors }), sampleTray(1, { factors: {} })], sampleBook().settings);
  expect(columns.find(({ column }) => column.label === "__proto__")!.cells).toEqual(["odd", ""]);
});

test("tray names are cut with the rest counted", () => {
  const names = Array.from({ length: 62 }, (_, at) => `T${at + 1}`);
  expect(trayNames(names)).toBe(`${names.slice(0, 60).join(", ")} and 2 more`);
});

test("a pool that is left out counts as its trays", () => {
  const trays = [sampleTray(1, { trayId: "six together", traysInPool: 6 }), sampleTray(2, { trayId: "one" })];
  const { countOf } = reportFacts(sampleBook({ trays }), false);
  expect(countOf(["six together", "one", "known by name alone"])).toBe(8);
});

test("a value and the ends of its range have the same decimals; ends that are names stay names", () => {
  const columns = [
    { label: "from" },
    { label: "difference", unit: "g" },
    { label: "from", unit: "g" },
    { label: "to", unit: "g" },
  ];
  const table = {
    caption: "Against 2 mL",
    columns,
    rows: [
      ["4 mL", 1.667, -0.577, 3.912],
      ["6 mL", 2.167, -0.0769, 14.41],
    ],
  };
  const shown = renderToString(h(AnswerTable, { id: "t", table, settings: defaultSettings }));
  for (const cell of ["4 mL", "1.67", "−0.58", "3.91", "2.17", "−0.08", "14.41"]) expect(shown).toContain(cell);
  expect(shown).not.toContain("0.577");
});
