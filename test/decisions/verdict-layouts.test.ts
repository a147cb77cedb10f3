import { describe, expect, test } from "vitest";
import { type ComparedTray, decideComparison, decideUnordered } from "../../src/decisions/verdict/index.ts";
import { seededRandom } from "../../src/statistics/random/seeded-random.ts";
import { reasons, side, trays, whole } from "./verdict-sheets.ts";

const random = seededRandom(12);

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
    // a day of both doses beside one of either is a cook of its own
    const mixed = trays(
      [
        [3, 9, 3, 9],
        [3, 3],
        [9, 9],
      ],
      (tray) => ({ ...noCooks(tray), day: tray.day! / 14 }),
    );
    expect(decideComparison(mixed).grouping.groups).toEqual(["0", "1", "2"]);
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
    // a load for each cook is no other thing than the cook
    const load = (tray: ComparedTray) => ({ ...tray, units: { load: tray.cook! } });
    expect(reasons(decideComparison(trays(whole(3, 6, 9), load)))).toEqual(["one-cook-per-level"]);
    const ofOneCook = decideComparison(trays(side(1), (tray) => ({ ...tray, units: { load: `L${tray.level}` } })));
    expect(reasons(ofOneCook)).toEqual(["one-unit-per-level"]);
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

  test("a dose and the next one in each cook: compared there, as whole cooks would leave half of the trays out", () => {
    const steps = [3, 6, 9, 6, 3, 6, 9, 3].map((dose) => [dose, dose, dose, dose + 3, dose + 3, dose + 3]);
    const decision = decideComparison(trays(steps));
    expect(decision.insideShare).toBeLessThan(0.5);
    expect([decision.method, decision.leftOut]).toEqual(["inside-cooks", []]);
    // three whole cooks for every mixed one: there the mixed ones are few
    const few = decideComparison(trays([...whole(9, 3, 3, 9, 9, 3), [3, 3, 3, 9, 9, 9], [3, 3, 3, 9, 9, 9]]));
    expect([few.method, few.leftOut.length]).toEqual(["whole-cooks", 6]);
  });

  test("a step halfway is no line: taken out as one it would make a difference of doses", () => {
    const cooks = whole(3, 3, 6, 6, 9, 9, 3, 3, 6, 6, 9, 9);
    const stepped = trays(cooks, ({ value, level, row, cook, ...tray }) => {
      const number = Number(cook!.slice(1));
      return { ...tray, cook, level, row, value: 30 + (number % 2) + (number > 6 ? 6 : 0) + (row % 3) / 10 };
    });
    const decision = decideComparison(stepped);
    // every dose had as many cooks before the step as after it
    expect(decision.difference!.estimate).toBeCloseTo(0, 6);
    expect(decision.p).toBeGreaterThan(0.9);
    const names = decideUnordered(stepped.map((tray) => ({ ...tray, level: `L${tray.level}` })));
    expect(names.p).toBeGreaterThan(0.9);
  });

  test("whole cooks that agree to the last gram are as sure as their trays allow, by arithmetic", () => {
    const agreeing = (gain: number) =>
      trays(
        [3, 9, 9, 3].map((dose) => [dose, dose, dose]),
        ({ row, ...tray }) => ({
          ...tray,
          ...{ row, value: 30 + (tray.level === 9 ? gain : 0) + 2 * ((row % 3) - 1) },
        }),
      );
    // trays differ by a variance of 4, three a cook: 4 / 3 a cook, two cooks a dose; t of 2 degrees of freedom 4.302653 by any table
    const reach = 4.302653 * Math.sqrt(4 / 3);
    for (const gain of [6, 0]) {
      const { difference, verdict } = decideComparison(agreeing(gain));
      expect(difference!.interval!.lower).toBeCloseTo(gain - reach, 5);
      expect(difference!.interval!.upper).toBeCloseTo(gain + reach, 5);
      expect(verdict).toBe(gain === 6 ? "settled" : "open");
      const names = decideUnordered(agreeing(gain).map((tray) => ({ ...tray, level: `L${tray.level}` })));
      expect(names.difference!.interval!.upper).toBeCloseTo(gain + reach, 5);
    }
  });

  test("dose followed the calendar: means only, dated or by the order of rows; drawn by lot it is compared", () => {
    const stepped = trays(whole(3, 3, 6, 6, 9, 9, 9));
    const dated = decideComparison(stepped);
    expect(reasons(dated)).toEqual(["calendar"]);
    expect(dated.difference).toBeUndefined();
    expect(dated.levels.map(({ values }) => values.length)).toEqual([12, 12, 18]);
    const undated = stepped.map((tray) => ({ ...tray, day: undefined }));
    expect(reasons(decideComparison(undated))).toEqual(["calendar-by-cook-number"]);
    const named = undated.map((tray) => ({ ...tray, cook: `cook ${"gfedcba"[Number(tray.cook!.slice(1)) - 1]}` }));
    expect(reasons(decideComparison(named))).toEqual(["calendar-by-row-order"]);
    const byDate = undated.map((tray) => ({
      ...tray,
      cook: `2026-0${Math.ceil(Number(tray.cook!.slice(1)) / 2)}-0${tray.cook!.slice(1)}`,
    }));
    expect(reasons(decideComparison(byDate))).toEqual(["calendar-by-row-order"]);
    // sorted by something else, the numbers of the cooks still tell
    const sorted = [...undated].sort((a, b) => (a.row % 7) - (b.row % 7)).map((tray, row) => ({ ...tray, row }));
    expect(reasons(decideComparison(sorted))).toEqual(["calendar-by-cook-number"]);
    expect(decideComparison(stepped, { drawnByLot: true }).method).toBe("whole-cooks");
  });

  test("twelve trays of which nothing tells the cook: two runs of one dose may be two cooks, and the range allows for it", () => {
    const nothing = (list: number[]) => list.map((level, row) => ({ level, row, value: 30 + ((7 * row) % 5) }));
    const runs = decideComparison(nothing([3, 3, 3, 3, 3, 3, 9, 9, 9, 9, 9, 9]));
    expect(reasons(runs)).toEqual(["one-cook", "levels-follow-rows", "cook-assumed"]);
    const mixed = decideComparison(nothing([3, 9, 3, 3, 9, 3, 9, 9, 3, 3, 9, 9]));
    expect(reasons(mixed)).toEqual(["one-cook", "cook-assumed"]);
    // two cooks of six trays: variance 2/6 of a tray's becomes 2/6 + 2
    const plain = decideComparison(
      nothing([3, 3, 3, 3, 3, 3, 9, 9, 9, 9, 9, 9]).map((tray) => ({ ...tray, cook: "1" })),
    );
    expect(runs.difference!.standardError / plain.difference!.standardError).toBeCloseTo(Math.sqrt(7), 10);
    expect(decideComparison(nothing([3, 3, 3, 9, 9, 9])).difference!.interval).toBeDefined();
    expect(decideComparison(nothing([2, 4, 6, 8, 10, 12, 14, 16])).difference!.interval).toBeDefined();
  });

  test("days that cooks share do not tell their order: the numbers of the cooks do", () => {
    const shared = trays(whole(3, 3, 6, 6, 9, 9, 9), (tray) => ({ ...tray, day: 100 }));
    expect(reasons(decideComparison(shared))).toEqual(["calendar-by-cook-number"]);
    const mixed = trays(whole(9, 3, 3, 9, 3, 9, 9, 3), (tray) => ({ ...tray, day: 100 }));
    expect(reasons(decideComparison(mixed))).toEqual(["cooks-undated"]);
    // two cooks a day, stepped up: in the order of the sheet within each day
    const pairs = trays(whole(3, 3, 9, 3, 9, 9), (tray) => ({
      ...tray,
      day: Math.ceil(Number(tray.cook!.slice(1)) / 3),
    }));
    expect(decideComparison(pairs).caps).toEqual([]);
    const inPairs = trays(whole(3, 6, 6, 9), (tray) => ({ ...tray, day: Math.ceil(Number(tray.cook!.slice(1)) / 2) }));
    expect(reasons(decideComparison(inPairs))).toEqual(["calendar"]);
  });

  test("whole cooks without days lean at most, unless drawn by lot", () => {
    const undated = trays(whole(9, 3, 3, 9, 3, 9, 9, 3), (tray) => ({ ...tray, day: undefined }));
    expect(reasons(decideComparison(undated))).toEqual(["cooks-undated"]);
    expect(decideComparison(undated, { drawnByLot: true }).caps).toEqual([]);
  });

  test("one cook a dose cannot be judged; with one cook of several doses that cook answers, with two these do", () => {
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

  test("one day for all of a stepped-up book is no cook: no interval, open at most; in mixed order it is one", () => {
    const oneDay = (tray: ComparedTray): ComparedTray => ({ ...tray, cook: undefined, day: 0 });
    const stepped = decideComparison(trays(whole(3, 6, 9), oneDay));
    expect(reasons(stepped)).toEqual(["one-cook", "levels-follow-rows-of-one-day"]);
    expect(stepped.verdict).toBe("open");
    expect(stepped.difference!.interval).toBeUndefined();
    expect(reasons(decideComparison(trays(side(3), oneDay)))).toEqual(["one-cook"]);
    expect(reasons(decideComparison(trays([[3, 3, 3, 9, 9, 9]], oneDay)))).toEqual(["one-cook"]);
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

  test("losses of trays that shared a jar of their own: the dose is not blamed for the jar", () => {
    // one jar in four is bad: taken one by one the trays blame the dose in far more than 5 % of these books
    const books = 200;
    let [blamed, oneByOne] = [0, 0];
    for (let book = 0; book < books; book++) {
      const badJars = new Set(Array.from({ length: 12 }, (_, jar) => jar).filter(() => random.uniform() < 1 / 4));
      const { losses } = decideComparison(
        trays(side(6, 6), (tray) => {
          const jar = 2 * Number(/\d+/.exec(tray.cook!)![0]) + Number(tray.level === 9);
          return { ...tray, value: random.uniform() < (badJars.has(jar) ? 0.5 : 0.05) ? "lost" : tray.value };
        }),
      );
      if (losses === undefined) continue;
      if (losses.p < 0.05) blamed++;
      if (Math.abs(losses.z!) > 1.96) oneByOne++;
    }
    expect(oneByOne / books).toBeGreaterThan(0.12);
    // 8 % of 3,000 such books, and two standard errors
    expect(blamed / books).toBeLessThan(0.08 + 2 * Math.sqrt((0.08 * 0.92) / books));
  });

  test("a dose of which all were lost neither flatters the others nor caps them", () => {
    const book = trays(side(6), (tray) => (tray.level === 9 ? { ...tray, value: "lost" } : tray));
    const decision = decideComparison(book);
    const alone = decideComparison(book.filter(({ level }) => level !== 9));
    expect(decision.losses!.p).toBeLessThan(0.05);
    expect([decision.verdict, reasons(decision)]).toEqual(["settled", []]);
    expect([decision.p, decision.difference]).toEqual([alone.p, alone.difference]);
  });

  test("one cook, loads that doses went with in part: compared within loads, by arithmetic", () => {
    const load = (name: string, gives: number, levels: number[]): ComparedTray[] =>
      levels.map((level, i) => ({
        ...{ level, cook: "C1", row: name.charCodeAt(0) * 10 + i, units: { load: name } },
        value: gives + (level === 9 ? 2 : 0),
      }));
    const tied = decideComparison([...load("A", 30, [3, 3, 3, 3, 3, 9]), ...load("B", 40, [3, 9, 9, 9, 9, 9])]);
    expect([tied.method, tied.withinUnits]).toEqual(["one-cook", "load"]);
    // inside each load 9 mL gave 2 g more; over both, the better load had most of it
    expect(tied.difference!.estimate).toBeCloseTo(2, 10);
    const crossed = decideComparison([...load("A", 30, [3, 9, 9, 3]), ...load("B", 40, [3, 9, 9, 9])]);
    expect(crossed.withinUnits).toBeUndefined();
    const names = [...load("A", 30, [3, 3, 3, 3, 3, 3, 6, 9]), ...load("B", 40, [6, 9, 9, 9, 9, 9, 9, 3])];
    expect(decideUnordered(names.map((one) => ({ ...one, level: `L${one.level}` }))).withinUnits).toBe("load");
  });
});

describe("by hand", () => {
  test("whole cooks of three doses, the middle one ahead: the analysis of variance of their means sees it", () => {
    const means = [30, 40, 30, 31, 41, 31, 32, 42, 32];
    const peak = trays(whole(3, 6, 9, 3, 6, 9, 3, 6, 9), (tray) => ({
      ...tray,
      value: means[Math.floor(tray.day! / 14)]!,
    }));
    const { pTrend, pAny, levels } = decideComparison(peak, { drawnByLot: true });
    expect(pTrend).toBeCloseTo(1, 6);
    // F is (200 / 2) / (6 / 6) of 2 and 6 degrees of freedom, whose upper tail is (1 + 2 F / 6) ** -3
    expect(pAny).toBeCloseTo((1 + 200 / 6) ** -3, 10);
    expect(levels.map(({ adjusted }) => adjusted)).toEqual([31, 41, 31].map((mean) => expect.closeTo(mean, 8)));
  });

  test("one cook of three doses of unlike size: highest less lowest, whatever the middle one gave", () => {
    const cook = [3, 3, 3, ...Array<number>(12).fill(6), 9, 9, 9];
    const one = trays([cook], (tray) => ({
      ...tray,
      value: { 3: 30, 6: 60, 9: 36 }[tray.level as 3 | 6 | 9] + (tray.row % 3),
    }));
    expect(decideComparison(one).difference!.estimate).toBeCloseTo(6, 8);
  });
});
