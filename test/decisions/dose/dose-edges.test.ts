import { describe, expect, test } from "vitest";
import type { ChosenDose } from "../../../src/decisions/dose/choose-dose.ts";
import { deepestValley } from "../../../src/decisions/dose/curve-draws.ts";
import { doseGrid, nextDoses } from "../../../src/decisions/dose/dose-grid.ts";
import { type DoseTray, doseDecision, isWorthTrying, usualStep } from "../../../src/decisions/dose/index.ts";
import { lossSpread } from "../../../src/decisions/dose/loss-draws.ts";
import type { MoneyDraws } from "../../../src/decisions/dose/money-draws.ts";
import { nextSteps } from "../../../src/decisions/dose/next-steps.ts";
import { testedDoses } from "../../../src/decisions/dose/tested-doses.ts";
import { assertClose } from "../../agreement.ts";
import { decided, grownTrays, twelveTrays } from "./dose-books.ts";

// Rules without another source: Gramwright's own specification of the dose decision, section 10.
const money = { perGram: 0.3, perDoseUnit: 0.1 };
const curve = (dose: number): number => 20 + 3 * dose - 0.15 * dose * dose;
const good = (cook: string, dose: number, ...weights: number[]): DoseTray[] =>
  weights.map((grams) => ({ cook, dose, grams, lost: false }));

describe("doses and grid", () => {
  test("doses nearer than half a step are one, at the mean of their trays", () => {
    const trays = [...good("A", 5.98, 30), ...good("A", 6, 31, 32, 33), ...good("A", 9, 34, 35)];
    const { doses, asTried } = testedDoses(trays, 1);
    assertClose(doses[0]!, 5.995, 1e-12);
    expect(doses[1]).toBe(9);
    expect(asTried).toEqual([[5.98, 6], [9]]);
  });

  test("finely spread doses do not run together into one", () => {
    const trays = Array.from({ length: 30 }, (_, i) => good("A", 3 + i * 0.2, 30 + i)).flat();
    expect(testedDoses(trays, 1).doses.length).toBeGreaterThan(9);
  });

  test("the spread of losses over whole cooks loses a degree of freedom to each dose, by arithmetic", () => {
    const cook = (name: string, dose: number, lost: number): DoseTray[] =>
      Array.from({ length: 6 }, (_, i) => ({ cook: name, dose, lost: i < lost, grams: i < lost ? undefined : 30 }));
    const whole = [...cook("A", 3, 0), ...cook("B", 3, 4), ...cook("C", 9, 0), ...cook("D", 9, 4)];
    // each cook is 2 trays from its dose's third of 6, which has the variance 4/3: X^2 is 12 on 4 - 2 degrees of freedom
    const spread = (trays: DoseTray[]) => lossSpread(testedDoses(trays, 1));
    assertClose(spread(whole), (12 + 4) / (2 + 4), 1e-12);
    // both doses in every cook: 0, 4, 0 and 4 of 12 are 2 from a sixth of 12, variance 5/3: 2.4 each, on 4 - 1
    const half = (name: string, lost: number) => [...cook(name, 3, lost), ...cook(name, 9, lost)];
    assertClose(
      spread([...half("A", 0), ...half("B", 2), ...half("C", 0), ...half("D", 2)]),
      (4 * 2.4 + 4) / (3 + 4),
      1e-12,
    );
  });

  test("two doses 0.02 apart that count as two divide nothing by 0", () => {
    const trays = grownTrays({ doses: [3, 5.98, 6, 9], cooks: 3, perCell: 3, grams: curve });
    const decision = decided({ trays, prices: money, settings: { step: 0.02 } });
    expect(decision.doses).toEqual([3, 5.98, 6, 9]);
    expect(decision.expected.length).toBeLessThanOrEqual(62);
    expect(decision.oneTop).toBeGreaterThan(0.3);
    for (const { left } of decision.expected) expect(Number.isFinite(left.mean)).toBe(true);
  });

  test.each([
    // tested doses, step, next below, next above
    [[3, 6, 9, 12], 1, 2, 15],
    [[6, 9, 12], 1, 3, 15],
    [[0, 5, 10], 1, undefined, 15],
    [[1, 2], 1, undefined, 3],
    [[5, 6, 30], 1, 4, 54],
    [[18, 20, 22], 1, 16, 24],
    [[-4, 0, 4], 1, -8, 8],
    [[0.5, 1, 2], 0.5, undefined, 3],
    [[2, 2.5, 8], 1, 1, 14],
  ] as const)("next doses beside %j in steps of %d: %s and %s", (doses, step, down, up) => {
    expect(nextDoses(doses, step)).toEqual(down === undefined ? { up } : { down, up });
  });

  test("no dose beyond what there can be: a day has 24 hours", () => {
    expect(nextDoses([12, 16], 1, 24)).toEqual({ down: 8, up: 20 });
    expect(nextDoses([12, 20], 1, 24)).toEqual({ down: 4, up: 24 });
    expect(nextDoses([16, 24], 1, 24)).toEqual({ down: 8 });
    expect(doseGrid([16, 24], 4, 24).doses).toEqual([8, 16, 20, 24]);
  });

  test("over sixty points the step widens in whole multiples and tested doses stay", () => {
    const { doses, tested, step } = doseGrid([10, 33, 400], 1);
    // a range of 390 in at most sixty points: eight at a time, which the answer then says
    expect(step).toBe(8);
    expect(doses.length).toBeLessThanOrEqual(62);
    expect(tested.map((at) => doses[at])).toEqual([10, 33, 400]);
    const steps = doses.filter((dose) => ![10, 33, 400].includes(dose)).slice(1, -1);
    for (const dose of steps) expect(dose % 8).toBe(0);
  });

  test.each([
    // lowest, highest, step: a grower's syringe, then shares, kilograms and near degrees
    [1, 4.9, 0.5],
    [3, 5, 1],
    [3, 49, 1],
    [10, 50, 5],
    [100, 400, 5],
    [1, 2, 0.5],
    [5, 6, 0.5],
    [50, 54, 2],
    [0.1, 0.3, 0.1],
    [0.02, 0.06, 0.02],
    [20, 20.6, 0.2],
    [7, 7, 1],
  ])("usual step from %d to %d: %d", (lowest, highest, step) => {
    expect(usualStep(lowest, highest)).toBe(step);
  });

  test("shares of supplement stay doses of their own", () => {
    const trays = grownTrays({ doses: [0.05, 0.1, 0.15, 0.2], cooks: 3, perCell: 3, grams: (d) => 20 + 60 * d });
    expect(decided({ trays }).doses).toEqual([0.05, 0.1, 0.15, 0.2]);
  });

  test("valleys", () => {
    const depth = (...values: number[]): number => deepestValley(Float64Array.from(values), 0, values.length);
    expect(depth(1, 2, 3)).toBe(0);
    expect(depth(3, 2, 1)).toBe(0);
    expect(depth(1, 4, 2, 3, 1)).toBe(1);
    expect(depth(5, 1, 4, 3, 6)).toBe(4);
    expect(depth(2, 5, 5, 4, 4.5)).toBe(0.5);
    expect(depth(7)).toBe(0);
  });
});

