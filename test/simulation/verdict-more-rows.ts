import {
  decideComparison,
  decideInteraction,
  decideStartedTrays,
  decideUnordered,
  gainsOver,
  judgeGain,
} from "../../src/decisions/verdict/index.ts";
import type { SeededRandom } from "../../src/statistics/random/seeded-random.ts";
import { blocked, growBook, type VerdictRow, wholeCooks } from "./verdict-books.ts";

/** A row asked in its own way, with what the specification states of it in %. */
export interface CountedRow {
  name: string;
  /** named shares of the books, as measured on this many */
  count(books: number, firstSeed: number): Record<string, number>;
  expected: Record<string, number>;
  /** whether there is something to settle */
  gain: boolean;
}

const names = (count: number): string[] => Array.from({ length: count }, (_, i) => "ABCDEFGHIJKL"[i]!);
const lost = { low: 0.05, high: 0.3 };

/** Shares of books for which each of some things holds. */
export function shares<Name extends string>(
  books: number,
  firstSeed: number,
  look: (seed: number) => Record<Name, boolean | undefined>,
): Record<Name, number> {
  const counts: Record<string, { yes: number; asked: number }> = {};
  for (let book = 0; book < books; book++) {
    for (const [name, holds] of Object.entries<boolean | undefined>(look(firstSeed + book))) {
      counts[name] ??= { yes: 0, asked: 0 };
      if (holds === undefined) continue;
      counts[name].asked++;
      if (holds) counts[name].yes++;
    }
  }
  return Object.fromEntries(
    Object.entries(counts).map(([name, { yes, asked }]) => [name, yes / Math.max(1, asked)]),
  ) as Record<Name, number>;
}

const started = (name: string, cooks: number, expected: Record<string, number>, gain = 0): CountedRow => ({
  name,
  expected,
  gain: false,
  count: (books, firstSeed) =>
    shares(books, firstSeed, (seed) => {
      const trays = growBook(
        {
          cooks: blocked(cooks, [3, 9], 5),
          effect: (level) => (level === 9 ? gain : 0),
          loss: (level) => (level === 3 ? lost.low : lost.high),
        },
        seed,
      );
      const { difference, verdict } = decideStartedTrays(trays);
      const truth = (32 + gain) * (1 - lost.high) - 32 * (1 - lost.low);
      const { lower, upper } = difference!.interval!;
      return {
        covers: lower <= truth && truth <= upper,
        "leaves out 0": lower > 0 || upper < 0,
        settled: verdict === "settled",
        "narrower than 40 g": upper - lower < 40,
      };
    }),
});

/** Yield of a started tray. */
export const startedRows: ReadonlyArray<CountedRow> = [
  started("started trays, 4 cooks x 5 a dose, .05 and .30 lost", 4, { covers: 96, "leaves out 0": 37 }),
  started("started trays, 2 cooks x 5 a dose, .05 and .30 lost", 2, { covers: 96, "narrower than 40 g": 100 }),
  // what the losses take the gain gives back
  started("started trays, gain and loss in balance", 4, { covers: 96, settled: 5 }, 32 * (0.95 / 0.7 - 1)),
];

interface NamesPlan {
  name: string;
  cooks(random: SeededRandom): (number | string)[][];
  expected: Record<string, number>;
  /** what one outstanding level gives more */
  gain?: number;
  /** one level that differs from cook to cook, g */
  unsteady?: number;
  traySd?: (level: number | string) => number;
}

const named = ({ name, cooks, expected, gain = 0, unsteady = 0, traySd }: NamesPlan): CountedRow => ({
  name,
  expected,
  gain: gain !== 0,
  count: (books, firstSeed) =>
    shares(books, firstSeed, (seed) => {
      const trays = growBook(
        {
          cooks,
          effect: (level) => (level === "B" ? gain : 0),
          cellSd: (level) => (level === "A" ? unsteady : 0),
          ...(traySd === undefined ? {} : { traySd }),
        },
        seed,
      );
      const decision = decideUnordered(trays);
      const reported = decision.pairs.filter(({ settled }) => settled);
      const wrong = reported.some(({ from, to }) => gain === 0 || (from !== "B" && to !== "B"));
      const leader = decision.best?.[0];
      const best = decision.difference?.to;
      const interval = decision.difference?.interval;
      // best less the mean of the others
      const truth = best === "B" ? gain : -gain / (decision.levels.length - 1);
      return {
        settled: decision.verdict === "settled",
        covers: interval === undefined ? undefined : interval.lower <= truth && truth <= interval.upper,
        "wrong pair": wrong,
        "one leader": leader !== undefined && leader.chance >= 0.85,
        "leader is best": leader !== undefined && leader.chance >= 0.85 ? leader.level === "B" : undefined,
        "best among running": decision.running === undefined ? undefined : decision.running.includes("B"),
      };
    }),
});

