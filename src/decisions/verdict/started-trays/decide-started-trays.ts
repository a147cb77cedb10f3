import { cellTable, levelsOf, type PlacedTray, withinCells } from "../cell-table.ts";
import { moderatedVariance } from "../compare-one-cook.ts";
import { type ComparedTray, changedTray, type FilledSettings, type VerdictSettings } from "../compared-tray.ts";
import { decideComparison, undecided } from "../decide-comparison.ts";
import { decideUnordered } from "../decide-unordered.ts";
import type { Decision, Level, StandardError } from "../decision.ts";
import { differenceOf } from "../estimate.ts";
import { fillSettings, inRowOrder } from "../fill-settings.ts";
import { atSignificance } from "../judge.ts";
import { layOutTrays } from "../lay-out-trays.ts";
import { levelFacts } from "../level-facts.ts";
import { type CountedPair, startedDifference } from "./started-difference.ts";

/** No difference of two levels is larger than this multiple of the largest tray. */
const mostOfLargest = 1.25;

/**
 * Decides what a started tray gives: the difference of good trays and that of losses put together, for the highest and the
 * lowest level. Whole cooks, and more than two names, are compared with a lost tray as 0.
 * @param trays as for {@link decideComparison}, lost ones included; the response is 0 where a tray is lost (a weight, money)
 * @param good the decision on the good ones of these trays, where it was made before, with whatever else was varied taken out
 * @returns a decision whose difference is per started tray; its interval never exceeds what trays can give, and a lost tray is
 *   a value of 0 in its levels
 * @throws RangeError as {@link decideComparison}
 * @source Zou and Donner 2008, Statistics in Medicine 27:1693-1702 (two intervals put together, the two means held fixed);
 *   Newcombe 1998, Statistics in Medicine 17:873-890; the allowance for losses that cluster in cooks is the project's own
 * @example decideStartedTrays(comparedTrays).verdict // "open"
 */
export function decideStartedTrays(
  trays: ReadonlyArray<ComparedTray>,
  settings: VerdictSettings = {},
  good?: Decision,
): Decision {
  const filled = fillSettings(settings);
  const rows = inRowOrder(trays);
  const withZeros = rows.map((tray) => (tray.value === "lost" ? changedTray(tray, { value: 0 }) : tray));
  const most = mostOfLargest * withZeros.reduce((largest, tray) => Math.max(largest, Math.abs(weightOf(tray))), 0);
  const levels = new Set(rows.map(({ level }) => level));
  const named = rows.some(({ level }) => typeof level === "string");
  if (named && levels.size > 2) return clipped(decideUnordered(withZeros, settings), most);
  const laid = layOutTrays(withZeros, { ordered: true, drawnByLot: filled.drawnByLot });
  if (laid.method !== "inside-cooks" && laid.method !== "one-cook") {
    return clipped(decideComparison(withZeros, settings), most);
  }
  const lostRows = new Set(rows.filter(({ value }) => value === "lost").map(({ row }) => row));
  const placed = laid.trays.map(
    ({ tray, group }): PlacedTray => ({
      tray: lostRows.has(tray.row) ? changedTray(tray, { value: "lost" }) : tray,
      group,
    }),
  );
  const { otherInside } = laid;
  const all = levelsOf(placed);
  const [from, to] = [all[0]!, all.at(-1)!];
  const low = meanOf(placed, from);
  const high = meanOf(placed, to);
  const ofGood = good ?? decideComparison(rows, settings);
  const sameLevels = ofGood.difference?.from === from && ofGood.difference.to === to;
  const oneLevelLost = (low === undefined) !== (high === undefined);
  if (!sameLevels && !oneLevelLost) {
    return clipped(decideComparison(withZeros, settings), most);
  }
  const parts = startedDifference({
    counts: counts(placed, from, to, ({ group }) => group),
    strata: otherInside && counts(placed, from, to, (tray) => JSON.stringify([tray.group, otherInside(tray)])),
    means: { low, high },
    good: sameLevels ? ofGood.errors?.supposed : errorOfMean(placed, low === undefined ? to : from, filled),
    estimate: sameLevels ? ofGood.difference!.estimate : undefined,
  });
  const base = undecided({ ...laid, trays: placed }, true, filled);
  const mean = withZeros.reduce((sum, tray) => sum + weightOf(tray), 0) / withZeros.length;
  const difference = differenceOf(parts, from, to, filled.gainSd(mean));
  const bounds = parts.boundsAt(0.05);
  return clipped(
    atSignificance(
      {
        ...base,
        caps: laid.caps,
        levels: levelFacts(laid.trays),
        ...(laid.method === "inside-cooks" ? { p: parts.p } : {}),
        difference: laid.interval ? { ...difference, interval: bounds } : { ...difference, interval: undefined },
        // what is supposed of gains says nothing of losses: an interval that leaves out 0 leans whatever the gain
        chance: Math.max(difference.chance, 1 - difference.chance, parts.p < filled.significance ? 1 - parts.p / 2 : 0),
        settleable: laid.method === "inside-cooks",
      },
      filled.significance,
    ),
    most,
  );
}

