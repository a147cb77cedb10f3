import { describe, expect, test } from "vitest";
import {
  type ComparedTray,
  type Decision,
  decideComparison,
  decideTwoFactors,
  decideUnordered,
} from "../../src/decisions/verdict/index.ts";
import { seededRandom } from "../../src/statistics/random/seeded-random.ts";

const random = seededRandom(11);
/** Trays of cooks given as lists of levels; weights scatter around 32 + level. */
function trays(
  cooks: (number | string)[][],
  change: (tray: ComparedTray) => ComparedTray = (tray) => tray,
): ComparedTray[] {
  let row = 1;
  return cooks.flatMap((levels, cook) =>
    levels.map((level) => {
      row++;
      const value = 32 + (typeof level === "number" ? level : 0) + cook + random.normal();
      return change({ level, cook: `C${cook + 1}`, day: cook * 14, row, value });
    }),
  );
}
const reasons = ({ caps }: Decision): string[] => caps.map(({ reason }) => reason);
const side = (cooks: number, each = 2): number[][] =>
  Array.from({ length: cooks }, () => [3, 6, 9].flatMap((dose) => Array(each).fill(dose) as number[]));
const whole = (...doses: number[]): number[][] => doses.map((dose) => Array(6).fill(dose) as number[]);

describe("grouping", () => {
  test("cooks named on four fifths are used; a blank takes the only cook of its day, else is left out with the reason", () => {
    const decision = decideComparison(
      trays(side(4), (tray) =>
        tray.row === 5
          ? { ...tray, cook: undefined }
          : tray.row === 9
            ? { ...tray, cook: undefined, day: undefined }
            : tray,
      ),
    );
    expect(decision.grouping.by).toBe("cook");
    expect(decision.grouping.filled).toEqual([{ row: 5, cook: "C1" }]);
    expect(decision.leftOut).toEqual([{ row: 9, reason: "no-cook" }]);
    expect(decision.levels.reduce((sum, { started }) => sum + started, 0)).toBe(23);
  });

  test("without cooks the inoculation day stands for them; neighbouring days of one dose are one", () => {
    const noCooks = (tray: ComparedTray): ComparedTray => ({ ...tray, cook: undefined });
    expect(decideComparison(trays(side(4), noCooks)).grouping).toMatchObject({
      by: "day",
      groups: ["0", "14", "28", "42"],
    });
    const spread = trays(whole(3, 9, 3, 9), (tray) => ({ ...tray, cook: undefined, day: tray.day! + (tray.row % 3) }));
    expect(decideComparison(spread).grouping.groups).toHaveLength(4);
    const undated = trays(side(4), (tray) => ({ ...noCooks(tray), day: tray.row === 4 ? undefined : tray.day }));
    expect(decideComparison(undated).leftOut).toEqual([{ row: 4, reason: "no-day" }]);
  });

  test("neither: up to twelve trays are one cook, more are runs of rows, and nothing is settled", () => {
    const bare = (tray: ComparedTray): ComparedTray => ({ ...tray, cook: undefined, day: undefined });
    const few = decideComparison(trays(side(2), bare));
    expect(few.grouping.by).toBe("assumed-one-cook");
    expect(reasons(few)).toEqual(["one-cook", "cook-assumed"]);
    const many = decideComparison(trays(side(5), bare));
    expect(many.grouping.by).toBe("row-blocks");
    expect(many.grouping.groups).toHaveLength(5);
    expect(many.p).toBeLessThan(0.001);
    expect(many.verdict).toBe("leaning");
    expect(reasons(many)).toEqual(["cooks-not-recorded"]);
    const between = decideComparison(trays(whole(3, 9, 9, 3, 3, 9), bare));
    expect(reasons(between)).toContain("levels-between-row-blocks");
    expect(between.verdict).toBe("open");
    expect(between.difference!.interval).toBeUndefined();
    expect(between.difference!.estimate).toBeGreaterThan(3);
  });

  test("cooks that share a shelf with one dose are one group; a shelf of several doses joins nothing", () => {
    const onShelf = (shelfOf: (tray: ComparedTray) => string) =>
      decideComparison(trays(side(4), (tray) => ({ ...tray, units: { shelf: shelfOf(tray) } })));
    const fixed = onShelf(({ level, row }) => `S${level}${row % 2}`);
    expect(fixed.grouping.merged).toEqual([["C1", "C2", "C3", "C4"]]);
    expect(fixed.grouping.groups).toEqual(["C1+C2+C3+C4"]);
    expect(reasons(fixed)).toEqual(["one-cook"]);
    const mixed = onShelf(({ row }) => `S${row % 5}`);
    expect(mixed.grouping.merged).toEqual([]);
    expect(mixed.method).toBe("inside-cooks");
    const single = onShelf(({ level }) => `S${level}`);
    expect(reasons(single)).toEqual(["one-unit-per-level"]);
    expect(single.verdict).toBe("cannot-tell");
    expect(single.levels.every(({ mean }) => mean !== undefined)).toBe(true);
    // one chamber for all doses, or a kind hardly ever written down, confounds nothing
    expect(onShelf(() => "the tent").method).toBe("inside-cooks");
    const rare = decideComparison(
      trays(side(4), (tray) => (tray.row % 5 === 0 ? { ...tray, units: { shelf: `S${tray.level}` } } : tray)),
    );
    expect(rare.verdict).not.toBe("cannot-tell");
  });

  test("jars of one dose in one cook are its repeats, not their trays", () => {
    const cook = [Array(8).fill(3), Array(8).fill(9)].map((own) => own as number[]);
    const plain = decideComparison(trays([cook.flat()]));
    const jars = decideComparison(
      trays([cook.flat()], (tray) => ({ ...tray, units: { jar: `${tray.level} ${tray.row % 2}` } })),
    );
    expect(jars.difference!.degreesOfFreedom).toBe(4 + 2);
    expect(plain.difference!.degreesOfFreedom).toBe(4 + 14);
    expect(jars.difference!.estimate).toBeGreaterThan(3);
  });
});

