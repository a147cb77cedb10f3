import type { Arm } from "../../src/design/arm.ts";
import type { Factor } from "../../src/design/factor.ts";
import { percentileInterval } from "../../src/statistics/curves/bootstrap-curve.ts";
import { type SeededRandom, seededRandom } from "../../src/statistics/random/seeded-random.ts";
import type { TrayMoney } from "../costs/tray-money.ts";

/** What money is measured against, in the order tables show them. */
export const profitabilityMeasures = ["started tray", "shelf day", "hour of work"] as const;
export type ProfitabilityMeasure = (typeof profitabilityMeasures)[number];

/** One level's money by one profitabilityMeasure. */
export interface Measured {
  value: number;
  low: number | undefined;
  high: number | undefined;
  /** 1 for the best */
  rank: number;
}

/** A level with what it earns by each profitabilityMeasure; a profitabilityMeasure the records do not give is absent. */
export interface RankedLevel {
  level: string;
  dose: number | undefined;
  trays: number;
  by: Partial<Record<ProfitabilityMeasure, Measured>>;
}

/** Levels of a treatment ranked by each profitabilityMeasure. */
export interface Ranking {
  treatment: Factor;
  levels: RankedLevel[];
  /** the best level by each profitabilityMeasure that could be used */
  best: Partial<Record<ProfitabilityMeasure, string>>;
  /** share of redrawings in which all profitabilityMeasures name the same best; undefined where nothing could be redrawn */
  shareAgreeing: number | undefined;
  redrawn: { what: "cooks" | "trays"; draws: number } | undefined;
  /** cooks that lack a level and so are left out, with their trays */
  leftOut: { cooks: string[]; trays: string[] };
  /** cooks each level is averaged over; 0 where no cook holds every level */
  cooks: number;
}

/** Sums over the trays of one level in one cook. */
interface Cell {
  trays: number;
  profit: number;
  own: number;
  hours: number;
  days: number;
  dayTrays: number;
}

const emptyCell = (): Cell => ({ trays: 0, profit: 0, own: 0, hours: 0, days: 0, dayTrays: 0 });

function add(cell: Cell, { tray, profit, profitBeforeOwnTime, hours, days }: TrayMoney): void {
  cell.trays += tray.traysInPool;
  cell.profit += profit;
  cell.own += profitBeforeOwnTime;
  cell.hours += hours;
  if (days === undefined) return;
  cell.days += days;
  cell.dayTrays += tray.traysInPool;
}

/** cells of one cook, by level */
type CookCells = Map<string, Cell>;

/** figures kept of one level in one cook: weight, profit, own, hours, weight where days are known, days */
const figures = 6;

/**
 * A cook's part of the weighted means: for each level its trays' means times the weight of the whole cook, so that each
 * cook weighs the same for every level and a good cook favours none.
 */
function partOf(cells: CookCells, levels: ReadonlyArray<string>): Float64Array {
  const part = new Float64Array(levels.length * figures);
  let weight = 0;
  for (const { trays } of cells.values()) weight += trays;
  levels.forEach((level, index) => {
    const cell = cells.get(level);
    if (cell === undefined || cell.trays === 0) return;
    const perTray = weight / cell.trays;
    part.set([weight, perTray * cell.profit, perTray * cell.own, perTray * cell.hours], index * figures);
    if (cell.dayTrays > 0) part.set([weight, (weight * cell.days) / cell.dayTrays], index * figures + 4);
  });
  return part;
}

type Values = Partial<Record<ProfitabilityMeasure, number>>;

/** Adds a cook's part to the sums. */
function addPart(sums: Float64Array, parts: Float64Array, from = 0): void {
  for (let k = 0; k < sums.length; k++) sums[k]! += parts[from + k]!;
}

/** What each level leaves by each profitabilityMeasure, from the summed parts of its cooks. */
function valuesOf(sums: Float64Array): Values[] {
  return Array.from({ length: sums.length / figures }, (_, index) => {
    const [weight, profit, own, hours, dayWeight, days] = sums.subarray(index * figures, (index + 1) * figures);
    if (weight! === 0) return {};
    const perTray = profit! / weight!;
    return {
      "started tray": perTray,
      ...(days! > 0 ? { "shelf day": perTray / (days! / dayWeight!) } : {}),
      ...(hours! > 0 ? { "hour of work": own! / hours! } : {}),
    };
  });
}

const sumsOf = (records: ReadonlyArray<TrayMoney>, levelOf: (record: TrayMoney) => string): CookCells => {
  const cells: CookCells = new Map();
  for (const record of records) {
    const level = levelOf(record);
    const cell = cells.get(level) ?? emptyCell();
    cells.set(level, cell);
    add(cell, record);
  }
  return cells;
};

const mostDraws = 1000;
/** so that a book of a hundred thousand trays without cooks is still drawn in a second */
const mostTrayDraws = 4_000_000;

/** How trays are drawn anew: whole cooks where there are four or more, else trays within cook and level. */
interface Redrawing {
  what: "cooks" | "trays";
  draws: number;
  /** adds the parts drawn to the sums */
  draw(random: SeededRandom, sums: Float64Array): void;
}

