import { type ComparedTray, changedTray, type Decision, type Level } from "../../src/decisions/verdict/index.ts";
import { pickingsOf, type Tray } from "../../src/records/tray.ts";

/** Levels of which good trays were picked most and least often, with the mean pickings of each. */
export interface FlushesBeside {
  most: { level: Level; pickings: number };
  least: { level: Level; pickings: number };
  /** the comparison on first pickings alone; absent where some were not weighed by themselves */
  first?: Decision;
}

/** From this difference between mean pickings on, what a level gave more may be a later flush. Common practice, no source. */
const moreOften = 0.5;

/** Grams of a tray's first picking in the weight compared; a dry weight of all its pickings goes by their fresh shares. */
function firstPicking(tray: Tray, value: number): number | undefined {
  const [first, ...later] = pickingsOf(tray);
  if (first === undefined || later.length === 0) return value;
  if (first.dryGrams !== undefined && value === (tray.dryGrams ?? Number.NaN) / tray.traysInPool) {
    return first.dryGrams / tray.traysInPool;
  }
  const fresh = [first, ...later].map(({ freshGrams }) => freshGrams ?? Number.NaN);
  const share = fresh[0]! / fresh.reduce((sum, grams) => sum + grams, 0);
  return Number.isFinite(share) ? value * share : undefined;
}

/**
 * Whether some levels were picked more often than others: then what they gave more may be later flushes, which the others
 * were not kept for.
 * @param decide the comparison of the same trays with other values
 * @returns undefined where all levels were picked about equally often
 */
export function flushesBeside(
  { levels }: Decision,
  compared: ReadonlyArray<ComparedTray>,
  byRow: ReadonlyArray<Tray>,
  decide: (trays: ReadonlyArray<ComparedTray>) => Decision,
): FlushesBeside | undefined {
  const means = levels.flatMap(({ level, values }) => {
    if (values.length === 0) return [];
    const sum = values.reduce((total, { row }) => total + pickingsOf(byRow[row]!).length, 0);
    return [{ level, pickings: sum / values.length }];
  });
  const sorted = means.sort((a, b) => b.pickings - a.pickings);
  const [most, least] = [sorted[0], sorted.at(-1)];
  if (most === undefined || least === undefined || most.pickings - least.pickings < moreOften) return undefined;
  const first = compared.map((tray) => {
    if (tray.value === "lost") return tray;
    const value = firstPicking(byRow[tray.row]!, tray.value);
    return value === undefined ? undefined : changedTray(tray, { value });
  });
  const known = first.filter((tray) => tray !== undefined);
  return { most, least, ...(known.length < compared.length ? {} : { first: decide(known) }) };
}