describe("layout", () => {
  test("doses side by side: cooks with one dose are left out with the reason", () => {
    const decision = decideComparison(trays([...side(3), [9, 9, 9]]));
    expect(decision.method).toBe("inside-cooks");
    expect(decision.cooks).toBe(3);
    expect(decision.leftOut.map(({ reason }) => reason)).toEqual(Array(3).fill("cook-with-one-level"));
  });

  test("doses that no cook joins: the larger piece is compared", () => {
    const decision = decideComparison(
      trays([
        [3, 3, 6, 6],
        [3, 6, 4],
        [3, 4, 6],
        [8, 9],
        [8, 9],
        [8, 9],
      ]),
    );
    expect(decision.levels.map(({ level }) => level)).toEqual([3, 4, 6]);
    expect(new Set(decision.leftOut.map(({ reason }) => reason))).toEqual(new Set(["not-joined-to-the-others"]));
  });

  test("whole cooks in an order that does not follow the dose are compared; a stray tray is left out", () => {
    const cooks = whole(9, 3, 3, 9, 3, 9, 9, 3);
    cooks[2]![5] = 9;
    const decision = decideComparison(trays(cooks));
    expect(decision.method).toBe("whole-cooks");
    expect(decision.cooks).toBe(8);
    expect(decision.leftOut).toEqual([{ row: 19, reason: "stray-in-its-cook" }]);
    expect(decision.pTrend).toBe(decision.p);
  });

  test("dose followed the calendar: means only, dated or by the order of rows; drawn by lot it is compared", () => {
    const stepped = trays(whole(3, 3, 6, 6, 9, 9, 9));
    const dated = decideComparison(stepped);
    expect(reasons(dated)).toEqual(["calendar"]);
    expect(dated.difference).toBeUndefined();
    expect(dated.levels.map(({ values }) => values.length)).toEqual([12, 12, 18]);
    const undated = stepped.map((tray) => ({ ...tray, day: undefined }));
    expect(reasons(decideComparison(undated))).toEqual(["calendar-by-row-order"]);
    expect(decideComparison(stepped, { drawnByLot: true }).method).toBe("whole-cooks");
  });

  test("whole cooks without days lean at most, unless drawn by lot", () => {
    const undated = trays(whole(9, 3, 3, 9, 3, 9, 9, 3), (tray) => ({ ...tray, day: undefined }));
    expect(reasons(decideComparison(undated))).toEqual(["cooks-undated"]);
    expect(decideComparison(undated, { drawnByLot: true }).caps).toEqual([]);
  });

  test("one cook a dose cannot be told; with one cook of several doses that cook answers, with two these do", () => {
    expect(reasons(decideComparison(trays(whole(3, 6, 9))))).toEqual(["one-cook-per-level"]);
    const oneMixed = decideComparison(trays([...whole(3, 3), [3, 3, 9, 9]]));
    expect(oneMixed.method).toBe("one-cook");
    expect(oneMixed.leftOut).toHaveLength(12);
    const twoMixed = decideComparison(trays([...whole(3), [3, 9], [3, 9]]));
    expect(twoMixed.method).toBe("inside-cooks");
    // calendar, but two cooks hold both doses
    const withTwo = decideComparison(trays([...whole(3, 3, 3), [3, 9], [3, 9], ...whole(9, 9, 9)]));
    expect(withTwo.method).toBe("inside-cooks");
    expect(withTwo.cooks).toBe(2);
  });

  test("one dose, or no good tray: said as such", () => {
    expect(reasons(decideComparison(trays([[3, 3], [3]])))).toEqual(["one-level"]);
    const lost = trays(side(2), (tray) => ({ ...tray, value: "lost" }));
    expect(reasons(decideComparison(lost))).toEqual(["no-good-trays"]);
    expect(decideComparison(lost).levels.map(({ lost: count }) => count)).toEqual([4, 4, 4]);
    expect(reasons(decideComparison([]))).toEqual(["no-good-trays"]);
    const halfLost = trays(side(2), (tray) => (tray.level === 3 ? tray : { ...tray, value: "lost" }));
    expect(reasons(decideComparison(halfLost))).toEqual(["one-level"]);
  });

  test("a dose far from the others counts by its rank", () => {
    const decision = decideComparison(trays(Array.from({ length: 4 }, () => [1, 2, 3, 40])));
    expect(decision.levels.at(-1)!.level).toBe(40);
    // by rank and by number the doses rise alike, but the p of the trend differs from that of 1, 2, 3, 4 scaled
    const near = decideComparison(trays(Array.from({ length: 4 }, () => [1, 2, 3, 5])));
    expect(decision.insideShare).toBeCloseTo(1, 12);
    expect(near.insideShare).toBeCloseTo(1, 12);
  });

  test("more than twelve amounts: the trend alone", () => {
    const cooks = Array.from({ length: 5 }, () =>
      Array.from({ length: 6 }, () => Math.round(random.uniform() * 1000) / 100),
    );
    const decision = decideComparison(trays(cooks));
    expect(decision.method).toBe("inside-cooks");
    expect(decision.pAny).toBeUndefined();
    expect(decision.verdict).toBe("settled");
    expect(decision.pairs).toEqual([]);
  });

  test("losses that follow the dose cap the verdict on good trays", () => {
    const decision = decideComparison(
      trays(side(6, 3), (tray) => (tray.level === 9 && tray.row % 3 === 0 ? { ...tray, value: "lost" } : tray)),
    );
    expect(decision.losses!.p).toBeLessThan(0.05);
    expect(decision.losses!.z).toBeGreaterThan(0);
    expect(reasons(decision)).toEqual(["losses-follow-level"]);
    expect(decision.verdict).toBe("leaning");
    const names = decideUnordered(
      trays(side(6, 3), (tray) => ({
        ...tray,
        level: `dose ${tray.level}`,
        value: tray.level === 9 && tray.row % 3 === 0 ? "lost" : tray.value,
      })),
    );
    expect(reasons(names)).toEqual(["losses-follow-level"]);
  });
});

