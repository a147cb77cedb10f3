import type { Sentence } from "../../src/analysis.ts";
import { decideUnordered } from "../../src/decisions/verdict/index.ts";
import { seasonFactor } from "../../src/design/factor.ts";
import type { Lot } from "../comparison/cooks-in-order.ts";
import type { ProcessMeasure } from "./process-measures.ts";

/** A difference between the means of two seasons, or of the two halves of a record. */
export interface PeriodShift {
  p: number;
  /** the cook with which the later period begins */
  lot: Lot;
  text: Sentence;
}

/** With fewer cooks in it a season has no mean worth comparing. */
const fewestInPeriod = 3;
/** Of more seasons the halves of the record are compared. */
const mostSeasons = 12;

/** The season of each cook where two seasons or more have enough cooks, else whether it lies in the first or second half. */
function periodsOf(lots: ProcessMeasure["lots"]): (string | undefined)[] {
  const seasons = lots.map(({ lot: { startedOn, trays } }) =>
    startedOn === undefined ? undefined : seasonFactor.level({ ...trays[0]!, inoculatedOn: startedOn }),
  );
  const counts = new Map<string, number>();
  for (const season of seasons) if (season !== undefined) counts.set(season, (counts.get(season) ?? 0) + 1);
  const enough = new Set([...counts].filter(([, count]) => count >= fewestInPeriod).map(([season]) => season));
  if (enough.size >= 2 && enough.size <= mostSeasons)
    return seasons.map((season) => (season !== undefined && enough.has(season) ? season : undefined));
  const half = Math.floor(lots.length / 2);
  return lots.map((_, at) => (at < half ? "the first half" : "the second half"));
}

/**
 * Whether the mean of a measure differs between seasons, or between the two halves of the record where seasons have too few
 * cooks: a drift that single cooks and moving averages, with their wide limits, do not show. One value a cook.
 * @returns undefined where fewer than two periods have cooks enough, or cooks do not differ
 */
export function periodShift({ response, lots }: ProcessMeasure): PeriodShift | undefined {
  const periods = periodsOf(lots);
  const rows = lots.flatMap(({ lot, value }, row) => {
    const level = periods[row];
    return level === undefined ? [] : [{ level, row, value, cook: lot.name, lot }];
  });
  if (rows.length < 2 * fewestInPeriod) return undefined;
  // periods are the calendar itself, so that they follow it is no objection
  const decision = decideUnordered(
    rows.map(({ lot: _, ...tray }) => tray),
    { drawnByLot: true },
  );
  if (decision.p === undefined || decision.method !== "whole-cooks") return undefined;
  const names = [...new Set(rows.map(({ level }) => level))];
  const means = names.map((name) => ({ name, mean: decision.levels.find(({ level }) => level === name)!.mean! }));
  const [first, last] = [means[0]!, means.at(-1)!];
  const [low, high] = [...means]
    .sort((a, b) => a.mean - b.mean)
    .flatMap((one, at) => (at === 0 || at === means.length - 1 ? [one] : []));
  const { unit, label } = response;
  const [from, to] = means.length === 2 ? [first, last] : [low!, high!];
  return {
    p: decision.p,
    lot: rows.find(({ level }) => level === to.name)!.lot,
    text: [
      `${label} differs between ${means.length === 2 ? "" : "seasons, most between "}${from.name} (`,
      { value: from.mean, unit },
      `) and ${to.name} (`,
      { value: to.mean, unit },
      ")",
    ],
  };
}
