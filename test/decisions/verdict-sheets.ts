import type { ComparedTray, Decision } from "../../src/decisions/verdict/index.ts";
import { seededRandom } from "../../src/statistics/random/seeded-random.ts";

/** Trays of cooks given as lists of levels; weights scatter around 32 + level, the same draws in every call. */
export function trays(
  cooks: (number | string)[][],
  change: (tray: ComparedTray) => ComparedTray = (tray) => tray,
): ComparedTray[] {
  const random = seededRandom(11);
  let row = 1;
  return cooks.flatMap((levels, cook) =>
    levels.map((level) => {
      row++;
      const value = 32 + (typeof level === "number" ? level : 0) + cook + random.normal();
      return change({ level, cook: `C${cook + 1}`, day: cook * 14, row, value });
    }),
  );
}
/** Codes of everything that caps a verdict. */
export const reasons = ({ caps }: Decision): string[] => caps.map(({ reason }) => reason);
/** Doses 3, 6, 9 side by side in every cook. */
export const side = (cooks: number, each = 2): number[][] =>
  Array.from({ length: cooks }, () => [3, 6, 9].flatMap((dose) => Array(each).fill(dose) as number[]));
/** Cooks of six trays of one dose each. */
export const whole = (...doses: number[]): number[][] => doses.map((dose) => Array(6).fill(dose) as number[]);
