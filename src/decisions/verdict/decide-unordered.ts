import { chanceOfBest } from "../../statistics/comparisons/chance-of-best.ts";
import { holmAdjustment } from "../../statistics/comparisons/p-value-adjustments.ts";
import { studentizedRangeUpperTail } from "../../statistics/distributions/studentized-range.ts";
import { cellTable, meanOfGood } from "./cell-table.ts";
import { type ComparedNames, compareNamesInOneCook, compareNamesInside, compareNamesOfCooks } from "./compare-names.ts";
import { besideOrder, leastOfCooks } from "./compare-whole-cooks.ts";
import { type ComparedTray, changedTray, type FilledSettings, type VerdictSettings } from "./compared-tray.ts";
import { pairWeights } from "./cook-table.ts";
import { cannotTell, decideComparison, goodTrays, tooFewCooks, undecided, withAdjusted } from "./decide-comparison.ts";
import type { Decision, Difference, Level, Pair } from "./decision.ts";
import { differenceOf, type Estimate, errorOf, intervalOf, pOf } from "./estimate.ts";
import { fillSettings, inRowOrder } from "./fill-settings.ts";
import { atSignificance, leaningFrom } from "./judge.ts";
import { type LaidOut, layOutTrays } from "./lay-out-trays.ts";
import { unitsAsTrays } from "./merge-by-unit.ts";
import { tableBesideOther, trayTableBesideOther } from "./other-factor.ts";

/**
 * Decides whether unordered levels (strains, recipes, containers) change a response, which is the best, and by how much.
 * Two levels are decided as `decideComparison` does: the second name by code point, or the one that is not the usual,
 * less the other.
 * @param trays of one response, in any order; levels are names, numbers count as names
 * @throws RangeError as `decideComparison`
 * @source the project's own rules (the parts name theirs); error rates, power and bias in test/simulation
 * @example
 * const trays = [30, 33, 36, 35, 39, 37, 31, 30, 34].map((value, i) => ({ level: "ABC"[Math.floor(i / 3)]!, row: i, cook: "1", value }));
 * decideUnordered(trays).best?.[0]?.chance // 0.728...
 */
export function decideUnordered(trays: ReadonlyArray<ComparedTray>, settings: VerdictSettings = {}): Decision {
  const filled = fillSettings(settings);
  const usual = settings.usual === undefined ? undefined : String(settings.usual);
  const named = inRowOrder(trays).map((tray) =>
    typeof tray.level === "string" ? tray : changedTray(tray, { level: String(tray.level) }),
  );
  const names = [...new Set(named.map(({ level }) => String(level)))];
  if (names.length === 2) return decideTwoNames(named, names, usual, settings);
  const laid = layOutTrays(named, { ordered: false, drawnByLot: filled.drawnByLot });
  const base = undecided(laid, false, filled);
  if (laid.method === "means-only") return cannotTell(base, undefined, filled);
  const { levels } = goodTrays(laid.trays);
  if (levels.length === 2) {
    const kept = new Set<Level>(levels);
    const two = decideUnordered(
      named.filter(({ level }) => kept.has(level)),
      settings,
    );
    const rows = new Set(named.filter(({ level }) => !kept.has(level)).map(({ row }) => row));
    return {
      ...two,
      levels: [...two.levels, ...base.levels.filter(({ level }) => !kept.has(level))],
      leftOut: [...two.leftOut, ...laid.leftOut.filter(({ row }) => rows.has(row))],
    };
  }
  const found = compareNames(laid, filled);
  if (found === undefined) {
    return cannotTell(base, laid.cooks === undefined ? "tied-to-the-other-factor" : tooFewCooks(laid.cooks), filled);
  }
  return decideNames(laid, found, { ...filled, usual });
}

/** From this p of all levels on no significance level in use would tell pairs. */
const pairsBelow = 0.1;