/** Unordered levels, C cooks x D levels of two trays. */
export const nameRows: ReadonlyArray<CountedRow> = [
  named({
    name: "3 names in 3 cooks, no effect",
    cooks: blocked(3, names(3), 2),
    expected: { settled: 4.7, covers: 95, "wrong pair": 6.5 },
  }),
  named({
    name: "3 names in 4 cooks, no effect",
    cooks: blocked(4, names(3), 2),
    expected: { settled: 4.7, covers: 95, "wrong pair": 6.5 },
  }),
  named({
    name: "4 names in 4 cooks, no effect",
    cooks: blocked(4, names(4), 2),
    expected: { settled: 4.7, covers: 95, "wrong pair": 6.5 },
  }),
  named({
    name: "6 names in 6 cooks, no effect",
    cooks: blocked(6, names(6), 2),
    expected: { settled: 4.7, covers: 95, "wrong pair": 6.5 },
  }),
  named({
    name: "12 names in 4 cooks, no effect",
    cooks: blocked(4, names(12), 1),
    expected: { settled: 4.7, covers: 95, "wrong pair": 6.5 },
  }),
  named({
    name: "4 names in 4 cooks, one differs by 2 tray sd",
    cooks: blocked(4, names(4), 2),
    unsteady: 7,
    expected: { settled: 7.4, covers: 95 },
  }),
  named({
    name: "3 names in 5 cooks, one differs by 2 tray sd",
    cooks: blocked(5, names(3), 2),
    unsteady: 7,
    expected: { settled: 7.4, covers: 95 },
  }),
  named({
    name: "4 names, each in 3 of 6 cooks",
    cooks: incomplete(6, names(4), 3),
    expected: { settled: 7, covers: 95 },
  }),
  named({
    name: "3 names on 9 whole cooks, no effect",
    cooks: wholeCooks(names(3), 3, 6),
    expected: { settled: 6, covers: 95 },
  }),
  named({
    name: "3 names on 12 whole cooks, spread 3 to 1",
    cooks: wholeCooks(names(3), 4, 6),
    expected: { settled: 10, covers: 95 },
    traySd: (level) => (level === "A" ? 10.5 : 3.5),
  }),
  named({
    name: "3 names in 3 cooks, one +4.5 g",
    cooks: blocked(3, names(3), 2),
    gain: 4.5,
    expected: { settled: 23, covers: 95 },
  }),
  named({
    name: "3 names in 4 cooks, one +4.5 g",
    cooks: blocked(4, names(3), 2),
    gain: 4.5,
    expected: { settled: 43, covers: 95 },
  }),
  named({
    name: "4 names in 4 cooks, one +4.5 g",
    cooks: blocked(4, names(4), 2),
    gain: 4.5,
    expected: { settled: 45, covers: 95 },
  }),
  named({
    name: "6 names in 4 cooks, one +4.5 g",
    cooks: blocked(4, names(6), 1),
    gain: 4.5,
    expected: { settled: 23, covers: 95 },
  }),
  named({
    name: "6 names in 6 cooks, one +4.5 g",
    cooks: blocked(6, names(6), 1),
    gain: 4.5,
    expected: { settled: 42, covers: 95 },
  }),
  named({
    name: "one cook, 4 names of 3 trays",
    cooks: blocked(1, names(4), 3),
    expected: { settled: 0, covers: 95, "one leader": 12 },
  }),
];

function incomplete(cooks: number, levels: string[], each: number): (random: SeededRandom) => string[][] {
  return (random) =>
    Array.from({ length: cooks }, (_, cook) =>
      random.shuffle(
        levels.filter((_level, i) => (i + cook) % levels.length < each).flatMap((level) => [level, level]),
      ),
    );
}

