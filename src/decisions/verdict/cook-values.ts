import { midranks } from "../../statistics/groups/midranks.ts";
import { type PlacedTray, scoresOf } from "./cell-table.ts";
import { keepTrays } from "./choose-layout.ts";
import type { LeftOutReason, Level } from "./decision.ts";

/** From this correlation of level and order on, level and calendar are one thing. */
const calendarFrom = 0.8;
/** From this correlation on, order is taken out. */
const orderFrom = 0.4;
const tolerance = 1e-9;

/** Levels of cooks, or trays, in their order. */
export interface LevelsInOrder {
  /** levels that some of them have, in order */
  levels: Level[];
  /** position of each one's level */
  level: number[];
  /** rank of each in time or in the sheet, ties shared */
  order: number[];
}

/** One value per cook, each of one level. */
export interface CookValues extends LevelsInOrder {
  /** mean of each cook */
  value: number[];
  /** what else was constant in each cook, where something was */
  other?: string[];
  /** what `order` goes by: the inoculation day, else (or where most share one) the number in the cook's name, else the sheet */
  orderedBy: "day" | "cook-number" | "row";
  /** trays that count: those of their cook's level */
  kept: PlacedTray[];
  leftOut: { row: number; reason: LeftOutReason }[];
}

/**
 * Reduces cooks to one value each: the mean of the good trays of the commonest level (of a tie, the lower).
 * @param trays in row order, lost ones included
 * @param levels all levels, in order
 * @param names of the groups
 * @param otherOf what else is constant in a tray's cook; undefined where nothing else was varied
 * @param ordered whether levels are numbers in order, or names
 * @param measured the value of a good tray; as measured unless stated
 */
export function cookValues(
  trays: ReadonlyArray<PlacedTray>,
  levels: ReadonlyArray<Level>,
  names: ReadonlyArray<string>,
  ordered: boolean,
  otherOf: ((tray: PlacedTray) => string) | undefined,
  measured: (tray: PlacedTray) => number = ({ tray }) => tray.value as number,
): CookValues {
  const position = new Map(levels.map((level, i) => [level, i]));
  const cooks = new Map<number, PlacedTray[]>();
  for (const tray of trays) {
    const own = cooks.get(tray.group);
    if (own === undefined) cooks.set(tray.group, [tray]);
    else own.push(tray);
  }
  const commonest = new Map<number, Level>();
  for (const [group, own] of cooks) {
    const counts = new Map<Level, number>();
    for (const { tray } of own) {
      if (tray.value !== "lost") counts.set(tray.level, (counts.get(tray.level) ?? 0) + (tray.pooled ?? 1));
    }
    const ranked = [...counts].sort((a, b) => b[1] - a[1] || position.get(a[0])! - position.get(b[0])!);
    if (ranked.length > 0) commonest.set(group, ranked[0]![0]);
  }
  const { kept, leftOut } = keepTrays(
    trays,
    ({ tray, group }) => commonest.get(group) === undefined || commonest.get(group) === tray.level,
    "stray-in-its-cook",
  );
  const present = levels.filter((level) => [...commonest.values()].includes(level));
  const entries = [...commonest].map(([group, level]) => {
    const own = cooks.get(group)!.filter(({ tray }) => tray.level === level);
    const days = own.flatMap(({ tray }) => (tray.day === undefined ? [] : [tray.day]));
    return {
      level: present.indexOf(level),
      value: meanOf(own, measured),
      day: days.length === 0 ? undefined : days.reduce((sum, day) => sum + day, 0) / days.length,
      firstRow: own[0]!.tray.row,
      name: names[group]!,
      other: otherOf === undefined ? undefined : otherOf(own[0]!),
    };
  });
  const level = entries.map((entry) => entry.level);
  return {
    levels: present,
    level,
    value: entries.map(({ value }) => value),
    ...orderOf(entries, (order) => nearnessOf({ levels: present, level, order }, ordered)),
    ...(otherOf === undefined ? {} : { other: entries.map(({ other }) => other!) }),
    kept,
    leftOut,
  };
}

