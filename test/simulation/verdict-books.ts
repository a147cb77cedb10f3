import type { ComparedTray, VerdictSettings } from "../../src/decisions/verdict/index.ts";
import { type SeededRandom, seededRandom } from "../../src/statistics/random/seeded-random.ts";

/** How the trays of one simulated book lie and grow. Weights in g dry; nothing beyond what is stated differs. */
export interface BookPlan {
  /** level of every tray of every cook, in time order */
  cooks(random: SeededRandom): (number | string)[][];
  /** what a level adds to the mean */
  effect(level: number | string): number;
  mean?: number;
  traySd?: number | ((level: number | string) => number);
  cookSd?: number;
  /** what each cook adds to each level for itself: standard deviation, cell by cell */
  cellSd?: number | ((level: number | string) => number);
  /** end-to-end difference of a cook's own line over 3 to 9 mL: standard deviation */
  slopeSd?: number;
  /** what each cook adds over the one before */
  drift?: number;
  /** chance that a tray is lost; `residual` is its weight less its mean, in standard deviations */
  loss?(level: number | string, residual: number): number;
  /** draws a residual with mean 0 and standard deviation 1; normal unless stated */
  residual?(random: SeededRandom): number;
  /** changes the sheet after the trays have grown: strikes out cooks, adds shelves */
  sheet?(trays: BookTray[], random: SeededRandom): BookTray[];
}

/** A tray with the place it was grown at, to be struck out or not. */
export type BookTray = ComparedTray & { placed: { cook: number; within: number } };

const daysBetweenCooks = 14;
const ofLevel = (value: number | ((level: number | string) => number) | undefined, level: number | string): number =>
  typeof value === "function" ? value(level) : (value ?? 0);

/** Grows a book: one seed, one book. */
export function growBook(plan: BookPlan, seed: number): ComparedTray[] {
  const random = seededRandom(seed);
  const cooks = plan.cooks(random);
  const { mean = 32, traySd = 3.5, cookSd = 3.5, drift = 0, slopeSd = 0, residual = (r) => r.normal() } = plan;
  const trays: BookTray[] = [];
  cooks.forEach((levels, cook) => {
    const base = mean + random.normal() * cookSd + drift * (cook - (cooks.length - 1) / 2);
    const slope = random.normal() * slopeSd;
    const cellEffects = new Map<number | string, number>();
    levels.forEach((level, within) => {
      let own = cellEffects.get(level);
      if (own === undefined) {
        own = random.normal() * ofLevel(plan.cellSd, level);
        cellEffects.set(level, own);
      }
      const scatter = residual(random);
      const line = typeof level === "number" ? (slope * (level - 6)) / 6 : 0;
      const value = base + plan.effect(level) + own + line + scatter * ofLevel(traySd, level);
      const lost = plan.loss !== undefined && random.uniform() < plan.loss(level, scatter);
      trays.push({
        level,
        cook: `C${cook + 1}`,
        day: cook * daysBetweenCooks,
        row: trays.length + 2,
        value: lost ? "lost" : Math.max(0.1, Math.round(value * 10) / 10),
        placed: { cook, within },
      });
    });
  });
  return (plan.sheet?.(trays, random) ?? trays).map(({ placed: _, ...tray }) => tray);
}

/** Every cook holds every level `each` times, in random order. */
export function blocked(
  cookCount: number,
  levels: ReadonlyArray<number | string>,
  each: number,
): (random: SeededRandom) => (number | string)[][] {
  return (random) =>
    Array.from({ length: cookCount }, () => random.shuffle(levels.flatMap((level) => Array(each).fill(level))));
}

/** Whole cooks of one level, `cooksEach` a level, drawn by lot. */
export function wholeCooks(
  levels: ReadonlyArray<number | string>,
  cooksEach: number,
  traysEach: number,
): (random: SeededRandom) => (number | string)[][] {
  return (random) =>
    random
      .shuffle(levels.flatMap((level) => Array(cooksEach).fill(level) as (number | string)[]))
      .map((level) => Array(traysEach).fill(level));
}

/** Whole cooks in the order given. */
export function inOrder(levels: ReadonlyArray<number | string>, traysEach: number): () => (number | string)[][] {
  return () => levels.map((level) => Array(traysEach).fill(level));
}

/** Each cook holds two of three levels, three trays of each, all pairs in turn. */
export function pairsOfThree(
  cookCount: number,
  levels: readonly [number, number, number],
  each: number,
): (random: SeededRandom) => number[][] {
  return (random) =>
    Array.from({ length: cookCount }, (_, cook) =>
      random.shuffle(levels.filter((_level, i) => i !== cook % 3).flatMap((level) => Array(each).fill(level))),
    );
}

/** Strikes out what a sheet may lack. */
export const withoutCooks = (trays: BookTray[]): BookTray[] => trays.map((tray) => ({ ...tray, cook: undefined }));
export const withoutDays = (trays: BookTray[]): BookTray[] => trays.map((tray) => ({ ...tray, day: undefined }));
export const withoutCooksOrDays = (trays: BookTray[]): BookTray[] => withoutDays(withoutCooks(trays));

/** One question asked of simulated books. */
export interface VerdictRow {
  name: string;
  plan: BookPlan;
  settings?: VerdictSettings;
  /** true difference of highest less lowest level */
  truth: number;
  /** rates of the specification in %, where it states them; "not held": what the layout hides no interval can hold */
  expected: { settled?: number; coverage?: number | "not held" };
}