/** Two names: the usual one, or the first by code point, stands for 0 and the other for 1. */
function decideTwoNames(
  trays: ReadonlyArray<ComparedTray>,
  names: ReadonlyArray<string>,
  usual: string | undefined,
  settings: VerdictSettings,
): Decision {
  const sorted = [...names].sort((a, b) => (a < b ? -1 : 1));
  const [from, to] = usual === sorted[1] ? [sorted[1]!, sorted[0]!] : [sorted[0]!, sorted[1]!];
  const nameOf = (level: Level): Level => (level === 0 ? from : to);
  const decision = decideComparison(
    trays.map((tray) => changedTray(tray, { level: tray.level === from ? 0 : 1 })),
    settings,
  );
  const { difference } = decision;
  const chances = difference === undefined ? undefined : chancesOfTwo(difference.chance, settings.better ?? "higher");
  return {
    ...decision,
    levels: decision.levels.map((facts) => ({ ...facts, level: nameOf(facts.level) })),
    ...(difference === undefined || chances === undefined
      ? {}
      : {
          difference: { ...difference, from, to },
          ...ranked([from, to], chances),
        }),
  };
}

function chancesOfTwo(chance: number, better: "higher" | "lower"): number[] {
  return better === "higher" ? [1 - chance, chance] : [chance, 1 - chance];
}

function compareNames(laid: LaidOut, settings: FilledSettings): ComparedNames | undefined {
  const { good } = goodTrays(laid.trays);
  const { otherInside, cooks } = laid;
  if (laid.method === "inside-cooks") {
    return compareNamesInside(
      otherInside === undefined ? cellTable(good) : tableBesideOther(good, otherInside),
      settings,
    );
  }
  if (cooks !== undefined) {
    const least = leastOfCooks(good, settings);
    return besideOrder(laid.withOrder, (order) => compareNamesOfCooks(cooks, order, least));
  }
  const units = unitsAsTrays(good);
  if (otherInside === undefined) return compareNamesInOneCook(cellTable(units), settings, 0, laid.mayBeCooks);
  const { table, takenOut } = trayTableBesideOther(units, otherInside);
  return compareNamesInOneCook(table, settings, takenOut, laid.mayBeCooks);
}

/** Levels by their chance of being best, and the fewest that hold 85 % of it. */
function ranked(
  levels: ReadonlyArray<Level>,
  chances: ReadonlyArray<number>,
): { best: { level: Level; chance: number }[]; running: Level[] } {
  const best = levels
    .map((level, i) => ({ level, chance: chances[i]! }))
    .sort((a, b) => b.chance - a.chance || levels.indexOf(a.level) - levels.indexOf(b.level));
  let sum = 0;
  const running: Level[] = [];
  for (const { level, chance } of best) {
    if (sum >= leaningFrom) break;
    running.push(level);
    sum += chance;
  }
  return { best, running };
}

/** Puts what was found about unordered levels into a decision. */
function decideNames(laid: LaidOut, found: ComparedNames, settings: FilledSettings): Decision {
  const base = undecided(laid, false, settings);
  const { good, levels } = goodTrays(laid.trays);
  const gainSd = settings.gainSd(meanOfGood(good));
  const sign = settings.better === "higher" ? 1 : -1;
  const chances = chancesOfBest(found, gainSd, sign);
  const order = levels.map((_, i) => i).sort((a, b) => sign * (found.adjusted[b]! - found.adjusted[a]!) || a - b);
  const usual = levels.indexOf(settings.usual ?? "");
  const { difference, settled } = headline(levels, found, order, usual, gainSd);
  if (!laid.interval) delete difference.interval;
  const { best, running } = ranked(levels, chances);
  const supposed = { standardError: difference.standardError, degreesOfFreedom: difference.degreesOfFreedom };
  return atSignificance(
    {
      ...base,
      cooks: found.cooks,
      levels: withAdjusted(base.levels, levels, found.adjusted),
      ...(found.p === undefined ? {} : { p: found.p, pAny: found.p }),
      difference,
      chance: best[0]!.chance,
      pairs: found.p === undefined || found.p >= pairsBelow ? [] : namedPairs(levels, found, order[0]!, usual),
      best,
      running,
      ...(laid.interval ? { errors: { settled: errorOf(settled), supposed, miss: missOf(levels.length, usual) } } : {}),
      settleable: found.p !== undefined,
    },
    settings.significance,
  );
}

