import { describe, expect, test } from "vitest";
import { type ComparedTray, decideComparison, decideUnordered } from "../../src/decisions/verdict/index.ts";
import { seededRandom } from "../../src/statistics/random/seeded-random.ts";
import { side, trays, whole } from "./verdict-sheets.ts";

describe("properties", () => {
  const shuffled = (book: ComparedTray[]): ComparedTray[] => seededRandom(3).shuffle(book);
  const books: [string, ComparedTray[]][] = [
    ["side by side", trays(side(4))],
    ["whole cooks", trays(whole(9, 3, 3, 9, 3, 9, 9, 3))],
    ["one cook", trays([[3, 3, 6, 9]])],
    ["some lost", trays(side(5), (tray) => (tray.row % 4 === 0 ? { ...tray, value: "lost" } : tray))],
  ];

  test.each(books)("%s: the order in which trays are given does not matter", (_, book) => {
    expect(decideComparison(shuffled(book))).toEqual(decideComparison(book));
    const names = book.map((tray) => ({ ...tray, level: `L${tray.level}` }));
    expect(decideUnordered(shuffled(names))).toEqual(decideUnordered(names));
  });

  test.each(books)("%s: another unit of weight changes figures in proportion and no word", (_, book) => {
    const before = decideComparison(book);
    const after = decideComparison(
      book.map((tray) => ({ ...tray, value: tray.value === "lost" ? "lost" : tray.value * 1000 })),
    );
    expect(after.verdict).toBe(before.verdict);
    expect(after.difference!.estimate / 1000).toBeCloseTo(before.difference!.estimate, 9);
    expect(after.difference!.interval!.upper / 1000).toBeCloseTo(before.difference!.interval!.upper, 8);
    expect(after.difference!.chance).toBeCloseTo(before.difference!.chance, 10);
    if (before.p !== undefined) expect(after.p).toBeCloseTo(before.p, 10);
  });

  test.each(books)("%s: doses in another unit change neither p nor difference", (_, book) => {
    const before = decideComparison(book);
    const after = decideComparison(book.map((tray) => ({ ...tray, level: (tray.level as number) * 7 + 100 })));
    expect(after.difference!.estimate).toBeCloseTo(before.difference!.estimate, 9);
    expect(after.difference!.standardError).toBeCloseTo(before.difference!.standardError, 9);
    if (before.p !== undefined) expect(after.p).toBeCloseTo(before.p, 10);
  });

  test("lower is better: the same difference, the other best", () => {
    const names = trays(side(4)).map((tray) => ({ ...tray, level: `L${tray.level}` }));
    const higher = decideUnordered(names);
    const lower = decideUnordered(names, { better: "lower" });
    expect(higher.best![0]!.level).toBe("L9");
    expect(lower.best![0]!.level).toBe("L3");
    expect(lower.p).toBe(higher.p);
    expect(lower.difference!.to).toBe("L3");
  });

  test("a pool counts with its size", () => {
    const [cook] = [[30, 34, 36, 35, 39, 37]];
    const single = cook!.map((value, i): ComparedTray => ({ level: i < 3 ? 3 : 9, cook: "1", row: i, value }));
    const pooled: ComparedTray[] = [
      { level: 3, cook: "1", row: 0, value: 100 / 3, pooled: 3 },
      { level: 9, cook: "1", row: 1, value: 37, pooled: 3 },
    ];
    const [one, other] = [decideComparison(single), decideComparison(pooled)];
    expect(other.levels.map(({ started }) => started)).toEqual([3, 3]);
    expect(other.difference!.estimate).toBeCloseTo(one.difference!.estimate, 10);
    expect(other.difference!.degreesOfFreedom).toBe(4);
  });

  test("wrong calls", () => {
    const book = trays([[3, 9]]);
    expect(() => decideComparison(trays([["A", "B", "C"]]))).toThrow(/decideUnordered/);
    expect(() => decideComparison([{ ...book[0]!, value: Number.NaN }])).toThrow(/finite/);
    expect(() => decideComparison([{ ...book[0]!, pooled: 1.5 }])).toThrow(/whole number/);
    expect(() => decideComparison(book, { alpha: 2 })).toThrow(/between 0 and 1/);
    expect(() => decideComparison(book, { suppositions: { traySd: 0 } })).toThrow(/above 0/);
  });
});
