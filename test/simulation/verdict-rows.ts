import type { SeededRandom } from "../../src/statistics/random/seeded-random.ts";
import {
  type BookPlan,
  type BookTray,
  blocked,
  inOrder,
  pairsOfThree,
  type VerdictRow,
  wholeCooks,
  withoutCooks,
  withoutCooksOrDays,
  withoutDays,
} from "./verdict-books.ts";

const three = [3, 6, 9];
const two = [3, 9];
const eight = [1, 2, 3, 4, 5, 6, 7, 8];
const nothing = (): number => 0;
const line = (gain: number) => (level: number | string) => (gain * ((level as number) - 3)) / 6;
/** Gains of the two doses above 3 mL. */
const steps = (middle: number, high: number) => (level: number | string) =>
  level === 3 ? 0 : level === 6 ? middle : high;

const strayOf = (trays: BookTray[]): BookTray[] => {
  // one tray of the fifth cook got the dose of another
  const at = trays.findIndex(({ placed }) => placed.cook === 4);
  return trays.map((tray, i) => (i === at ? { ...tray, level: tray.level === 3 ? 9 : 3 } : tray));
};
const oneBlankCook = (trays: BookTray[]): BookTray[] =>
  trays.map((tray, i) => (i === 13 ? { ...tray, cook: undefined } : tray));

/** Jars of three trays: one jar a dose in each cook, another in the next cook. */
const jars = (trays: BookTray[], random: SeededRandom): BookTray[] => {
  const effects = new Map<string, number>();
  return trays.map((tray) => {
    const name = `cook ${tray.placed.cook}, jar of ${tray.level}`;
    if (!effects.has(name)) effects.set(name, random.normal() * 3.5);
    return { ...tray, value: (tray.value as number) + effects.get(name)!, units: { jar: name } };
  });
};

/** Six shelves; in each cook a dose has two of them, the same ones in every cook unless drawn. */
const shelves = (trays: BookTray[], random: SeededRandom): BookTray[] => {
  const effects = Array.from({ length: 6 }, () => random.normal() * 3.5);
  const seen = new Map<string, number>();
  return trays.map((tray) => {
    const key = `${tray.placed.cook} ${tray.level}`;
    const nth = seen.get(key) ?? 0;
    seen.set(key, nth + 1);
    const shelf = three.indexOf(tray.level as number) * 2 + (nth % 2);
    return { ...tray, value: (tray.value as number) + effects[shelf]!, units: { shelf: `S${shelf + 1}` } };
  });
};

const oneDay = (trays: BookTray[]): BookTray[] => trays.map((tray) => ({ ...tray, day: 0 }));
const withoutNumbers = (trays: BookTray[]): BookTray[] =>
  trays.map((tray) => ({ ...tray, cook: "abcdefghi"[tray.placed.cook]! }));
const shuffledRows = (trays: BookTray[], random: SeededRandom): BookTray[] =>
  random.shuffle(trays).map((tray, i) => ({ ...tray, row: i + 2 }));

const skewed = (random: SeededRandom): number => -Math.log(1 - random.uniform()) - 1;
const heavy = (random: SeededRandom): number => {
  // t with 3 degrees of freedom over its standard deviation
  const chi = [1, 2, 3].reduce((sum) => sum + random.normal() ** 2, 0);
  return random.normal() / Math.sqrt(chi / 3) / Math.sqrt(3);
};
const duds = (random: SeededRandom): number => (random.uniform() < 0.05 ? -5 : random.normal());
const typos = (trays: BookTray[], random: SeededRandom): BookTray[] => {
  const at = random.integer(trays.length);
  return trays.map((tray, i) => (i === at ? { ...tray, value: (tray.value as number) * 10 } : tray));
};

