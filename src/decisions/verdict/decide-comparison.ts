import { cellTable, levelsOf, meanOfGood, mostLevels, type PlacedTray, withinCells } from "./cell-table.ts";
import { type ComparedLevels, compareInsideCooks, fewCooks } from "./compare-inside-cooks.ts";
import { compareOneCook } from "./compare-one-cook.ts";
import { besideOrder, compareWholeCooks, leastOfCooks } from "./compare-whole-cooks.ts";
import type { ComparedTray, FilledSettings, VerdictSettings } from "./compared-tray.ts";
import type { CookValues } from "./cook-values.ts";
import type { Cap, Decision, Level, LevelFacts, Pair } from "./decision.ts";
import { differenceOf, type Estimate, errorOf, intervalOf, pOf } from "./estimate.ts";
import { fillSettings, inRowOrder } from "./fill-settings.ts";
import { atSignificance, leaningFrom, type Undecided } from "./judge.ts";
import { type LaidOut, layOutTrays } from "./lay-out-trays.ts";
import { levelFacts, lossesAt, lossTrend } from "./level-facts.ts";
import { unitsAsTrays } from "./merge-by-unit.ts";
import { tableBesideOther } from "./other-factor.ts";

/** What a layout found out; a cap where it found out that it can say nothing. */
export type Found = (Partial<ComparedLevels> & { shown: Estimate }) | { cannot: Cap["reason"] };

/**
 * Decides whether ordered levels (doses of anything) change a response: the one place that does.
 * @param trays of one response, in any order; trays that still grow are not among them. Two levels may be names
 * @returns facts alone; the verdict is "settled" only where the chance of it being wrong is held at the significance level
 * @throws RangeError if a level is a name while there are more than two, a number is not finite, or a setting is out of range
 * @source the project's own rules (the parts name theirs); error rates, power and coverage in test/simulation
 * @example
 * const trays = [30, 33, 36, 35, 39, 37].map((value, i) => ({ level: i < 3 ? 3 : 9, row: i + 2, cook: "1", value }));
 * decideComparison(trays).difference?.chance // 0.7611...
 */
export function decideComparison(trays: ReadonlyArray<ComparedTray>, settings: VerdictSettings = {}): Decision {
  const filled = fillSettings(settings);
  const rows = inRowOrder(trays);
  const names = new Set(rows.map(({ level }) => level));
  if (names.size > 2 && rows.some(({ level }) => typeof level === "string")) {
    throw new RangeError(
      "decideComparison: names as levels are compared by decideUnordered where there are more than two",
    );
  }
  const laid = layOutTrays(rows, { ordered: true, drawnByLot: filled.drawnByLot });
  const found = laid.method === "means-only" ? undefined : compareOrdered(laid, filled);
  return decideOrdered(laid, found, filled);
}

/** Trays with a weight, and their levels. */
export function goodTrays(trays: ReadonlyArray<PlacedTray>): { good: PlacedTray[]; levels: Level[] } {
  const good = trays.filter(({ tray }) => tray.value !== "lost");
  return { good, levels: levelsOf(good) };
}

function compareOrdered(laid: LaidOut, settings: FilledSettings): Found {
  const { good, levels } = goodTrays(laid.trays);
  const { otherInside, cooks } = laid;
  if (laid.method === "inside-cooks") {
    return compareInsideCooks(
      otherInside === undefined ? cellTable(good) : tableBesideOther(good, otherInside),
      settings,
    );
  }
  if (cooks !== undefined) {
    const least = leastOfCooks(good, settings);
    const found = besideOrder(laid.withOrder, (order) => compareWholeCooks(cooks, order, least));
    return found ?? { cannot: tooFewCooks(cooks) };
  }
  const shown = compareOneCook(unitsAsTrays(good), levels, meanOfGood(good), settings, otherInside, laid.mayBeCooks);
  return shown === undefined ? { cannot: "tied-to-the-other-factor" } : { shown };
}

/** Why whole cooks cannot be compared after all. */
export function tooFewCooks({ other }: CookValues): Cap["reason"] {
  return other !== undefined && new Set(other).size > 1 ? "tied-to-the-other-factor" : "one-cook-per-level";
}