describe("what cannot be decided still shows its means", () => {
  test.each([
    ["no-trays", []],
    ["one-dose", good("A", 3, 20, 22, 24, 26)],
    ["too-few-weighed", [...good("A", 3, 20), ...good("A", 6, 30)]],
    ["weights-do-not-vary", [...good("A", 3, 30, 30, 30), ...good("B", 6, 30, 30, 30)]],
  ] as const)("%s", (reason, trays) => {
    const refused = doseDecision({ trays: [...trays], prices: money });
    expect(refused).toMatchObject({ kind: "cannot-tell", reason });
    for (const { grams } of refused.seen) expect(Number.isFinite(grams!.mean)).toBe(true);
  });

  test("weights that do not vary are seen whatever the unit of grams", () => {
    const alike = [...good("A", 3, 0.03, 0.03, 0.03), ...good("B", 6, 0.03, 0.03, 0.03)];
    expect(doseDecision({ trays: alike })).toMatchObject({ reason: "weights-do-not-vary" });
    const light = twelveTrays.map((tray) => ({ ...tray, grams: tray.grams! / 1e6 }));
    expect(doseDecision({ trays: light }).kind).toBe("decision");
  });

  test("trays without a cook are left out and counted, a pool as its trays", () => {
    const stray: DoseTray[] = [
      { dose: 3, lost: false, grams: 500, trays: 4 },
      { dose: 6, lost: true },
    ];
    const decision = decided({ trays: [...twelveTrays, ...stray], prices: money });
    expect(decision.leftOut).toEqual({ withoutCook: 5 });
    expect(decision.expected).toEqual(decided({ trays: twelveTrays, prices: money }).expected);
  });

  test("wrong calls name the number", () => {
    expect(() => doseDecision({ trays: [{ dose: Number.NaN, lost: false, cook: "A" }] })).toThrow(/doseDecision.*NaN/);
    expect(() => doseDecision({ trays: [{ dose: 1, lost: false, cook: "A", trays: 0 }] })).toThrow(/trays of a record/);
    expect(() => doseDecision({ trays: [], prices: { perGram: Number.NaN } })).toThrow(/prices.perGram/);
    expect(() => doseDecision({ trays: [], settings: { step: 0 } })).toThrow(/step/);
    expect(() => doseDecision({ trays: [], settings: { tolerance: -1 } })).toThrow(/tolerance/);
  });
});

