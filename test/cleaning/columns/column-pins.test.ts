import { describe, expect, test } from "vitest";
import type { ColumnPin } from "../../../src/cleaning/columns/column-plan.ts";
import { pinsWithoutColumn } from "../../../src/cleaning/columns/plan-columns.ts";
import { planned } from "./planned-columns.ts";

describe("a line of columns.csv", () => {
  const pin = (header: string, field: ColumnPin["field"], file = "", unit = ""): ColumnPin => ({
    file,
    header,
    field,
    unit,
  });
  test.each<[string, ColumnPin[], string]>([
    ["names the field", [pin("q", "fresh_g")], "tray_id, fresh_g"],
    ["and its unit", [pin("q", "fresh_g", "", "oz")], "tray_id, fresh_g (oz)"],
    ["in whatever case and spaces", [pin(" Q ", "fresh_g")], "tray_id, fresh_g"],
    ["of another header", [pin("qq", "fresh_g")], "tray_id, factor"],
    ["for this sheet, by its path", [pin("q", "fresh_g", "spring/a.csv > Tab 1")], "tray_id, fresh_g"],
    ["by its file", [pin("q", "fresh_g", "spring/a.csv")], "tray_id, fresh_g"],
    ["by its name", [pin("q", "fresh_g", "a.csv")], "tray_id, fresh_g"],
    ["by its name without its ending", [pin("q", "fresh_g", "A")], "tray_id, fresh_g"],
    ["for another tab", [pin("q", "fresh_g", "spring/a.csv > Tab 2")], "tray_id, factor"],
    ["for another sheet", [pin("q", "fresh_g", "b.csv")], "tray_id, factor"],
    [
      "for this sheet before one for every sheet",
      [pin("q", "dry_g"), pin("q", "fresh_g", "a.csv")],
      "tray_id, fresh_g",
    ],
    ["leaves a column as it is", [pin("Tray", "factor")], "factor, factor"],
    ["leaves a column out", [pin("q", "unread")], "tray_id, unread"],
  ])("%s", (_, pins, columns) => {
    expect(planned("Tray,q|A,1", pins, "spring/a.csv > Tab 1").columns).toBe(columns);
  });

  test("wins over the name of a column, and over another with the same claim", () => {
    expect(planned("Tray,Fresh wt,Harvest weight|A,1,2", [pin("Harvest weight", "fresh_g")]).columns).toBe(
      "tray_id, factor, fresh_g",
    );
    expect(planned("Tray,Fresh g|A,1", [pin("Fresh g", "dry_g")]).columns).toBe("tray_id, dry_g (g)");
    expect(planned("Tray,Fresh g|A,1", [pin("Fresh g", "fresh_g")]).columns).toBe("tray_id, fresh_g (g)");
    expect(planned("Tray,Fresh incl. tray (g)|A,1", [pin("Fresh incl. tray (g)", "fresh_g")]).columns).toBe(
      "tray_id, fresh_g (g)",
    );
    expect(planned("Tray,Count|A,2|B,3", [pin("Count", "trays_in_pool")]).columns).toBe("tray_id, trays_in_pool");
    expect(planned("Tray,Flush 1 g,Flush 2 g,Total g|A,200,90,290", [pin("Total g", "factor")]).columns).toBe(
      "tray_id, fresh_g 1 (g), fresh_g 2 (g), factor",
    );
    expect(planned("X,Fresh g|q1,1|q2,2|q3,3|q4,4", [pin("X", "factor")]).columns).toBe("factor, fresh_g (g)");
    expect(planned("X,Fresh g|ok,1|mould,2|ok,3", [pin("X", "factor")]).columns).toBe("factor, fresh_g (g)");
    expect(planned("Tray,Weight with tray g,Tray weight g|A,1,2", [pin("Tray weight g", "fresh_g")]).columns).toBe(
      "tray_id, unread ? fresh_g, fresh_g (g)",
    );
  });

  test("leaves the unit to the header, whatever that names", () => {
    const unitOf = (header: string, field: ColumnPin["field"]) =>
      planned(`Tray,${header}|A,1`, [pin(header, field)]).columns;
    expect(unitOf("Haul (oz)", "fresh_g")).toBe("tray_id, fresh_g (oz)");
    expect(unitOf("Haul (ml)", "fresh_g")).toBe("tray_id, fresh_g");
    expect(unitOf("Haul", "fresh_g")).toBe("tray_id, fresh_g");
    expect(planned("Tray,Haul (oz)|A,1", [pin("Haul (oz)", "fresh_g", "", "g")]).columns).toBe("tray_id, fresh_g (g)");
  });

  test("says nothing of a column in the log", () => {
    expect(planned("Tray,q|A,1", [pin("q", "factor")]).log).toEqual([]);
    expect(planned("Tray,q|A,1", [pin("q", "unread")]).log).toEqual([]);
  });

  test("that no column has is told, unless no line of a sheet says it", () => {
    const line = { file: "columns.csv", row: 2 };
    const columns = [{ file: "spring/a.csv", header: "Fresh wt" }];
    const told = (...pins: ColumnPin[]) =>
      pinsWithoutColumn(pins, columns).map(({ row, raw, severity, reason }) => [
        row,
        raw,
        severity,
        reason.slice(0, 20),
      ]);
    expect(told({ ...pin("fresh WT", "fresh_g"), line }, { ...pin("Fresh wt", "fresh_g", "a.csv"), line })).toEqual([]);
    expect(told(pin("Frsh", "fresh_g"))).toEqual([]);
    expect(told({ ...pin("Frsh", "fresh_g"), line })).toEqual([[2, "Frsh", "warning", "no harvest sheet has"]]);
    expect(told({ ...pin("Frsh", "unread"), line })).toEqual([[2, "Frsh", "note", "no harvest sheet has"]]);
    expect(told({ ...pin("Fresh wt", "fresh_g", "b.csv"), line })).toEqual([
      [2, "Fresh wt", "warning", "the sheet it names h"],
    ]);
  });
});

test("what is asked about a column names a line for columns.csv that can be copied as it stands", () => {
  const actions = (sheet: string): string[] =>
    planned(sheet, [], "my, trays.csv").issues.flatMap(({ action }) => action ?? []);
  expect(actions("Tray,Picked|A,1|B,2")).toEqual([
    'Add the line "my, trays.csv",Picked,flush (or another field) to columns.csv',
  ]);
  expect(actions("Tray,Gross weight|A,260")).toEqual([
    'Correct the weights in the sheet; if they stand as they should, add the line "my, trays.csv",Gross weight,fresh_g to columns.csv',
  ]);
  expect(actions("Tray,Count|A,2|B,3")).toEqual([
    'Add the line "my, trays.csv",Count,factor to columns.csv, or "my, trays.csv",Count,trays_in_pool where it counts trays',
  ]);
  expect(actions("Tray,fresh_g,Harvest weight|A,200,210")).toEqual([
    'If this column is the right one, add the line "my, trays.csv",Harvest weight,fresh_g to columns.csv',
  ]);
  expect(actions("Tray,Weight|A,200")).toEqual([
    'If it is something else, add the line "my, trays.csv",Weight,factor (or its field) to columns.csv',
  ]);
  expect(actions("Tray,q|A,200")).toEqual([
    'If it is one of the fields, add the line "my, trays.csv",q,FIELD with the field\'s name to columns.csv',
  ]);
  const [first] = planned("Tray,Fresh wt,Harvest weight|A,200,210").issues;
  expect(first!.reason).toContain("“Fresh wt” and “Harvest weight” could all be fresh_g");
});
