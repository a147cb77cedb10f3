import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  type ComparedTray,
  couldShowAfter,
  type Decision,
  decideComparison,
  decideInteraction,
  decideStartedTrays,
  decideUnordered,
} from "../../src/decisions/verdict/index.ts";

const tray = (level: number | string, value: number | "lost", row: number, cook = "1"): ComparedTray => ({
  level,
  value,
  row,
  cook,
});

describe("the smallest books", () => {
  test("three recipes over two cooks that share one: what more cooks would show is told", () => {
    const book = ["A", "B"].flatMap((level, i) => [tray(level, 30 + i, i), tray(level, 32 - i, 2 + i)]);
    const next = ["B", "C"].flatMap((level, i) => [tray(level, 33 + i, 4 + i, "2"), tray(level, 34 - i, 6 + i, "2")]);
    const decision = decideUnordered([...book, ...next]);
    expect(decision.verdict).not.toBe("cannot-tell");
    const [one, three] = [1, 3].map((more) => couldShowAfter(decision, more)!);
    expect(one).toBeGreaterThan(0);
    expect(three).toBeGreaterThan(0);
  });

  test("one tray at each of two doses: means, difference, interval, chance, what could have been shown", () => {
    const decision = decideComparison([tray(3, 30, 2), tray(9, 38, 3)]);
    expect(decision.levels.map(({ mean }) => mean)).toEqual([30, 38]);
    expect(decision.levels.map(({ values }) => values)).toEqual([
      [{ row: 2, value: 30, pooled: 1 }],
      [{ row: 3, value: 38, pooled: 1 }],
    ]);
    const { estimate, interval, chance, couldHaveShown } = decision.difference!;
    expect(estimate).toBe(8);
    expect(interval!.lower).toBeLessThan(0);
    expect(interval!.upper).toBeGreaterThan(8);
    expect(chance).toBeGreaterThan(0.5);
    expect(couldHaveShown).toBeGreaterThan(15);
    expect(decision.verdict).toBe("open");
  });

  test("a large difference in one cook leans, and no more", () => {
    const values = [28, 29, 30, 44, 45, 46];
    const decision = decideComparison(values.map((value, i) => tray(i < 3 ? 3 : 9, value, i)));
    expect(decision.verdict).toBe("leaning");
    expect(decision.p).toBeUndefined();
  });

  test("earlier cooks' own spread narrows the interval where trays are even", () => {
    const book = [30, 33, 36, 35, 39, 37].map((value, i) => tray(i < 3 ? 3 : 9, value, i));
    const width = (decision: Decision): number =>
      decision.difference!.interval!.upper - decision.difference!.interval!.lower;
    const plain = width(decideComparison(book));
    const known = width(decideComparison(book, { traySpread: { coefficientOfVariation: 0.08, degreesOfFreedom: 40 } }));
    expect(known).toBeLessThan(0.7 * plain);
  });

  test("one tray, one dose, all lost, nothing", () => {
    expect(decideComparison([tray(3, 30, 2)]).levels[0]!.mean).toBe(30);
    expect(decideComparison([tray(3, 30, 2)]).verdict).toBe("cannot-tell");
    const lost = decideComparison([tray(3, "lost", 2), tray(9, 30, 3)]);
    expect(lost.levels.map(({ mean }) => mean)).toEqual([undefined, 30]);
    expect(decideComparison([]).levels).toEqual([]);
  });

  test("two sizes far apart: few trays that differ widen the range, many that do not cannot narrow it", () => {
    const alike = [30, 31, 32, 33, 34, 35, 36, 37, 38];
    const book = (few: number[]) => [...few, ...alike].map((value, i) => tray(i < few.length ? 3 : 9, value, i));
    const apart = decideComparison(book([20, 30, 40])).difference!;
    const near = decideComparison(book([29, 30, 31])).difference!;
    expect(near.standardError).toBeLessThan(0.6 * apart.standardError);
    // worked by hand: mean 33, so 4 x 5.94 squared is supposed; squares 200 and 60, both levels together 401.1376 / 14
    const prior = (5.94 ** 2 + (4 * 5.94 ** 2 + 260) / 14) / 2;
    const [few, many] = [(4 * prior + 200) / 6 / 3, (4 * prior + 60) / 12 / 9];
    expect(apart.standardError).toBeCloseTo(Math.sqrt(few + many), 10);
    // Satterthwaite 1946, Biometrics Bulletin 2(6):110-114
    expect(apart.degreesOfFreedom).toBeCloseTo((few + many) ** 2 / (few ** 2 / 6 + many ** 2 / 12), 10);
  });

  test("two cooks of two doses: what two cooks cannot show is supposed", () => {
    const book = [tray(3, 30, 1, "A"), tray(9, 33, 2, "A"), tray(3, 31, 3, "B"), tray(9, 34.1, 4, "B")];
    const decision = decideComparison(book);
    // the gains agree to .1 g, which two cooks do by chance: without more it does not settle
    expect(decision.p).toBeLessThan(0.045);
    expect(decision.difference!.interval!.upper - decision.difference!.interval!.lower).toBeGreaterThan(8);
    expect(decision.verdict).not.toBe("settled");
  });

  test("two cooks whose gains agree to the last tenth have a range all the same", () => {
    const values = [21, 24, 20, 23, 20.6, "lost", 23.1, 26.2, 22.5, 26, "lost", 25.5] as const;
    // means 20.53 and 23.5, 22.8 and 25.9: gains of 2.97 and 3.1; then those of the second cook made equal to the first's
    const gains = values.map((value, i) => (value === "lost" || i < 6 ? value : value - (i % 2 === 0 ? 0 : 0.4 / 3)));
    const book = gains.map((value, i) => tray(i % 2 === 0 ? 3 : 6, value, i, i < 6 ? "A" : "B"));
    for (const decision of [
      decideComparison(book),
      decideUnordered(book.map((one) => ({ ...one, level: `L${one.level}` }))),
    ]) {
      const { estimate, interval } = decision.difference!;
      expect(Math.abs(estimate)).toBeCloseTo(2.9667, 3);
      expect(interval!.upper - interval!.lower).toBeGreaterThan(1);
      expect(interval!.upper - interval!.lower).toBeLessThan(6);
    }
  });

  test("both doses gave the same, but for how tenths are added: no difference at all", () => {
    const [low, high] = [
      [30.1, 30.2, 30.3],
      [30.3, 30.1, 30.2],
    ];
    for (const cooks of [1, 2, 5]) {
      const book = Array.from({ length: cooks }, (_, cook) =>
        [...low, ...high].map((value, i) => tray(i < 3 ? 3 : 9, value + cook / 10, 6 * cook + i, `C${cook}`)),
      ).flat();
      expect(decideComparison(book).difference).toMatchObject({ estimate: 0, chance: 0.5 });
    }
  });

  test("nothing varies at all", () => {
    const book = [1, 2, 3, 4].flatMap((cook) => [
      tray(3, 30, cook * 2, `C${cook}`),
      tray(9, 30, cook * 2 + 1, `C${cook}`),
    ]);
    const decision = decideComparison(book);
    expect(decision.p).toBe(1);
    expect(decision.verdict).toBe("open");
    expect(decision.difference).toMatchObject({ estimate: 0, chance: 0.5 });
    const whole = [3, 9, 9, 3, 3, 9].flatMap((level, cook) => [tray(level, 30, cook, `C${cook}`)]);
    expect(decideComparison(whole, { drawnByLot: true }).p).toBe(1);
    const names = book.flatMap((one, i) => [
      { ...one, level: `L${one.level}` },
      { ...one, level: "L6", row: 100 + i },
    ]);
    expect(decideUnordered(names).verdict).toBe("open");
  });
});

