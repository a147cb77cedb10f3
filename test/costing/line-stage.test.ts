import { expect, test } from "vitest";
import { growsWithOutput, lineStage, stageOrder, stages } from "../../src/costing/lines/line-stage.ts";
import type { CostBase, CostKind, Stage } from "../../src/records/cost-line.ts";
import { line } from "./sample-records.ts";

test("stages follow one another as a tray's life does", () => {
  expect(stages).toEqual(["filling", "inoculation", "incubation", "fruiting", "harvest", "drying"]);
  expect(stages.map(stageOrder)).toEqual([0, 1, 2, 3, 4, 5]);
});

// culture goes in at inoculation, picking follows the harvest, the dryer runs last: common practice, no source
test.each<[CostBase, CostKind, Stage]>([
  ["tray", "consumable", "filling"],
  ["cook", "energy", "filling"],
  ["load", "energy", "filling"],
  ["supplement g", "ingredient", "filling"],
  ["grain g", "ingredient", "filling"],
  ["month", "overhead", "filling"],
  ["unit sold", "consumable", "filling"],
  ["jar", "culture", "inoculation"],
  ["inoculum mL", "culture", "inoculation"],
  ["shelf day", "space", "inoculation"],
  ["good tray", "labour", "harvest"],
  ["good tray", "energy", "harvest"],
  ["kg fresh", "labour", "harvest"],
  ["kg fresh", "energy", "drying"],
  ["kg dried", "consumable", "drying"],
  ["kg dried", "energy", "drying"],
])("a line per %s of %s is spent at %s, unless it says when", (per, kind, stage) => {
  expect(lineStage({ per, kind })).toBe(stage);
  for (const said of stages) expect(lineStage({ per, kind, stage: said })).toBe(said);
});

// variable and fixed cost as textbooks part them: what is there whether or not one more is made is fixed
test.each<[string, Partial<Parameters<typeof line>[0]>, boolean]>([
  ["an ingredient", { kind: "ingredient" }, true],
  ["power of a load", { kind: "energy", per: "load" }, true],
  ["hired work", { kind: "labour" }, true],
  ["rent", { kind: "space", per: "shelf day" }, false],
  ["overhead", { kind: "overhead", per: "cook" }, false],
  ["anything by the month", { kind: "energy", per: "month" }, false],
  ["the owner's time", { kind: "labour", ownerLabour: true }, false],
  ["equipment by its years", { kind: "reusable", lifeYears: 5, usesPerYear: 50 }, false],
  ["equipment by its uses", { kind: "reusable", uses: 40 }, true],
  ["equipment by its uses, years said beside", { kind: "reusable", uses: 40, lifeYears: 5 }, true],
  ["equipment that does not say how long", { kind: "reusable" }, true],
  ["an ingredient with years, which mean nothing there", { kind: "ingredient", lifeYears: 5 }, true],
])("%s grows with what is made or not", (_, facts, grows) => {
  expect(growsWithOutput(line({ item: "a", ...facts }))).toBe(grows);
});
