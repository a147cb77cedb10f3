import { describe, expect, test } from "vitest";
import { stratifiedAssociation, stratifiedTrend } from "../../../src/statistics/counts/stratified-association.ts";

/** Berkeley admissions 1973, six departments, men and women: Bickel, Hammel and O'Connell 1975, Science 187:398-404. */
const departments = [
  { admitted: [512, 89], applied: [825, 108] },
  { admitted: [353, 17], applied: [560, 25] },
  { admitted: [120, 202], applied: [325, 593] },
  { admitted: [138, 131], applied: [417, 375] },
  { admitted: [53, 94], applied: [191, 393] },
  { admitted: [22, 24], applied: [373, 341] },
].map(({ admitted, applied }) => ({ events: admitted, trials: applied, scores: [0, 1] }));

describe("stratified tests of proportions, Mantel 1963", () => {
  test("Berkeley admissions: 1.5246 without correction, p .2169 (R's mantelhaen.test, correct = FALSE; from memory)", () => {
    const trend = stratifiedTrend(departments)!;
    const association = stratifiedAssociation(departments)!;
    expect(trend.z ** 2).toBeCloseTo(1.5246, 4);
    expect(association.chiSquare).toBeCloseTo(1.5246, 4);
    expect(association.p).toBeCloseTo(0.2169, 4);
    expect(association.degreesOfFreedom).toBe(1);
  });

  test("one stratum: the trend test of Cochran and Armitage times (n - 1) / n", () => {
    const [events, trials, scores] = [
      [1, 4, 9],
      [20, 18, 22],
      [3, 6, 9],
    ] as const;
    // Armitage 1955, Biometrics 11(3):375-386, by sums: 14 of 60 lost
    const share = 14 / 60;
    const pull = events.reduce((sum, count, i) => sum + scores[i]! * (count - trials[i]! * share), 0);
    const first = trials.reduce((sum, count, i) => sum + count * scores[i]!, 0);
    const second = trials.reduce((sum, count, i) => sum + count * scores[i]! ** 2, 0);
    const armitage = pull ** 2 / (share * (1 - share) * (second - first ** 2 / 60));
    const found = stratifiedTrend([{ events, trials, scores }])!;
    expect(found.z).toBeGreaterThan(0);
    expect(found.z ** 2).toBeCloseTo((armitage * 59) / 60, 12);
    // and with no order among the levels Pearson's chi-square times the same
    const pearson = trials.reduce(
      (sum, count, i) => sum + (events[i]! - count * share) ** 2 / (count * share * (1 - share)),
      0,
    );
    const association = stratifiedAssociation([{ events, trials }])!;
    expect(association.degreesOfFreedom).toBe(2);
    expect(association.chiSquare).toBeCloseTo((pearson * 59) / 60, 12);
  });

  test("a stratum split off that holds one outcome only changes nothing; scores in another unit neither", () => {
    const found = stratifiedTrend(departments)!;
    expect(stratifiedTrend([...departments, { events: [0, 0], trials: [5, 9], scores: [0, 1] }])!.z).toBe(found.z);
    for (const scores of [
      [30, 80],
      [0, 1e-9],
      [0, 1e9],
    ])
      expect(stratifiedTrend(departments.map((one) => ({ ...one, scores })))!.z).toBeCloseTo(found.z, 10);
    expect(stratifiedTrend(departments.map((one) => ({ ...one, scores: [1, 0] })))!.z).toBeCloseTo(-found.z, 10);
  });

  test("a stratum of one tray, or of one outcome, says nothing; a level without trays in it is no level of it", () => {
    const association = stratifiedAssociation(departments)!;
    const trend = stratifiedTrend(departments)!;
    for (const [events, trials] of [
      [
        [0, 0],
        [1, 0],
      ],
      [
        [0, 1],
        [0, 1],
      ],
      [
        [5, 9],
        [5, 9],
      ],
      [
        [0, 0],
        [5, 9],
      ],
      [
        [0, 0],
        [0, 0],
      ],
    ] as const) {
      const more = { events, trials, scores: [0, 1] };
      expect(stratifiedAssociation([...departments, more])!.chiSquare).toBeCloseTo(association.chiSquare, 12);
      expect(stratifiedTrend([...departments, more])!.z).toBeCloseTo(trend.z, 12);
    }
    const third = departments.map(({ events, trials }) => ({ events: [...events, 0], trials: [...trials, 0] }));
    expect(stratifiedAssociation(third)).toMatchObject({ degreesOfFreedom: 1 });
    expect(stratifiedAssociation(third)!.chiSquare).toBeCloseTo(association.chiSquare, 10);
  });

  test("their examples, nothing to tell, wrong calls", () => {
    expect(stratifiedTrend([{ events: [1, 2, 3], trials: [10, 10, 10], scores: [0, 1, 2] }])?.z).toBeCloseTo(1.0992, 4);
    expect(stratifiedAssociation([{ events: [1, 4], trials: [10, 10] }])?.chiSquare).toBeCloseTo(2.28, 12);
    expect(stratifiedTrend([{ events: [2], trials: [5], scores: [3] }])).toBeUndefined();
    expect(stratifiedTrend([])).toBeUndefined();
    expect(stratifiedAssociation([])).toBeUndefined();
    expect(stratifiedAssociation([{ events: [0, 0], trials: [5, 5] }])).toBeUndefined();
    expect(() => stratifiedTrend([{ events: [6], trials: [5], scores: [1] }])).toThrow(/exceed/);
    expect(() => stratifiedTrend([{ events: [1], trials: [5], scores: [1, 2] }])).toThrow(/equally long/);
  });
});