const power = (name: string, expected: number, plan: BookPlan, truth = 4.5): VerdictRow => ({
  name,
  plan,
  truth,
  expected: { settled: expected },
});
const none = (
  name: string,
  expected: number,
  plan: Omit<BookPlan, "effect">,
  coverage?: number | "not held",
): VerdictRow => ({
  name,
  plan: { effect: nothing, ...plan },
  truth: 0,
  expected: { settled: expected, ...(coverage === undefined ? {} : { coverage }) },
});

/** 6 g more from the seventh cook on: new grain, another scale. */
const changedHalfway = (trays: BookTray[]): BookTray[] =>
  trays.map((tray) => (tray.placed.cook < 6 ? tray : { ...tray, value: (tray.value as number) + 6 }));

/** A dose and the next one in each cook, up and down again. */
const bridges = (): number[][] =>
  [3, 6, 9, 6, 3, 6, 9, 3].map((dose) => [dose, dose, dose, dose + 3, dose + 3, dose + 3]);

const stepUp: BookPlan = { cooks: inOrder([3, 3, 3, 6, 6, 6, 9, 9, 9], 6), effect: nothing, drift: 1.5 };

/** Power: a true gain, highest less lowest dose. */
export const gainRows: ReadonlyArray<VerdictRow> = [
  power("4 cooks x 6, 3 doses", 43, { cooks: blocked(4, three, 2), effect: line(4.5) }),
  power("same, gain differs, 3 g end to end", 28, { cooks: blocked(4, three, 2), effect: line(4.5), slopeSd: 3 }),
  power("same, plateau", 47, { cooks: blocked(4, three, 2), effect: steps(4.5, 4.5) }),
  power("same, middle dose best", 25, { cooks: blocked(4, three, 2), effect: steps(4.5, 0) }, 0),
  power("3 cooks x 6, 3 doses", 27, { cooks: blocked(3, three, 2), effect: line(4.5) }),
  power("4 cooks x 8, 4 doses", 49, { cooks: blocked(4, [3, 5, 7, 9], 2), effect: line(4.5) }),
  power("4 cooks x 6, 2 doses", 54, { cooks: blocked(4, two, 3), effect: line(4.5) }),
  power("3 cooks x 4, 2 doses", 22, { cooks: blocked(3, two, 2), effect: line(4.5) }),
  power(
    "3 cooks of 8 doses, one tray each, +10.9 g",
    89,
    { cooks: blocked(3, eight, 1), effect: (level) => (10.9 * ((level as number) - 1)) / 7 },
    10.9,
  ),
  power("8 cooks of a dose and the next, up and down", 66, { cooks: bridges, effect: line(6), drift: 1.5 }, 9),
  power("6 cooks, 2 of 3 doses each", 39, { cooks: pairsOfThree(6, [3, 6, 9], 3), effect: line(4.5) }),
  {
    ...power("9 whole cooks, +9 g, drawn by lot", 66, { cooks: wholeCooks(three, 3, 6), effect: line(9) }, 9),
    settings: { drawnByLot: true },
  },
  power("9 whole cooks, +9 g, calendar checked", 60, { cooks: wholeCooks(three, 3, 6), effect: line(9) }, 9),
];

