import { decideComparison, type Reading, readingOf, wholeReport } from "../../src/decisions/verdict/index.ts";
import { normalUpperTail } from "../../src/statistics/distributions/normal.ts";
import { seededRandom } from "../../src/statistics/random/seeded-random.ts";
import { blocked, growBook, wholeCooks } from "./verdict-books.ts";
import { type CountedRow, shares } from "./verdict-more-rows.ts";

type Cooks = Parameters<typeof growBook>[0]["cooks"];

/** Reported to lean the wrong way, of those reported to lean: true gains are drawn around 0. */
const leaning = (name: string, cooks: Cooks, gainShare: number, wrong: number): CountedRow => ({
  name: `${name}, gains vary by ${100 * gainShare} %`,
  expected: { "leaning the wrong way": wrong },
  gain: false,
  count: (books, firstSeed) =>
    shares(books, firstSeed, (seed) => {
      const gain = seededRandom(seed + 7_000_000).normal() * gainShare * 32;
      const trays = growBook({ cooks, effect: (level) => (gain * ((level as number) - 3)) / 6 }, seed);
      const { verdict, difference } = decideComparison(trays);
      return {
        leaning: verdict === "leaning",
        "leaning the wrong way": verdict === "leaning" ? difference!.estimate * gain < 0 : undefined,
      };
    }),
});

/** Limits are the upper ends of the specification's ranges. */
export const leaningRows: ReadonlyArray<CountedRow> = [
  leaning("one cook, 3 + 3", blocked(1, [3, 9], 3), 0.05, 23),
  leaning("one cook, 3 + 3", blocked(1, [3, 9], 3), 0.1, 15),
  leaning("one cook, 3 + 3", blocked(1, [3, 9], 3), 0.15, 6),
  leaning("3 cooks x 6, 3 doses", blocked(3, [3, 6, 9], 2), 0.05, 28),
  leaning("3 cooks x 6, 3 doses", blocked(3, [3, 6, 9], 2), 0.1, 12),
  leaning("3 cooks x 6, 3 doses", blocked(3, [3, 6, 9], 2), 0.15, 8),
  leaning("4 cooks x 6, 3 doses", blocked(4, [3, 6, 9], 2), 0.05, 22),
  leaning("4 cooks x 6, 3 doses", blocked(4, [3, 6, 9], 2), 0.1, 10),
  leaning("4 cooks x 6, 3 doses", blocked(4, [3, 6, 9], 2), 0.15, 10),
  leaning("9 whole cooks", wholeCooks([3, 6, 9], 3, 6), 0.05, 27),
  leaning("9 whole cooks", wholeCooks([3, 6, 9], 3, 6), 0.1, 16),
  leaning("9 whole cooks", wholeCooks([3, 6, 9], 3, 6), 0.15, 9),
];

/** Read after every cook from 2 to 8, no effect: ever settled. With a gain, settled by the fourth. */
const readings = (name: string, readingAt: (cooks: number) => Reading, expected: number, gain = 0): CountedRow => ({
  name,
  expected: { settled: expected },
  gain: gain !== 0,
  count: (books, firstSeed) =>
    shares(books, firstSeed, (seed) => {
      const trays = growBook({ cooks: blocked(8, [3, 9], 3), effect: (level) => (level === 9 ? gain : 0) }, seed);
      const settled = (gain === 0 ? [2, 3, 4, 5, 6, 7, 8] : [2, 3, 4]).some((finished) => {
        const read = trays.filter(({ day }) => day! < finished * 14);
        return decideComparison(read, { reading: readingAt(finished) }).verdict === "settled";
      });
      return { settled };
    }),
});

const planned = (plannedCooks: number) => (finishedCooks: number) =>
  readingOf({ finishedCooks, growing: false, plannedCooks });

/** Every cook from the first on was read. */
const recorded = (finishedCooks: number) =>
  readingOf({ finishedCooks, growing: false, earlier: Array.from({ length: finishedCooks - 1 }, (_, i) => i + 1) });

export const readingRows: ReadonlyArray<CountedRow> = [
  ...[3, 4, 6, 8].map((cooks) => readings(`read after every cook, ${cooks} planned`, planned(cooks), 5.5)),
  readings("read after every cook, a record kept", recorded, 5.5),
  readings("read after every cook, neither plan nor record", () => "unknown", 15.9),
];

/** Fourteen questions, correlation .3: any false one settled. */
const report = (name: string, mainTrue: boolean, othersTrue: number, expected: Record<string, number>): CountedRow => ({
  name,
  expected,
  gain: false,
  count: (books, firstSeed) =>
    shares(books, firstSeed, (seed) => {
      const random = seededRandom(seed);
      const shared = random.normal() * Math.sqrt(0.3);
      const p = Array.from({ length: 14 }, (_, i) => {
        const isTrue = i === 0 ? mainTrue : i <= othersTrue;
        const z = shared + random.normal() * Math.sqrt(0.7) + (isTrue ? 3 : 0);
        return 2 * normalUpperTail(Math.abs(z));
      });
      const { main, others } = wholeReport({ main: { p: p[0]! }, others: p.slice(1).map((own) => ({ p: own })) });
      const falseOther = others.some(({ stands }, i) => stands && i >= othersTrue);
      return { "any false": falseOther || (!mainTrue && main.stands), "main stands": main.stands };
    }),
});

export const reportRows: ReadonlyArray<CountedRow> = [
  report("whole report, nothing is true", false, 0, { "any false": 4.7 }),
  report("whole report, main null, three others true", false, 3, { "any false": 5.3 }),
  report("whole report, main and three others true", true, 3, { "any false": 12 }),
];

/** Honest random orders of whole cooks that look like the calendar. */
const refused = (doses: number[], each: number, expected: number): CountedRow => ({
  name: `random orders refused, ${doses.length} doses x ${each} cooks`,
  expected: { refused: expected },
  gain: false,
  count: (books, firstSeed) =>
    shares(books, firstSeed, (seed) => {
      const decision = decideComparison(growBook({ cooks: wholeCooks(doses, each, 2), effect: () => 0 }, seed));
      return { refused: decision.verdict === "cannot-tell" };
    }),
});

export const refusedRows: ReadonlyArray<CountedRow> = [
  refused([3, 9], 2, 34),
  refused([3, 9], 3, 12),
  refused([3, 9], 4, 3),
  refused([3, 6, 9], 2, 7),
  refused([3, 6, 9], 3, 1),
];