describe("losses", () => {
  test("a dose whose trays were all lost stays in, and is not the one to use", () => {
    const lost: DoseTray[] = ["A", "B"].flatMap((cook) =>
      Array.from({ length: 4 }, () => ({ cook, dose: 15, lost: true })),
    );
    const decision = decided({ trays: [...twelveTrays, ...lost], prices: money });
    expect(decision.doses).toEqual([3, 6, 9, 15]);
    const at15 = decision.expected.find(({ dose }) => dose === 15)!;
    expect(at15.loss.mean).toBeGreaterThan(0.6);
    expect(decision.seen[3]!).toMatchObject({ trays: 8, lost: 8, weighed: 0 });
    expect(decision.seen[3]!.grams).toBeUndefined();
    expect(decision.use.dose).toBeLessThanOrEqual(9);
    expect(decision.notRuledOut.ruledOut).toContain(15);
  });

  test("none lost: losses are 0 and that is said", () => {
    const decision = decided({ trays: twelveTrays, prices: money });
    expect(decision.warnings).toContain("none-lost");
    for (const { loss } of decision.expected) expect(loss).toEqual({ mean: 0, low: 0, high: 0 });
  });

  test("what a lost tray brings back counts where more are lost", () => {
    const trays = grownTrays({ doses: [3, 6, 9, 12], cooks: 4, perCell: 5, grams: () => 30, loss: (d) => 0.04 * d });
    const without = decided({ trays, prices: money });
    const with3 = decided({ trays, prices: { ...money, recoveredPerLostTray: 3 } });
    without.expected.forEach(({ left, loss }, at) => {
      assertClose(with3.expected[at]!.left.mean - left.mean, 3 * loss.mean, 1e-9);
    });
  });
});