/** Numbers of cooks whose names differ in one number only ("C1", "C2"): cooks are numbered as they come. */
function numbersIn(names: ReadonlyArray<string>): number[] | undefined {
  const parts = names.map((name) => /^(\D*)(\d+)(\D*)$/.exec(name));
  const around = new Set(parts.map((part) => (part === null ? undefined : JSON.stringify([part[1], part[3]]))));
  const numbers = parts.map((part) => Number(part?.[2]));
  return around.size === 1 && !around.has(undefined) && new Set(numbers).size === names.length ? numbers : undefined;
}

/**
 * Order in time, as far as the sheet tells it; days that most pairs of cooks share tell none. Cooks of one day may have followed
 * one another in the sheet, too: of the order with such ties and the one without, the one nearer to the levels counts.
 */
function orderOf(
  entries: ReadonlyArray<{ day: number | undefined; name: string; firstRow: number }>,
  nearness: (order: number[]) => number,
): Pick<CookValues, "order" | "orderedBy"> {
  const numbers = numbersIn(entries.map(({ name }) => name));
  const sheet = midranks(numbers ?? entries.map(({ firstRow }) => firstRow));
  const inSheet = { order: sheet, orderedBy: numbers === undefined ? "row" : "cook-number" } as const;
  if (entries.some(({ day }) => day === undefined)) return inSheet;
  const days = midranks(entries.map(({ day }) => day!));
  if (sharedPairs(days) > 0.5) return inSheet;
  const withoutTies = midranks(days.map((rank, i) => rank + sheet[i]! / (2 * days.length + 2)));
  return { order: nearness(withoutTies) > nearness(days) ? withoutTies : days, orderedBy: "day" };
}

/** Share of the pairs of cooks that have one rank. */
function sharedPairs(ranks: ReadonlyArray<number>): number {
  const sizes = new Map<number, number>();
  for (const rank of ranks) sizes.set(rank, (sizes.get(rank) ?? 0) + 1);
  const shared = [...sizes.values()].reduce((sum, size) => sum + size * (size - 1), 0);
  return ranks.length < 2 ? 0 : shared / (ranks.length * (ranks.length - 1));
}

function meanOf(trays: ReadonlyArray<PlacedTray>, measured: (tray: PlacedTray) => number): number {
  let sum = 0;
  let count = 0;
  for (const placed of trays) {
    const { tray } = placed;
    if (tray.value === "lost") continue;
    sum += measured(placed) * (tray.pooled ?? 1);
    count += tray.pooled ?? 1;
  }
  return sum / count;
}

/** How far the level followed the calendar. */
export type CalendarTie = "none" | "some" | "same";

/**
 * Judges whether level and order in time can be separated: Spearman's correlation for numbers, the share of order's variation
 * between levels (the square of it) for names.
 * @source Spearman 1904, American Journal of Psychology 15(1):72-101; the limits are the project's own simulation
 */
export function calendarTie(cooks: LevelsInOrder, ordered: boolean): CalendarTie {
  const rho = nearnessOf(cooks, ordered);
  if (rho >= calendarFrom - tolerance) return "same";
  return rho > orderFrom + tolerance ? "some" : "none";
}

const nearnessOf = (cooks: LevelsInOrder, ordered: boolean): number =>
  ordered ? correlationWithOrder(cooks) : Math.sqrt(shareBetweenLevels(cooks));

function correlationWithOrder({ levels, level, order }: LevelsInOrder): number {
  const scores = scoresOf(levels);
  const ranks = midranks(level.map((position) => scores[position]!));
  const mean = (ranks.length + 1) / 2;
  let product = 0;
  let ofRanks = 0;
  let ofOrder = 0;
  ranks.forEach((rank, i) => {
    product += (rank - mean) * (order[i]! - mean);
    ofRanks += (rank - mean) ** 2;
    ofOrder += (order[i]! - mean) ** 2;
  });
  return ofRanks === 0 || ofOrder === 0 ? 0 : Math.abs(product) / Math.sqrt(ofRanks * ofOrder);
}

function shareBetweenLevels({ levels, level, order }: LevelsInOrder): number {
  const mean = (order.length + 1) / 2;
  const sums = levels.map(() => ({ sum: 0, count: 0 }));
  let total = 0;
  order.forEach((rank, i) => {
    sums[level[i]!]!.sum += rank - mean;
    sums[level[i]!]!.count++;
    total += (rank - mean) ** 2;
  });
  if (total === 0) return 0;
  return sums.reduce((share, { sum, count }) => share + (count === 0 ? 0 : sum ** 2 / count / total), 0);
}
