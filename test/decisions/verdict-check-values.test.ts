import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { type ComparedTray, decideComparison, decideUnordered } from "../../src/decisions/verdict/index.ts";
import { expectAgreement } from "../agreement.ts";

const reference = (name: string) =>
  JSON.parse(readFileSync(new URL(`../reference/${name}.json`, import.meta.url), "utf8")).data;

/** Yates 1935, Supplement to the Journal of the Royal Statistical Society 2:181-247, nitrogen on oats: 6 blocks, 3 varieties. */
const oats = reference("lmm-Oats") as { Block: string[]; nitro: number[]; yield: number[] };
const oatTrays: ComparedTray[] = oats.yield.map((value, i) => ({
  level: oats.nitro[i]!,
  cook: oats.Block[i]!,
  row: i,
  value,
}));
const oneCook = (values: number[], levels: (number | string)[]): ComparedTray[] =>
  values.map((value, i) => ({ level: levels[i]!, cook: "1", row: i, value }));

describe("two or more doses inside cooks", () => {
  test("Student 1908, Biometrika 6:1-25, sleep: ten patients as cooks, two drugs as doses", () => {
    const sleep = reference("paired-sleep") as { extra: number[]; group: string[]; ID: string[] };
    const decision = decideComparison(
      sleep.extra.map((value, i) => ({ level: Number(sleep.group[i]), cook: sleep.ID[i]!, row: i, value })),
    );
    const { estimate, standardError, degreesOfFreedom } = decision.difference!;
    expectAgreement(
      { method: "verdict, two doses", dataset: "sleep", statistic: "t, df, p", source: "Student 1908; R 4.2.2 t.test" },
      [
        [estimate / standardError, 4.062127683],
        [degreesOfFreedom, 9],
        [decision.p!, 0.00283289],
      ],
      6,
    );
    expect(decision.verdict).toBe("settled");
    expect(decision.cooks).toBe(10);
  });

  // p-values and errors of the following two: recalculated independently from the written rules, each digit given
  test("oats: slopes of blocks, F of levels, and both combined", () => {
    const decision = decideComparison(oatTrays);
    expectAgreement(
      { method: "verdict, four doses", dataset: "oats", statistic: "p, SE, df", source: "Yates 1935, block means" },
      [
        [decision.pTrend!, 4.82633e-7],
        [decision.pAny!, 2.22747e-8],
        [decision.p!, 6.70305e-8],
        [decision.difference!.estimate, 44],
        [decision.difference!.standardError, 3.816533],
        [decision.difference!.degreesOfFreedom, 9.320204],
      ],
      5.8,
    );
    expect(decision.pairs.map(({ from, to, settled }) => [from, to, settled])).toEqual([
      [0, 0.6, true],
      [0, 0.4, true],
      [0, 0.2, true],
    ]);
  });

  test("oats without two cells (blocks named as in nlme)", () => {
    const decision = decideComparison(
      oatTrays.filter(({ cook, level }) => !(cook === "I" && level === 0.6) && !(cook === "IV" && level === 0)),
    );
    expectAgreement(
      {
        method: "verdict, holes",
        dataset: "oats",
        statistic: "p, difference, df",
        source: "Yates 1935, two cells out",
      },
      [
        [decision.pTrend!, 3.688842e-6],
        [decision.pAny!, 9.5466e-7],
        [decision.p!, 1.98409e-6],
        [decision.difference!.estimate, 42.14286],
        [decision.difference!.degreesOfFreedom, 8.512617],
      ],
      6,
    );
  });
});