/** Every number of a value, however deep. */
function numbersIn(value: unknown): number[] {
  if (typeof value === "number") return [value];
  return value !== null && typeof value === "object" ? Object.values(value).flatMap(numbersIn) : [];
}

function sound(decision: Decision, trays: ComparedTray[]): void {
  for (const number of numbersIn(decision)) expect(Number.isNaN(number)).toBe(false);
  const reported = new Set(decision.leftOut.map(({ row }) => row));
  const counted = decision.levels.reduce((sum, { started }) => sum + started, 0);
  expect(counted + reported.size).toBe(trays.length);
  for (const { started, lost, mean } of decision.levels) expect(mean !== undefined).toBe(started > lost);
  if (decision.verdict === "settled") expect(decision.p).toBeLessThan(decision.significance);
  if (decision.verdict === "cannot-tell") expect(decision.difference).toBeUndefined();
  else expect(decision.difference).toBeDefined();
  const most = decision.caps.map(({ at }) => at);
  if (most.length > 0) expect(decision.verdict).not.toBe("settled");
}

const anyTray = fc.record({
  level: fc.constantFrom(3, 6, 9, 40),
  cook: fc.option(fc.constantFrom("A", "B", "C"), { nil: undefined, freq: 4 }),
  day: fc.option(fc.constantFrom(0, 1, 14, 28), { nil: undefined, freq: 2 }),
  units: fc.option(fc.record({ shelf: fc.constantFrom("1", "2", "3", "4") }), { nil: undefined, freq: 2 }),
  value: fc.oneof(
    { arbitrary: fc.integer({ min: 100, max: 450 }).map((tenths) => tenths / 10), weight: 5 },
    { arbitrary: fc.constant("lost" as const), weight: 1 },
  ),
  other: fc.constantFrom("bran", "none"),
});
const anyBook = fc
  .array(anyTray, { minLength: 1, maxLength: 30 })
  .map((book) => book.map((one, row) => ({ ...one, row })));

test("whatever the sheet holds: every tray is counted or left out with a reason, every level has its mean, no NaN", () => {
  fc.assert(
    fc.property(anyBook, fc.boolean(), (crossed, drawnByLot) => {
      const book = crossed.map(({ other: _, ...one }) => one);
      sound(decideComparison(book, { drawnByLot }), book);
      const names = book.map((one) => ({ ...one, level: `L${one.level}` }));
      sound(decideUnordered(names, { drawnByLot }), book);
      for (const trays of [book, crossed]) {
        for (const number of numbersIn(decideStartedTrays(trays))) expect(Number.isNaN(number)).toBe(false);
      }
      sound(decideComparison(crossed), book);
      sound(decideUnordered(crossed.map((one) => ({ ...one, level: one.other, other: one.level }))), book);
      for (const number of numbersIn(decideInteraction(crossed))) expect(Number.isNaN(number)).toBe(false);
    }),
    { seed: 7, numRuns: 50 },
  );
});
