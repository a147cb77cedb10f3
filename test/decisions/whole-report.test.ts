import { describe, expect, test } from "vitest";
import {
  atSignificance,
  couldShowAfter,
  decideComparison,
  readingLevel,
  readingOf,
  wholeReport,
} from "../../src/decisions/verdict/index.ts";
import { blocked, growBook, wholeCooks } from "../simulation/verdict-books.ts";
import { side, trays } from "./verdict-sheets.ts";

const settles = (p: number) => ({ p, settleable: true, caps: [] });

describe("levels of a whole report", () => {
  test("shares of the level at each kind of reading", () => {
    expect(readingLevel(0.05, "first")).toBeCloseTo(0.045, 12);
    expect(readingLevel(0.05, "unknown")).toBeCloseTo(0.045, 12);
    expect(readingLevel(0.05, "awaited")).toBeCloseTo(0.04, 12);
    expect(readingLevel(0.05, "other")).toBeCloseTo(0.005, 12);
    const readings = (["first", "awaited", "other", "unknown"] as const).map((reading) =>
      decideComparison(trays(side(3)), { reading }),
    );
    expect(readings.map(({ holdsForOneReading }) => holdsForOneReading)).toEqual([false, false, false, true]);
  });

  test("which reading it is: the plan decides, else the record, else nothing is known", () => {
    expect(readingOf({ finishedCooks: 4, growing: false, plannedCooks: 4 })).toBe("awaited");
    expect(readingOf({ finishedCooks: 4, growing: true, plannedCooks: 4 })).toBe("other");
    expect(readingOf({ finishedCooks: 3, growing: false, plannedCooks: 4, earlier: [] })).toBe("other");
    const readAt = (...cooks: number[]) =>
      readingOf({ finishedCooks: cooks.at(-1)!, growing: false, earlier: cooks.slice(0, -1) });
    expect([readAt(3), readAt(8), readAt(2), readAt(0)]).toEqual(["first", "first", "other", "other"]);
    expect([readAt(3, 4), readAt(1, 2), readAt(1, 2, 3)]).toEqual(["other", "other", "other"]);
    expect([readAt(1, 2, 3, 4), readAt(2, 6), readAt(0, 4)]).toEqual(["awaited", "awaited", "awaited"]);
    expect([readAt(1, 4, 5), readAt(2, 6, 7), readAt(3, 4, 5)]).toEqual(["other", "other", "other"]);
    expect(readingOf({ finishedCooks: 3, growing: false })).toBe("unknown");
  });

  test("others at a tenth until the main one is settled, then at the level, by Benjamini and Hochberg 1995", () => {
    const others = [settles(0.004), settles(0.03), settles(0.3), {}];
    const open = wholeReport({ main: settles(0.2), others });
    expect(open.main.stands).toBe(false);
    expect(open.others.map(({ stands }) => stands)).toEqual([false, false, false, false]);
    const settled = wholeReport({ main: settles(0.01), others });
    expect(settled.main).toMatchObject({ stands: true });
    // adjusted: .004 x 3, .03 x 3/2, .3
    expect(settled.others.map(({ adjusted }) => adjusted?.toFixed(3))).toEqual(["0.012", "0.045", "0.300", undefined]);
    expect(settled.others.map(({ stands }) => stands)).toEqual([true, true, false, false]);
    expect(settled.others[1]!.significance).toBeCloseTo((2 / 3) * 0.05, 12);
  });

  test("a strong other question stands without the main one; what is capped never does", () => {
    const report = wholeReport({
      main: settles(0.2),
      others: [
        settles(0.001),
        { p: 0.001, settleable: false },
        { p: 0.001, caps: [{ at: "leaning", reason: "losses-follow-level" }] },
      ],
      reading: "first",
    });
    expect(report.others.map(({ stands }) => stands)).toEqual([true, false, false]);
  });

  test("beside the planned reading the others share what little there is", () => {
    const report = wholeReport({ main: settles(0.001), others: [settles(0.009), settles(0.03)], reading: "other" });
    expect(report.main.stands).toBe(true);
    expect(report.others.map(({ stands }) => stands)).toEqual([false, false]);
    expect(wholeReport({ main: settles(0.02), others: [], reading: "other" }).main.stands).toBe(false);
  });

  test("a decision is lowered with everything that goes with it, and put back", () => {
    const trays = [1, 2, 3, 4].flatMap((cook) =>
      [3, 6, 9].flatMap((level) =>
        [0, 1].map((tray) => ({
          level,
          cook: `C${cook}`,
          row: cook * 100 + level * 10 + tray,
          value: 30 + level * 0.6 + cook * 2 + ((cook * 7 + level * 5 + tray * 3) % 4) * 0.4,
        })),
      ),
    );
    const decision = decideComparison(trays);
    expect(decision.verdict).toBe("settled");
    const lowered = atSignificance(decision, decision.p! / 2);
    expect(lowered.verdict).toBe("leaning");
    expect(lowered.pairs.some(({ settled }) => settled)).toBe(false);
    expect(atSignificance(lowered, decision.significance)).toEqual(decision);
  });
});