/** No effect: how often it is settled all the same. */
export const nullRows: ReadonlyArray<VerdictRow> = [
  none("4 cooks x 6, 3 doses", 3.7, { cooks: blocked(4, three, 2) }),
  none("4 cooks x 6, 2 doses", 4.8, { cooks: blocked(4, two, 3) }),
  none("3 cooks of 8 doses, one tray each", 2.6, { cooks: blocked(3, eight, 1) }),
  none("gain differs, 3 g end to end", 3.4, { cooks: blocked(4, three, 2), slopeSd: 3 }),
  none("3 cooks x 8, 2 doses, gain differs", 3.7, { cooks: blocked(3, two, 4), slopeSd: 3 }),
  none("tray sd 2, 4, 8 by dose", 5.6, {
    cooks: blocked(4, three, 3),
    traySd: (level) => ({ 3: 2, 6: 4, 9: 8 })[level as 3 | 6 | 9],
  }),
  none("skewed trays", 3, { cooks: blocked(4, three, 2), residual: skewed }),
  none("heavy-tailed trays", 3, { cooks: blocked(4, three, 2), residual: heavy }),
  none("duds, one tray in twenty", 3, { cooks: blocked(4, three, 2), residual: duds }),
  none("one weight typed ten times too large", 3, { cooks: blocked(4, three, 2), sheet: typos }),
  none("9 whole cooks, drawn in random order", 4.2, { cooks: wholeCooks(three, 3, 6) }),
  none("12 whole cooks, two of a dose in turn, 6 g more from the middle on", 1, {
    cooks: inOrder([3, 3, 6, 6, 9, 9, 3, 3, 6, 6, 9, 9], 6),
    sheet: changedHalfway,
  }),
  none("8 whole cooks, 2 doses", 4.2, { cooks: wholeCooks(two, 4, 6) }),
  none("whole cooks, one stray tray", 5.1, { cooks: wholeCooks(three, 3, 6), sheet: strayOf }),
  none("same, one blank cook cell", 5.1, {
    cooks: wholeCooks(three, 3, 6),
    sheet: (trays) => oneBlankCook(strayOf(trays)),
  }),
  none("whole cooks, cook column missing", 4.2, { cooks: wholeCooks(three, 3, 6), sheet: withoutCooks }),
  none("whole cooks, cooks and days missing", 0, { cooks: wholeCooks(three, 3, 6), sheet: withoutCooksOrDays }),
  none("doses inside cooks, cooks and days missing", 0, { cooks: blocked(4, three, 2), sheet: withoutCooksOrDays }),
  none("jars, one a dose in each cook", 2.4, { cooks: blocked(4, three, 3), sheet: jars }),
  none("shelves, two a dose in every cook", 2.5, { cooks: blocked(4, three, 2), sheet: shelves }),
  none("stepped up, dated", 0, stepUp),
  none("stepped up, undated", 0, { ...stepUp, sheet: withoutDays }),
  none(
    "stepped up, undated, rows shuffled",
    0,
    { ...stepUp, sheet: (t, r) => withoutDays(shuffledRows(t, r)) },
    "not held",
  ),
  none(
    "stepped up, undated, unnumbered, rows shuffled",
    0,
    { ...stepUp, sheet: (t, r) => withoutNumbers(withoutDays(shuffledRows(t, r))) },
    "not held",
  ),
  none("stepped up, cooks missing", 0, { ...stepUp, sheet: withoutCooks }),
  none("stepped up, one shared day", 0, { ...stepUp, sheet: (t) => withoutCooks(oneDay(t)) }),
  none("stepped up, no cooks, no days", 0, { ...stepUp, sheet: withoutCooksOrDays }),
  none("stepped up, the old dose back last", 4.6, {
    ...stepUp,
    cooks: inOrder([3, 3, 6, 6, 9, 9, 3, 3], 6),
  }),
  none(
    "loss goes with dose",
    3.2,
    {
      cooks: blocked(4, three, 3),
      loss: (level, residual) => Math.min(0.9, 0.03 * (level as number) * Math.exp(-0.5 * residual)),
    },
    90.5,
  ),
  none("6 cooks, 2 of 3 doses each", 3.7, { cooks: pairsOfThree(6, [3, 6, 9], 3) }),
  none("unequal numbers, 15 % lost", 3.7, { cooks: blocked(5, three, 2), loss: () => 0.15 }),
  none("one cook, 3 + 3", 0, { cooks: blocked(1, two, 3) }),
  none("cook slopes differ, .5 tray sd", 4, { cooks: blocked(6, three, 2), slopeSd: 1.75 }),
  none("cook slopes differ, 1 tray sd", 5, { cooks: blocked(6, three, 2), slopeSd: 3.5 }),
  none("cook slopes differ, 2 tray sd", 7.5, { cooks: blocked(6, three, 2), slopeSd: 7 }),
];