/**
 * Chance of each level to be the best, each drawn towards the mean of all.
 * @source normal means with a normal prior, common t scale: Box and Tiao 1973, section 2.4 (from memory)
 */
function chancesOfBest(found: ComparedNames, gainSd: number, sign: number): number[] {
  const mean = found.adjusted.reduce((sum, value) => sum + value, 0) / found.adjusted.length;
  // a difference of two levels varies with gainSd, so each level with half its variance
  const prior = gainSd ** 2 / 2;
  const shrinkages = found.variances.map((variance) => (variance === 0 ? 1 : prior / (prior + variance)));
  return chanceOfBest(
    found.adjusted.map((value, i) => sign * shrinkages[i]! * (value - mean)),
    found.variances.map((variance, i) => Math.sqrt(shrinkages[i]! * variance)),
    found.degreesOfFreedom,
  );
}

/** Best less usual, or best less the mean of the others; drawn in by how much levels differ at all. */
function headline(
  levels: ReadonlyArray<Level>,
  found: ComparedNames,
  order: ReadonlyArray<number>,
  usual: number,
  gainSd: number,
): { difference: Difference; settled: Estimate } {
  // where the usual is itself the best, the next best stands against it
  const top = order[0] === usual ? order[1]! : order[0]!;
  const weights =
    usual >= 0
      ? pairWeights(levels.length, usual, top)
      : levels.map((_, i) => (i === top ? 1 : -1 / (levels.length - 1)));
  const { settled, shown } = found.contrast(weights);
  const shrinkage = Math.max(0, 1 - 1 / Math.max(found.f, 1e-300));
  const whole = differenceOf(shown, usual >= 0 ? levels[usual] : undefined, levels[top]!, gainSd);
  return { difference: { ...whole, shrinkage, shrunken: shrinkage * shown.estimate }, settled };
}

/**
 * How often the interval of the headline may miss: the best of more than three names is chosen for its luck, and allowing for
 * that the interval holds the truth in 95 % or more again.
 * @source the project's own simulation: without the allowance 91 % of 6 names and 84 % of 12 where nothing differs
 */
function missOf(levelCount: number, usual: number): number {
  return usual >= 0 ? 0.05 : 0.05 * Math.min(1, 3 / levelCount);
}

/** Pairs of the top level, or of the usual one where one is named. */
function namedPairs(
  levels: ReadonlyArray<Level>,
  found: ComparedNames,
  top: number,
  usual: number,
): Omit<Pair, "settled">[] {
  const others = levels.map((_, i) => i).filter((i) => i !== (usual >= 0 ? usual : top));
  const estimates = others.map((other) => {
    const [from, to] = usual >= 0 ? [usual, other] : [other, top];
    return { from, to, estimate: found.contrast(pairWeights(levels.length, from, to)).settled };
  });
  const raw = estimates.map(({ estimate }) => pOf(estimate));
  const holm = usual >= 0 ? holmAdjustment(raw) : undefined;
  return estimates.map(({ from, to, estimate }, i) => ({
    from: levels[from]!,
    to: levels[to]!,
    ...estimate,
    interval: intervalOf(estimate),
    p: holm?.[i] ?? (levels.length > 3 ? tukeyOf(estimate, levels.length) : raw[i]!),
  }));
}

function tukeyOf({ estimate, standardError, degreesOfFreedom }: Estimate, levelCount: number): number {
  if (estimate === 0) return 1;
  if (standardError === 0) return 0;
  return studentizedRangeUpperTail((Math.abs(estimate) / standardError) * Math.SQRT2, levelCount, degreesOfFreedom);
}