describe("one cook: prior of 4 degrees of freedom at a coefficient of variation of 18 %, after Smyth 2004", () => {
  test("3 + 3 trays", () => {
    const decision = decideComparison(oneCook([30, 33, 36, 35, 39, 37], [3, 3, 3, 9, 9, 9]));
    const difference = decision.difference!;
    expect(difference.estimate).toBeCloseTo(4, 12);
    expect(difference.standardError).toBeCloseTo(3.923859, 6);
    expect(difference.degreesOfFreedom).toBe(8);
    expect(difference.interval!.lower).toBeCloseTo(-5.048, 3);
    expect(difference.interval!.upper).toBeCloseTo(13.048, 3);
    expect(difference.shrinkage).toBeCloseTo(0.5339522, 7);
    expect(difference.chance).toBeCloseTo(0.7611788, 7);
    expect(difference.shrunken).toBeCloseTo(2.135809, 6);
    expect(decision.verdict).toBe("open");
    expect(decision.caps).toEqual([{ at: "leaning", reason: "one-cook" }]);
  });

  test("one tray at each of six doses", () => {
    const difference = decideComparison(oneCook([28, 31, 30, 34, 33, 37], [1, 2, 3, 4, 5, 6])).difference!;
    expect(difference.estimate).toBeCloseTo(7.857143, 6);
    expect(difference.standardError).toBeCloseTo(5.03054, 5);
    expect(difference.interval!.lower).toBeCloseTo(-3.743, 3);
    expect(difference.interval!.upper).toBeCloseTo(19.458, 3);
    // t of 8 degrees of freedom 2.306 by any table, 0.8416 of the normal distribution: Johnson and Welch 1940; 16.07 were the error known
    const reach = 2.306 + 0.8416 * Math.sqrt(1 + (2.306 ** 2 - 0.8416 ** 2) / 16);
    expect(difference.couldHaveShown).toBeCloseTo((5.03054 * reach) / (1 - 0.8416 ** 2 / 16), 2);
  });

  test("three names of three trays", () => {
    const names = ["A", "A", "A", "B", "B", "B", "C", "C", "C"];
    const decision = decideUnordered(oneCook([30, 33, 36, 35, 39, 37, 31, 30, 34], names));
    const chances = Object.fromEntries(decision.best!.map(({ level, chance }) => [level, chance]));
    expect(chances.A).toBeCloseTo(0.1731, 4);
    expect(chances.B).toBeCloseTo(0.7283, 4);
    expect(chances.C).toBeCloseTo(0.0986, 4);
    // F 1.259415 draws the headline in by 1 - 1/F
    expect(decision.difference!.shrinkage).toBeCloseTo(1 - 1 / 1.259415, 6);
    // s2 18.35067: best less the mean of two others, 3 trays each
    expect(decision.difference!.standardError).toBeCloseTo(Math.sqrt((18.35067 / 3) * 1.5), 6);
    expect(decision.running).toEqual(["B", "A"]);
    expect(decision.verdict).toBe("open");
  });
});

describe("names inside cooks", () => {
  test("oats as names: F of cells with Huynh and Feldt's factor 1; 0.6 less 0.4 by Tukey", () => {
    const decision = decideUnordered(oatTrays.map((tray) => ({ ...tray, level: String(tray.level) })));
    expectAgreement(
      { method: "verdict, names", dataset: "oats", statistic: "p of levels", source: "Yates 1935, block means" },
      [[decision.p!, 2.22747e-8]],
      5.8,
    );
    const pair = decision.pairs.find(({ from }) => from === "0.4")!;
    expect(pair.to).toBe("0.6");
    expect(pair.degreesOfFreedom).toBeCloseTo(8.445, 3);
    expect(pair.estimate / pair.standardError).toBeCloseTo(2.242502, 6);
    expect(pair.p).toBeCloseTo(0.1877, 4);
    expect(pair.settled).toBe(false);
    expect(decision.verdict).toBe("settled");
  });

  test("a usual level: each against it, by Holm", () => {
    const decision = decideUnordered(
      oatTrays.map((tray) => ({ ...tray, level: String(tray.level) })),
      { usual: "0.2" },
    );
    expect(decision.pairs.map(({ from }) => from)).toEqual(["0.2", "0.2", "0.2"]);
    expect(decision.difference).toMatchObject({ from: "0.2", to: "0.6" });
  });
});
