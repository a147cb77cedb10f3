import { describe, expect, test } from "vitest";
import {
  type ComparedTray,
  type Decision,
  decideComparison,
  decideInteraction,
  decideStartedTrays,
  decideUnordered,
} from "../../src/decisions/verdict/index.ts";
import { reasons, side, trays, whole } from "./verdict-sheets.ts";

/** Each of the two things, the other taken out. */
function eachOf(book: ReadonlyArray<ComparedTray>): { first: Decision; second: Decision } {
  const swapped = book.map((tray): ComparedTray => ({ ...tray, level: tray.other!, other: tray.level }));
  return { first: decideComparison(book), second: decideUnordered(swapped) };
}

describe("two things varied", () => {
  const crossed = (cooks: number): ComparedTray[] =>
    trays(Array.from({ length: cooks }, () => [3, 3, 9, 9, 3, 3, 9, 9])).map((tray, i) => ({
      ...tray,
      other: i % 2 === 0 ? "bran" : "none",
      value: (tray.value as number) + (i % 2 === 0 ? 4 : 0),
    }));

  test("both inside cooks: each without the other, and whether they depend on one another", () => {
    const { first, second } = eachOf(crossed(4));
    const interaction = decideInteraction(crossed(4));
    expect(first.verdict).toBe("settled");
    expect(first.difference!.estimate).toBeGreaterThan(5);
    expect(first.difference!.estimate).toBeLessThan(7);
    expect(second.difference).toMatchObject({ from: "bran", to: "none" });
    expect(second.difference!.estimate).toBeLessThan(-3);
    expect(interaction!.cooks).toBe(4);
    expect(interaction!.p).toBeGreaterThan(0.05);
    expect(interaction!.verdict).toBe("open");
    expect(interaction!.apart).toEqual([]);
    expect(interaction!.changes).toHaveLength(1);
    expect(interaction!.changes[0]!.interval.lower).toBeLessThan(0);
    const [bran, none] = interaction!.differences;
    expect(none!.estimate - bran!.estimate).toBeCloseTo(interaction!.changes[0]!.estimate, 10);
  });

  test("tied in every cook: neither can be judged", () => {
    const tied = trays(side(4)).map((tray) => ({ ...tray, other: tray.level === 3 ? "bran" : "none" }));
    const { first, second } = eachOf(tied.filter(({ level }) => level !== 6));
    expect(reasons(first)).toEqual(["tied-to-the-other-factor"]);
    expect(reasons(second)).toEqual(["tied-to-the-other-factor"]);
  });

  test("the other thing constant in each cook changes nothing", () => {
    const book = trays(side(4));
    const { first } = eachOf(book.map((tray) => ({ ...tray, other: tray.cook === "C1" ? "A" : "B" })));
    expect(first).toEqual(decideComparison(book));
  });

  test("both given to whole cooks: the other is taken out, or the two are one", () => {
    const book = trays(whole(9, 3, 3, 9, 3, 9, 9, 3));
    const apart = eachOf(book.map((tray) => ({ ...tray, other: "C1C2C7C8".includes(tray.cook!) ? "A" : "B" })));
    expect(apart.first.method).toBe("whole-cooks");
    expect(apart.first.difference!.degreesOfFreedom).toBe(5);
    const one = eachOf(book.map((tray) => ({ ...tray, other: `recipe ${tray.level}` })));
    expect(reasons(one.first)).toEqual(["tied-to-the-other-factor"]);
  });

  test("one cook: the other is taken out of the line", () => {
    const { first, second } = eachOf(crossed(1));
    expect(first.method).toBe("one-cook");
    expect(first.difference!.degreesOfFreedom).toBe(4 + 8 - 3);
    expect(second.difference!.estimate).toBeLessThan(-2);
  });
});

test("the second thing does not vary: said as such", () => {
  const book = trays(side(3)).map((tray) => ({ ...tray, other: "bran" }));
  const { first, second } = eachOf(book);
  expect(second.caps[0]?.reason).toBe("one-level");
  expect(first.method).toBe("inside-cooks");
  expect(decideInteraction(book)).toBeUndefined();
});