describe("what more cooks would show", () => {
  const mean = (values: number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length;
  const seeds = Array.from({ length: 60 }, (_, i) => i + 1);
  const shown = (cooks: Parameters<typeof growBook>[0]["cooks"], moreCooks: number): number =>
    mean(
      seeds.map((seed) => {
        const settings = { drawnByLot: true };
        // trays and gains differ as is supposed: by 18 % of the mean, and by .75 of that from cook to cook
        const plan = { cooks, effect: () => 0, traySd: 0.18 * 32, cellSd: Math.sqrt(0.28) * 0.18 * 32 };
        const decision = decideComparison(growBook(plan, seed), settings);
        return moreCooks === 0 ? decision.difference!.couldHaveShown : couldShowAfter(decision, moreCooks, settings)!;
      }),
    );

  test.each([
    ["one cook, then two", blocked(1, [3, 9], 3), 1, blocked(2, [3, 9], 3)],
    ["one cook, then four", blocked(1, [3, 9], 3), 3, blocked(4, [3, 9], 3)],
    ["two cooks, then three", blocked(2, [3, 9], 3), 1, blocked(3, [3, 9], 3)],
    ["four cooks, then eight", blocked(4, [3, 6, 9], 2), 4, blocked(8, [3, 6, 9], 2)],
    ["six whole cooks, then ten", wholeCooks([3, 9], 3, 6), 4, wholeCooks([3, 9], 5, 6)],
  ])("%s: what was expected is near what comes", (_, before, moreCooks, after) => {
    const [expected, came] = [shown(before, moreCooks), shown(after, 0)];
    expect(expected / came).toBeGreaterThan(0.75);
    expect(expected / came).toBeLessThan(1.35);
  });

  test("a difference told to show four times in five after two more cooks does", () => {
    let settled = 0;
    for (let seed = 1; seed <= 150; seed++) {
      const planned = decideComparison(growBook({ cooks: blocked(4, [3, 9], 3), effect: () => 0 }, seed));
      const could = couldShowAfter(planned, 2)!;
      const effect = (level: number | string) => (level === 9 ? could : 0);
      const grown = decideComparison(growBook({ cooks: blocked(6, [3, 9], 3), effect }, 1000 + seed));
      if (grown.verdict === "settled") settled++;
    }
    // two standard errors of 150 books; the error taken as known it was 68 of 100
    expect(settled / 150).toBeGreaterThan(0.8 - 2 * Math.sqrt((0.8 * 0.2) / 150));
  });

  test("nothing compared, wrong calls", () => {
    const decision = decideComparison([{ level: 3, cook: "A", row: 1, value: 30 }]);
    expect(couldShowAfter(decision, 1)).toBeUndefined();
    expect(() => couldShowAfter(decision, 0)).toThrow(/whole number/);
  });

  test("the example of wholeReport", () => {
    expect(wholeReport({ main: { p: 0.01 }, others: [{ p: 0.02 }, { p: 0.4 }] }).others[0]!.stands).toBe(true);
  });

  test("lost trays beside the same good ones change nothing of what is expected of the good ones", () => {
    const good = trays([[3, 3, 3, 9, 9, 9]]);
    const lost = good.slice(0, 2).map((tray, i) => ({ ...tray, row: 100 + i, value: "lost" as const }));
    const [without, beside] = [good, [...good, ...lost]].map((all) => couldShowAfter(decideComparison(all), 1)!);
    expect(beside).toBeCloseTo(without!, 10);
  });
});