/** What is said whatever was found. */
export function undecided(laid: LaidOut, ordered: boolean, settings: FilledSettings): Undecided {
  const table = cellTable(laid.trays);
  const losses = lossTrend(table, ordered);
  // a level of which all were lost is not among those compared: it flatters none of them
  const { levels: compared } = goodTrays(laid.trays);
  const among =
    compared.length === table.levels.length
      ? losses
      : lossTrend(cellTable(laid.trays.filter(({ tray }) => compared.includes(tray.level))), ordered);
  const { squares, degreesOfFreedom } = withinCells(table.cells);
  return {
    caps: [
      ...laid.caps,
      ...(among !== undefined && among.pOneByOne < lossesAt && laid.method !== "means-only"
        ? [{ at: "leaning", reason: "losses-follow-level" } as const]
        : []),
    ],
    method: laid.method,
    grouping: laid.grouping,
    cooks: table.groupCount,
    insideShare: laid.insideShare,
    levels: levelFacts(laid.trays),
    leftOut: laid.leftOut,
    ...(laid.withinUnits === undefined ? {} : { withinUnits: laid.withinUnits }),
    holdsForOneReading: settings.reading === "unknown",
    pairs: [],
    pairsInOrder: false,
    ...(losses === undefined ? {} : { losses }),
    ...(degreesOfFreedom === 0 ? {} : { traySpread: { variance: squares / degreesOfFreedom, degreesOfFreedom } }),
    settleable: false,
  };
}

/** Puts what was found about ordered levels into a decision. */
function decideOrdered(laid: LaidOut, found: Found | undefined, settings: FilledSettings): Decision {
  const base = undecided(laid, true, settings);
  if (found === undefined || "cannot" in found) return cannotTell(base, found?.cannot, settings);
  const { good, levels } = goodTrays(laid.trays);
  const mean = meanOfGood(good);
  const from = levels[0]!;
  const to = levels.at(-1)!;
  const difference = differenceOf(found.shown, from, to, settings.gainSd(mean));
  const chance = Math.max(difference.chance, 1 - difference.chance);
  const cooks = found.cooks ?? 1;
  if (!laid.interval) delete difference.interval;
  return atSignificance(
    {
      ...base,
      cooks,
      levels: found.adjusted === undefined ? base.levels : withAdjusted(base.levels, levels, found.adjusted),
      ...(found.p === undefined ? {} : { p: found.p }),
      ...(found.pTrend === undefined ? {} : { pTrend: found.pTrend }),
      ...(found.pAny === undefined ? {} : { pAny: found.pAny }),
      difference,
      chance,
      pairs: found.pair === undefined ? [] : orderedPairs(levels, found.pair),
      pairsInOrder: levels.length > 3,
      ...(laid.interval
        ? { errors: { settled: errorOf(found.settled ?? found.shown), supposed: errorOf(found.shown), miss: 0.05 } }
        : {}),
      settleable: found.p !== undefined && (cooks > fewCooks || chance >= leaningFrom),
    },
    settings.significance,
  );
}

/** Level facts with their adjusted means. */
export function withAdjusted(
  facts: ReadonlyArray<LevelFacts>,
  levels: ReadonlyArray<Level>,
  adjusted: ReadonlyArray<number>,
): LevelFacts[] {
  const means = new Map(levels.map((level, i) => [level, adjusted[i]!]));
  return facts.map((own) => (means.has(own.level) ? { ...own, adjusted: means.get(own.level)! } : own));
}

/** A decision that gives means only. */
export function cannotTell(base: Undecided, reason: Cap["reason"] | undefined, settings: FilledSettings): Decision {
  const caps = reason === undefined ? base.caps : [...base.caps, { at: "cannot-tell", reason } as const];
  return atSignificance({ ...base, caps, method: "means-only" }, settings.significance);
}

/** All pairs of three levels; of more, the highest and then each lower one less the lowest. */
function orderedPairs(
  levels: ReadonlyArray<Level>,
  estimateOf: (from: number, to: number) => Estimate,
): Omit<Pair, "settled">[] {
  const last = levels.length - 1;
  if (last < 2 || levels.length > mostLevels) return [];
  const positions: [number, number][] =
    last === 2
      ? [
          [0, 2],
          [0, 1],
          [1, 2],
        ]
      : Array.from({ length: last }, (_, i) => [0, last - i]);
  return positions.map(([from, to]) => {
    const estimate = estimateOf(from, to);
    return { from: levels[from]!, to: levels[to]!, ...estimate, interval: intervalOf(estimate), p: pOf(estimate) };
  });
}