describe("two things varied", () => {
  const crossed = (cooks: number): ComparedTray[] =>
    trays(Array.from({ length: cooks }, () => [3, 3, 9, 9, 3, 3, 9, 9])).map((tray, i) => ({
      ...tray,
      other: i % 2 === 0 ? "bran" : "none",
      value: (tray.value as number) + (i % 2 === 0 ? 4 : 0),
    })) as ComparedTray[];

  test("both inside cooks: each without the other, and whether they depend on one another", () => {
    const { first, second, interaction } = decideTwoFactors(crossed(4) as never);
    expect(first.verdict).toBe("settled");
    expect(first.difference!.estimate).toBeGreaterThan(5);
    expect(first.difference!.estimate).toBeLessThan(7);
    expect(second.difference).toMatchObject({ from: "bran", to: "none" });
    expect(second.difference!.estimate).toBeLessThan(-3);
    expect(interaction!.cooks).toBe(4);
    expect(interaction!.p).toBeGreaterThan(0.05);
    expect(interaction!.differenceOfDifferences!.interval.lower).toBeLessThan(0);
  });

  test("tied in every cook: neither can be told", () => {
    const tied = trays(side(4)).map((tray) => ({ ...tray, other: tray.level === 3 ? "bran" : "none" }));
    const { first, second } = decideTwoFactors(tied.filter(({ level }) => level !== 6));
    expect(reasons(first)).toEqual(["tied-to-the-other-factor"]);
    expect(reasons(second)).toEqual(["tied-to-the-other-factor"]);
  });

  test("the other thing constant in each cook changes nothing", () => {
    const book = trays(side(4));
    const { first } = decideTwoFactors(book.map((tray) => ({ ...tray, other: tray.cook === "C1" ? "A" : "B" })));
    expect(first).toEqual(decideComparison(book));
  });

  test("both given to whole cooks: the other is taken out, or the two are one", () => {
    const book = trays(whole(9, 3, 3, 9, 3, 9, 9, 3));
    const apart = decideTwoFactors(
      book.map((tray) => ({ ...tray, other: "C1C2C7C8".includes(tray.cook!) ? "A" : "B" })),
    );
    expect(apart.first.method).toBe("whole-cooks");
    expect(apart.first.difference!.degreesOfFreedom).toBe(5);
    const one = decideTwoFactors(book.map((tray) => ({ ...tray, other: `recipe ${tray.level}` })));
    expect(reasons(one.first)).toEqual(["tied-to-the-other-factor"]);
  });

  test("one cook: the other is taken out of the line", () => {
    const { first, second } = decideTwoFactors(crossed(1) as never);
    expect(first.method).toBe("one-cook");
    expect(first.difference!.degreesOfFreedom).toBe(4 + 8 - 3);
    expect(second.difference!.estimate).toBeLessThan(-2);
  });
});

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