const crossed = (
  name: string,
  gain: number,
  each: number,
  tied: number,
  expected: Record<string, number>,
): CountedRow => ({
  name,
  expected,
  gain: gain !== 0,
  count: (books, firstSeed) =>
    shares(books, firstSeed, (seed) => {
      // dose and supplement side by side in four cooks; the supplement gives 6 g and goes with the dose in part of the trays
      const trays = growBook(
        { cooks: blocked(4, [3, 6, 9], each), effect: (level) => (gain * ((level as number) - 3)) / 6 },
        seed,
      );
      const seen = new Map<string, number>();
      const both = trays.map((tray) => {
        const key = `${tray.cook} ${tray.level}`;
        const nth = seen.get(key) ?? 0;
        seen.set(key, nth + 1);
        const more = tray.level === 9 ? tied : tray.level === 3 ? -tied : 0;
        const withBran = nth < each / 2 + more;
        return {
          ...tray,
          other: withBran ? "bran" : "none",
          value: tray.value === "lost" ? tray.value : tray.value + (withBran ? 6 : 0),
        };
      });
      const first = decideComparison(both);
      const interaction = decideInteraction(both);
      const { lower, upper } = first.difference!.interval!;
      return {
        settled: first.verdict === "settled",
        covers: lower <= gain && gain <= upper,
        "interaction settled": interaction === undefined ? undefined : interaction.p < 0.05,
      };
    }),
});

/** Two things varied together. */
export const crossedRows: ReadonlyArray<CountedRow> = [
  crossed("dose beside a supplement, no effect", 0, 2, 0, { settled: 6, covers: 95 }),
  crossed("dose partly tied to a supplement, no effect", 0, 4, 1, { settled: 6, covers: 95 }),
  crossed("dose beside a supplement, +4.5 g", 4.5, 2, 0, { settled: 38, covers: 95 }),
];

/** A dearer grade whose gain is just what it has to be, or more: "settled" is that it pays, or does not. */
const paying = (name: string, cooks: number, gain: number, expected: Record<string, number>): CountedRow => ({
  name,
  expected,
  gain: gain !== worthwhile,
  count: (books, firstSeed) =>
    shares(books, firstSeed, (seed) => {
      const trays = growBook(
        { cooks: blocked(cooks, ["coarse", "fine"], 4), effect: (level) => (level === "fine" ? gain : 0) },
        seed,
      );
      const decision = decideUnordered(trays);
      const own = gainsOver(decision, "coarse")[0]!;
      return {
        settled: judgeGain(decision, own, worthwhile, 1).verdict === "settled",
        covers: own.lower <= gain && gain <= own.upper,
      };
    }),
});

/** Grams that the dearer grade has to give to be worth its price. */
const worthwhile = 2;

/** A gain against its price; the rates stated are those of the same test against nothing. */
export const payingRows: ReadonlyArray<CountedRow> = [
  paying("a dearer grade just worth its price, 4 cooks", 4, worthwhile, { settled: 5, covers: 95 }),
  paying("a dearer grade just worth its price, 3 cooks", 3, worthwhile, { settled: 5, covers: 95 }),
  paying("a dearer grade 4.5 g above its price, 4 cooks", 4, worthwhile + 4.5, { settled: 54, covers: 95 }),
];

/** One cook: coverage for trays of any spread, and for a level of few trays that differ twice as far as the others. */
export const oneCookRows: ReadonlyArray<VerdictRow> = [...anySpread(), ...unlikeSizes()];

function unlikeSizes(): VerdictRow[] {
  return [2, 3, 4].map((few) => ({
    name: `one cook, ${few} trays of sd 6 + ${12 - few} of sd 3`,
    plan: {
      cooks: (random) => [random.shuffle(Array.from({ length: 12 }, (_, i) => (i < few ? 3 : 9)))],
      effect: () => 0,
      traySd: (level) => (level === 3 ? 6 : 3),
    },
    truth: 0,
    expected: { settled: 0, coverage: 95 },
  }));
}

function anySpread(): VerdictRow[] {
  return (
    [
      [0.1, [100, 100, 100]],
      [0.15, [98, 99, 100]],
      [0.2, [96, 97, 98]],
      [0.25, [93, 93, 94]],
      [0.3, [91, 90, 88]],
    ] as const
  ).flatMap(([cv, coverages]) =>
    [3, 2, 1].map((each, i) => ({
      name: `one cook, ${each} + ${each}, coefficient of variation ${cv}`,
      plan: { cooks: blocked(1, [3, 9], each), effect: () => 0, traySd: 32 * cv },
      truth: 0,
      expected: { settled: 0, coverage: coverages[i]! },
    })),
  );
}