describe("money", () => {
  const trays = grownTrays({ doses: [3, 6, 9, 12], cooks: 4, perCell: 4, grams: curve, days: (dose) => 70 - 2 * dose });

  test("no prices: a gram counts 1 and nothing costs, left is grams of a started tray", () => {
    const decision = decided({ trays });
    expect(decision.priced).toBe(false);
    expect(decision.nonePays).toBe(false);
    for (const { left, grams } of decision.expected) assertClose(left.mean, grams.mean, 1e-9);
    const best = decision.expected
      .filter(({ tested }) => tested)
      .reduce((a, b) => (b.grams.mean > a.grams.mean ? b : a));
    expect(Math.abs(decision.use.dose - best.dose)).toBeLessThanOrEqual(3);
  });

  test("costs of every started tray lower all doses alike; the choice stays", () => {
    const cheap = decided({ trays, prices: money });
    const dear = decided({ trays, prices: { ...money, perStartedTray: 100 } });
    expect(dear.use.dose).toBe(cheap.use.dose);
    expect(dear.notRuledOut).toEqual(cheap.notRuledOut);
    assertClose(dear.use.left.mean, cheap.use.left.mean - 100, 1e-9);
    expect(cheap.nonePays).toBe(false);
    expect(dear.nonePays).toBe(true);
    // tolerance is of income, never of profit
    assertClose(dear.use.noDifference, cheap.use.noDifference, 1e-9);
  });

  test.each([0, -0.2])("a gram that brings %d: least spent, nothing as good, never settled", (perGram) => {
    const decision = decided({ trays, prices: { perGram, perDoseUnit: 0.1 } });
    expect(decision.use.dose).toBe(perGram === 0 ? 3 : decision.use.dose);
    expect(decision.use.tested).toBe(true);
    expect(decision.asGood).toBeUndefined();
    expect(decision.certainty).not.toBe("settled");
    expect(decision.nonePays).toBe(true);
    expect(decision.warnings).toContain("grams-bring-nothing");
  });

  test("days cost; a dose that is quicker earns more per shelf day", () => {
    const decision = decided({ trays, prices: { ...money, perShelfDay: 0.05 } });
    const [first, last] = [decision.expected[0]!, decision.expected.at(-1)!];
    assertClose(first.days! - last.days!, 2 * (last.dose - first.dose), 1.5);
    const perDay = decision.per.find(({ per }) => per === "shelf day")!;
    expect(perDay.dose).toBeGreaterThanOrEqual(9);
    const undated = trays.map((tray) => ({ ...tray, days: undefined }));
    const without = decided({ trays: undated, prices: { ...money, perShelfDay: 0.05 } });
    expect(without.per).toEqual([]);
    expect(without.warnings).toContain("no-days");
    for (const { days } of without.expected) expect(days).toBeUndefined();
  });

  test("per hour of work: own pay is put back, hours go by trays and grams", () => {
    const work = { hoursPerStartedTray: 0.5, hoursPerGoodTray: 0.1, hoursPerGram: 0.001, ownPayPerHour: 12 };
    const decision = decided({ trays, prices: money, work });
    expect(() => decided({ trays, prices: money, work: { ...work, hoursPerStartedTray: 0 } })).toThrow(/hours/);
    const perHour = decision.per.find(({ per }) => per === "hour of work")!;
    const at = decision.expected.find(({ dose }) => dose === perHour.dose)!;
    const hours = 0.6 + 0.001 * at.grams.mean;
    assertClose(perHour.left.mean, at.left.mean / hours + 12, 0.05);
  });

  test("the highest dose tried is best: the edge is said with the next dose", () => {
    const rising = grownTrays({ doses: [3, 6, 9, 12], cooks: 4, perCell: 4, grams: (dose) => 20 + 2 * dose });
    const decision = decided({ trays: rising, prices: money });
    expect(decision.use.dose).toBe(12);
    const edge = decision.edges.find(({ side }) => side === "highest")!;
    expect(edge).toMatchObject({ dose: 12, isUse: true });
    expect(edge.next!.dose).toBe(15);
    expect(edge.next!.chanceBetter).toBeGreaterThan(0.25);
    expect(decision.nextSteps.map(({ dose }) => dose)).toContain(15);
  });

  test("a next step is worth trying where a year's gain is above what its trial gives up", () => {
    const step = { dose: 15, beyond: true, chanceBetter: 0.4, difference: -0.5, value: 0.1 } as const;
    expect(isWorthTrying(step, 500, 12)).toBe(true);
    expect(isWorthTrying(step, 50, 12)).toBe(false);
    expect(isWorthTrying({ ...step, difference: 0.2 }, 1, 12)).toBe(true);
  });

  test.each([
    [0.96, 10],
    [0.94, 9],
  ])(
    "9 mL worth 1 and 10 mL worth %d: %d mL is next, a round dose where it gives up a twentieth at most",
    (worth, dose) => {
      const doses = [3, 4, 5, 6, 7, 8, 9, 10, 11, 12];
      const left = Float64Array.from(doses, (at) => ({ 9: 1, 10: worth })[at] ?? 0);
      const steps = nextSteps({ use: 0 } as ChosenDose, { doses, first: 0, last: 9, tested: [0, 9], step: 1 }, {
        left,
        count: 1,
      } as MoneyDraws);
      expect(steps).toMatchObject([{ dose, value: dose === 9 ? 1 : worth, chanceBetter: 1 }]);
    },
  );

  test("next steps are doses not tried, up to the next one that was", () => {
    const decision = decided({ trays, prices: money });
    for (const { dose } of decision.nextSteps) {
      expect(decision.doses).not.toContain(dose);
      const between = decision.doses.filter((one) =>
        dose > decision.use.dose ? one > decision.use.dose && one < dose : one < decision.use.dose && one > dose,
      );
      expect(between).toEqual([]);
    }
  });
});