/** What a tray weighed; a lost one nothing. */
const weightOf = ({ value }: ComparedTray): number => (value === "lost" ? 0 : value);

function clipped(decision: Decision, most: number): Decision {
  const interval = decision.difference?.interval;
  if (interval === undefined || Math.max(Math.abs(interval.lower), Math.abs(interval.upper)) <= most) return decision;
  const clip = (value: number): number => Math.max(-most, Math.min(most, value));
  return {
    ...decision,
    difference: { ...decision.difference!, interval: { lower: clip(interval.lower), upper: clip(interval.upper) } },
    // its parts would give the interval back unclipped
    errors: undefined,
  };
}

/** Mean of the good trays of a level; undefined without one. */
function meanOf(trays: ReadonlyArray<PlacedTray>, level: unknown): number | undefined {
  let sum = 0;
  let count = 0;
  for (const { tray } of trays) {
    if (tray.level !== level || tray.value === "lost") continue;
    sum += tray.value * (tray.pooled ?? 1);
    count += tray.pooled ?? 1;
  }
  return count === 0 ? undefined : sum / count;
}

/** Error of the mean of a level's good trays over cooks; of one cook over its trays. */
function errorOfMean(placed: ReadonlyArray<PlacedTray>, level: Level, settings: FilledSettings): StandardError {
  const { cells, mean } = cellTable(placed.filter(({ tray }) => tray.level === level));
  const own = cells.filter(({ count }) => count > 0);
  if (own.length === 1) {
    const { squares, degreesOfFreedom } = withinCells(own);
    const moderated = moderatedVariance(squares, degreesOfFreedom, mean, settings);
    const standardError = Math.sqrt(moderated.variance / own[0]!.count);
    return { standardError, degreesOfFreedom: moderated.degreesOfFreedom };
  }
  const middle = own.reduce((sum, cell) => sum + cell.mean / own.length, 0);
  const squares = own.reduce((sum, cell) => sum + (cell.mean - middle) ** 2, 0);
  return { standardError: Math.sqrt(squares / (own.length - 1) / own.length), degreesOfFreedom: own.length - 1 };
}

/** Good and started trays of two levels in each group, or each part of one. */
function counts(
  trays: ReadonlyArray<PlacedTray>,
  from: unknown,
  to: unknown,
  partOf: (tray: PlacedTray) => unknown,
): CountedPair[] {
  const parts = new Map<unknown, CountedPair>();
  for (const placed of trays) {
    const { tray } = placed;
    if (tray.level !== from && tray.level !== to) continue;
    const part = partOf(placed);
    const own = parts.get(part) ?? { low: { good: 0, started: 0 }, high: { good: 0, started: 0 } };
    parts.set(part, own);
    const counts = tray.level === from ? own.low : own.high;
    counts.started += tray.pooled ?? 1;
    if (tray.value !== "lost") counts.good += tray.pooled ?? 1;
  }
  return [...parts.values()];
}