function redrawing(
  parts: ReadonlyArray<Float64Array>,
  cells: ReadonlyArray<ReadonlyArray<TrayMoney[]>>,
  levels: ReadonlyArray<string>,
): Redrawing | undefined {
  if (parts.length >= 4) {
    // side by side in one column, so that drawing tens of thousands of cooks stays within the processor's memory
    const width = levels.length * figures;
    const all = new Float64Array(parts.length * width);
    parts.forEach((part, cook) => {
      all.set(part, cook * width);
    });
    return {
      what: "cooks",
      draws: mostDraws,
      draw: (random, sums) => {
        for (let cook = 0; cook < parts.length; cook++) addPart(sums, all, width * random.integer(parts.length));
      },
    };
  }
  const trays = cells.flat().reduce((sum, records) => sum + records.length, 0);
  if (!cells.flat().some((records) => records.length > 1)) return undefined;
  return {
    what: "trays",
    draws: Math.max(200, Math.min(mostDraws, Math.floor(mostTrayDraws / trays))),
    draw: (random, sums) => {
      for (const byLevel of cells) {
        const drawn: CookCells = new Map();
        byLevel.forEach((records, index) => {
          if (records.length === 0) return;
          const cell = emptyCell();
          for (let i = 0; i < records.length; i++) add(cell, records[random.integer(records.length)]!);
          drawn.set(levels[index]!, cell);
        });
        addPart(sums, partOf(drawn, levels));
      }
    },
  };
}

function bestOf(
  levels: ReadonlyArray<string>,
  values: ReadonlyArray<Values>,
): Partial<Record<ProfitabilityMeasure, string>> {
  return Object.fromEntries(
    profitabilityMeasures.flatMap((by) => {
      if (values.some((one) => one[by] === undefined)) return [];
      const top = values.reduce((best, one, index) => (one[by]! > values[best]![by]! ? index : best), 0);
      return [[by, levels[top]!]];
    }),
  );
}

/**
 * Ranks the levels of a treatment by what they leave per started tray, per day of shelf and per hour of work, over the
 * cooks that hold every level (over all trays where no cook does), with intervals by redrawing.
 * @param arms the levels to rank, each with at least one finished tray
 */
export function rankByProfitability(
  records: ReadonlyArray<TrayMoney>,
  treatment: Factor,
  arms: ReadonlyArray<Arm>,
  options: { level: number; seed: number },
): Ranking {
  const levels = arms.map(({ level }) => level);
  const wanted = new Set(levels);
  const own = records.filter(({ tray }) => wanted.has(treatment.level(tray) ?? ""));
  const byCook = new Map<string, TrayMoney[]>();
  for (const record of own) {
    const cook = record.tray.batch ?? "";
    const members = byCook.get(cook) ?? [];
    byCook.set(cook, members);
    members.push(record);
  }
  const levelOf = ({ tray }: TrayMoney): string => treatment.level(tray)!;
  const complete = [...byCook].filter(([, members]) => new Set(members.map(levelOf)).size === levels.length);
  const kept = complete.length > 0 ? complete.map(([, members]) => members) : [own];
  const cooks = kept.map((members) => sumsOf(members, levelOf));
  const parts = cooks.map((cook) => partOf(cook, levels));
  const cells = kept.map((members) => {
    const places = new Map(levels.map((level, index) => [level, index]));
    const split: TrayMoney[][] = levels.map(() => []);
    for (const record of members) split[places.get(levelOf(record))!]!.push(record);
    return split;
  });
  const emptySums = () => new Float64Array(levels.length * figures);
  const whole = emptySums();
  for (const part of parts) addPart(whole, part);
  const values = valuesOf(whole);
  const plan = redrawing(parts, cells, levels);
  const random = seededRandom(options.seed);
  const draws = Array.from({ length: plan?.draws ?? 0 }, () => {
    const sums = emptySums();
    plan!.draw(random, sums);
    return valuesOf(sums);
  });
  const agreeing = draws.filter((drawn) => new Set(Object.values(bestOf(levels, drawn))).size === 1).length;
  const holdAll = new Set(complete.map(([cook]) => cook));
  const leftOut = complete.length === 0 ? [] : [...byCook].filter(([cook]) => !holdAll.has(cook));
  return {
    treatment,
    levels: arms.map(
      ({ level, value }, index): RankedLevel => ({
        level,
        dose: value,
        trays: cooks.reduce((sum, one) => sum + (one.get(level)?.trays ?? 0), 0),
        by: Object.fromEntries(
          profitabilityMeasures.flatMap((by) => {
            const one = values[index]![by];
            if (one === undefined) return [];
            const drawn = draws.flatMap((draw) => draw[index]![by] ?? []);
            const interval =
              drawn.length < 100 ? undefined : percentileInterval(Float64Array.from(drawn), options.level);
            const rank = 1 + values.filter((other) => (other[by] ?? Number.NEGATIVE_INFINITY) > one).length;
            return [[by, { value: one, low: interval?.low, high: interval?.high, rank } satisfies Measured]];
          }),
        ),
      }),
    ),
    best: bestOf(levels, values),
    shareAgreeing: draws.length === 0 ? undefined : agreeing / draws.length,
    redrawn: plan === undefined ? undefined : { what: plan.what, draws: plan.draws },
    leftOut: {
      cooks: leftOut.map(([cook]) => cook),
      trays: leftOut.flatMap(([, members]) => members.map(({ tray }) => tray.trayId)),
    },
    cooks: complete.length,
  };
}
