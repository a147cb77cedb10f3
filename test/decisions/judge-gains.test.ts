import { describe, expect, test } from "vitest";
import {
  type ComparedTray,
  decideComparison,
  decideUnordered,
  gainsOver,
  judgeGain,
} from "../../src/decisions/verdict/index.ts";
import { expectAgreement } from "../agreement.ts";
import { side, trays } from "./verdict-sheets.ts";

// Student 1908, Biometrika 6:1-25, table of additional sleep, ten patients under two drugs: each patient a cook, each drug a level
const drugs = [
  [0.7, -1.6, -0.2, -1.2, -0.1, 3.4, 3.7, 0.8, 0, 2],
  [1.9, 0.8, 1.1, 0.1, -0.1, 4.4, 5.5, 1.6, 4.6, 3.4],
] as const;
const sleep = drugs.flatMap((hours, level) =>
  hours.map((value, i): ComparedTray => ({ level, cook: `P${i}`, day: i, row: 2 * i + level, value })),
);

describe("a gain against what it has to be", () => {
  test("Student's sleep: against 0 the p of the verdict; against the lower limit 0.05; against the estimate 1", () => {
    const decision = decideComparison(sleep);
    const [gain] = gainsOver(decision, 0);
    expect(gain!.estimate).toBeCloseTo(1.58, 10);
    const judged = (least: number) => judgeGain(decision, gain!, least, 1);
    // 1.58 (0.7001 to 2.4599), p .00283289: Student 1908 by R 4.2.2 t.test, paired
    expectAgreement(
      {
        method: "gain against what it costs",
        dataset: "sleep",
        statistic: "p against 0",
        source: "Student 1908; R 4.2.2 t.test",
      },
      [[judged(0).p!, 0.00283289]],
      5,
    );
    expect(judged(gain!.lower).p).toBeCloseTo(0.05, 6);
    expect(judged(gain!.upper).p).toBeCloseTo(0.05, 6);
    expect(judged(gain!.estimate).p).toBe(1);
    expect(judged(0).verdict).toBe("settled");
    expect(judged(gain!.upper + 1)).toMatchObject({ verdict: "settled", settleable: true });
    expect(judged(gain!.upper + 1).chance).toBeLessThan(0.05);
  });

  test("turned round, the gain is the loss", () => {
    const decision = decideComparison(sleep);
    const [there, back] = [gainsOver(decision, 0)[0]!, gainsOver(decision, 1)[0]!];
    expect([back.level, back.estimate, back.lower, back.upper]).toEqual([
      0,
      -there.estimate,
      -there.upper,
      -there.lower,
    ]);
    expect(gainsOver(decision, 7)).toEqual([]);
  });

  test("one cook leans at most, and what is supposed alone leans to nothing", () => {
    const one = decideComparison(trays([[3, 3, 3, 9, 9, 9]]));
    const gain = gainsOver(one, 3)[0]!;
    expect(judgeGain(one, gain, gain.estimate - 30, 1).verdict).toBe("leaning");
    expect(judgeGain(one, gain, gain.estimate + 30, 1).verdict).toBe("leaning");
    // trays just above what is wanted, while gains of that size are rare
    const wide = { ...gain, estimate: 12, standardError: 20, lower: -30, upper: 54 };
    const judged = judgeGain(one, wide, 11.9, 1);
    expect(judged.chance).toBeLessThan(0.15);
    expect(judged.verdict).toBe("open");
  });

  test("several gains are judged together", () => {
    const decision = decideUnordered(trays(side(5)).map((tray) => ({ ...tray, level: `L${tray.level}` })));
    const gains = gainsOver(decision, "L3");
    expect(gains.map(({ level }) => level)).toEqual(["L6", "L9"]);
    const gain = gains.at(-1)!;
    const [alone, both] = [1, 2].map((together) => judgeGain(decision, gain, gain.estimate - 2, together).p!);
    expect(both).toBeGreaterThan(alone!);
    expect(both).toBeLessThanOrEqual(1);
  });
});