describe("one thing depends on the other", () => {
  /** A dose that gives 8 g with bran and nothing without, in even scatter; every four rows hold each combination. */
  const depending = (cooks: number, grouped = true): ComparedTray[] =>
    Array.from({ length: cooks * 8 }, (_, row): ComparedTray => {
      const cook = Math.floor(row / 8);
      const [level, other] = [row % 2 === 0 ? 3 : 9, row % 4 < 2 ? "bran" : "none"];
      const value = 30 + cook + (level === 9 && other === "bran" ? 8 : 0) + ((row * 7) % 5) / 2;
      return { level, other, row, value, ...(grouped ? { cook: `C${cook + 1}` } : {}) };
    });

  test("settled: each level of the other has a verdict of its own", () => {
    const found = decideInteraction(depending(5))!;
    expect(found.verdict).toBe("settled");
    expect([found.of, found.from, found.to]).toEqual(["level", 3, 9]);
    expect(found.apart.map(({ at, decision }) => [at, decision.verdict])).toEqual([
      ["bran", "settled"],
      ["none", "open"],
    ]);
    const own = depending(5).flatMap(({ other, ...tray }) => (other === "bran" ? [tray] : []));
    expect(found.apart[0]!.decision).toEqual(decideComparison(own));
  });

  test("rows that only stand together in a sheet settle nothing", () => {
    const found = decideInteraction(depending(12, false))!;
    expect(found.p).toBeLessThan(0.01);
    expect(found.verdict).toBe("open");
    expect(found.caps.map(({ reason }) => reason)).toEqual(["cooks-not-recorded"]);
  });

  test("three recipes: every two of them, with limits that hold together", () => {
    const third = depending(5).flatMap((tray): ComparedTray[] =>
      tray.other === "bran" ? [tray, { ...tray, row: tray.row + 1000, other: "straw" }] : [tray],
    );
    const found = decideInteraction(third)!;
    expect(found.changes.map(({ from, to }) => `${from} ${to}`)).toEqual(["bran none", "bran straw", "none straw"]);
    expect(found.changes[1]!.estimate).toBeCloseTo(0, 10);
  });

  test("two cooks are too few", () => {
    expect(decideInteraction(depending(2))).toBeUndefined();
  });
});

describe("started trays beside another thing", () => {
  /** 9 mL stands mostly on the rich recipe, which gives 10 g more and loses half its trays; the dose does nothing. */
  const tied = (): ComparedTray[] =>
    Array.from({ length: 6 }, (_, cook) =>
      [3, 9].flatMap((level) =>
        Array.from({ length: 12 }, (_tray, i): ComparedTray => {
          const rich = level === 9 ? i < 8 : i < 4;
          const lost = rich && i % 2 === 0;
          const scatter = ((cook * 5 + i * 3 + level) % 7) / 3;
          return {
            level,
            other: rich ? "rich" : "plain",
            cook: `C${cook}`,
            row: cook * 100 + level * 12 + i,
            value: lost ? "lost" : 30 + cook + (rich ? 10 : 0) + scatter,
          };
        }),
      ),
    ).flat();

  test("neither the other thing's weight nor its losses count as the dose's", () => {
    const apart = decideStartedTrays(tied()).difference!;
    const heaped = decideStartedTrays(tied().map(({ other: _, ...tray }) => tray)).difference!;
    expect(Math.abs(apart.estimate)).toBeLessThan(0.5);
    expect(Math.abs(heaped.estimate)).toBeGreaterThan(2);
  });

  test("crossed evenly, taking it out leaves the shares as they are", () => {
    const even = tied().map((tray, i) => ({ ...tray, other: i % 4 < 2 ? "A" : "B" }));
    const [apart, heaped] = [even, even.map(({ other: _, ...tray }) => tray)].map((book) => decideStartedTrays(book));
    expect(apart!.levels.map(({ lost }) => lost)).toEqual(heaped!.levels.map(({ lost }) => lost));
    expect(apart!.difference!.estimate).toBeCloseTo(heaped!.difference!.estimate, 1);
  });
});
