import { type SeededRandom, seededRandom } from "../random/seeded-random.ts";
import { requireSameLength } from "../require-numbers.ts";

/** Rows that an event (a loss) happened to or did not, and the group each belongs to. */
export interface ClusteringInput {
  /** whether the event happened to each row */
  event: ReadonlyArray<boolean>;
  /** level of the grouping, one per row */
  group: ReadonlyArray<string>;
  /** events are permuted within these only; absent: over all rows */
  strata?: ReadonlyArray<string>;
  /** rows that are permuted together, all of one group, as what they share (a cook) may have struck them all; absent: each alone */
  blocks?: ReadonlyArray<string>;
  /** of the random draws */
  seed: number;
}

/** One group with its events. */
export interface GroupEvents {
  level: string;
  events: number;
  rows: number;
  /** events it would have on average if they fell on rows at random */
  expected: number;
  /** share of random deals in which some group has as many events above its expected number; allows for looking at all groups */
  p: number;
}

/** Whether events sit together in groups. */
export interface Clustering {
  /** chance that events dealt at random sit together at least as much, over all groups or in the one with most above its expected number */
  p: number;
  draws: number;
  /** groups that could differ, the one furthest above its expected number first */
  groups: GroupEvents[];
}

/** Work done per test: draws times trays permuted and groups summed. */
const work = 4e6;
const [fewestDraws, mostDraws] = [399, 3999];
/** Draws as extreme from which a large book's p is clearly no small one. */
const clearly = 50;

/** Numbers for labels, from 0 in the order met. */
function coded(labels: ReadonlyArray<string>): { codes: Int32Array; names: string[] } {
  const numbers = new Map<string, number>();
  const codes = new Int32Array(labels.length);
  labels.forEach((label, row) => {
    if (!numbers.has(label)) numbers.set(label, numbers.size);
    codes[row] = numbers.get(label)!;
  });
  return { codes, names: [...numbers.keys()] };
}

/** One stratum as it is dealt: the groups of its rows, or of its blocks, and how many of them are picked. */
interface Stratum {
  groups: Int32Array;
  picks: number;
  /** what a pick counts. Of rows: 1 for one with the event, or -1 for one without it, taken off a stratum full of events */
  counts: 1 | -1 | Float64Array;
}

/** Events of each group as observed and as expected, by the group's number. */
interface GroupSums {
  observed: Float64Array;
  sizes: Float64Array;
  expected: Float64Array;
  variance: Float64Array;
  /**
   * events of each group before any are dealt: all of a stratum's rows where those without the event are dealt instead, the
   * expected ones where blocks are dealt, which count by what they have more
   */
  base: Float64Array;
  dealt: Stratum[];
}

/** Counts the rows of one stratum into the sums. */
function addStratum(
  sums: GroupSums,
  own: ReadonlyArray<number>,
  codes: Int32Array,
  event: ReadonlyArray<boolean>,
  blocks: Int32Array | undefined,
): void {
  const total = own.length;
  let events = 0;
  const counts = new Map<number, number>();
  for (const row of own) {
    const code = codes[row]!;
    counts.set(code, (counts.get(code) ?? 0) + 1);
    sums.sizes[code]!++;
    if (event[row]) {
      events++;
      sums.observed[code]!++;
    }
  }
  const dealOthers = events * 2 > total;
  const spread = total > 1 ? (events * (total - events)) / (total * total * (total - 1)) : 0;
  for (const [code, count] of counts) {
    sums.expected[code]! += (count * events) / total;
    sums.variance[code]! += count * (total - count) * spread;
    if (blocks !== undefined) sums.base[code]! += (count * events) / total;
    else if (dealOthers) sums.base[code]! += count;
  }
  if (events === 0 || events === total) return;
  if (blocks !== undefined) {
    sums.dealt.push(dealtBlocks(own, codes, event, blocks, events / total));
    return;
  }
  sums.dealt.push({
    groups: Int32Array.from(own, (row) => codes[row]!),
    picks: dealOthers ? total - events : events,
    counts: dealOthers ? -1 : 1,
  });
}

/** Every block of a stratum with its group and with the events it has more than its rows would have on average. */
function dealtBlocks(
  own: ReadonlyArray<number>,
  codes: Int32Array,
  event: ReadonlyArray<boolean>,
  blocks: Int32Array,
  share: number,
): Stratum {
  const found = new Map<number, { group: number; more: number }>();
  for (const row of own) {
    const block = found.get(blocks[row]!) ?? { group: codes[row]!, more: 0 };
    found.set(blocks[row]!, block);
    if (block.group !== codes[row]) throw new RangeError("permuteClustering: the rows of a block must have one group");
    block.more += Number(event[row]) - share;
  }
  const every = [...found.values()];
  return {
    groups: Int32Array.from(every, ({ group }) => group),
    picks: every.length,
    counts: Float64Array.from(every, ({ more }) => more),
  };
}

/** Deals each stratum's picks at random and counts them to their groups. */
function deal(strata: ReadonlyArray<Stratum>, counts: Float64Array, random: SeededRandom): void {
  for (const { groups, picks, counts: each } of strata) {
    for (let pick = 0; pick < picks; pick++) {
      const other = pick + random.integer(groups.length - pick);
      const code = groups[other]!;
      groups[other] = groups[pick]!;
      groups[pick] = code;
      counts[code]! += typeof each === "number" ? each : each[pick]!;
    }
  }
}

/** Sum of the groups' squares, and the largest of a group above its expected number. */
function squaresOf(counts: Float64Array, free: Int32Array, { expected, variance }: GroupSums) {
  let sum = 0;
  let highest = 0;
  for (const code of free) {
    const away = counts[code]! - expected[code]!;
    const square = (away * away) / variance[code]!;
    sum += square;
    if (away > 0 && square > highest) highest = square;
  }
  return { sum, highest };
}

/** Draws whose largest square is at least this one; `largest` in rising order. */
function drawsFrom(largest: Float64Array, square: number): number {
  let [low, high] = [0, largest.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (largest[middle]! < square * (1 - 1e-9)) low = middle + 1;
    else high = middle;
  }
  return largest.length - low;
}

function sumsOf({
  event,
  group,
  strata = event.map(() => ""),
  blocks,
}: ClusteringInput): GroupSums & { names: string[] } {
  requireSameLength("permuteClustering", "event", event, "group", group);
  requireSameLength("permuteClustering", "event", event, "strata", strata);
  requireSameLength("permuteClustering", "event", event, "blocks", blocks ?? event);
  const { codes, names } = coded(group);
  const stratum = coded(strata);
  const members: number[][] = stratum.names.map(() => []);
  for (let i = 0; i < codes.length; i++) members[stratum.codes[i]!]!.push(i);
  const zeros = () => new Float64Array(names.length);
  const sums = { observed: zeros(), sizes: zeros(), expected: zeros(), variance: zeros(), base: zeros(), dealt: [] };
  const together = blocks && coded(blocks).codes;
  for (const own of members) addStratum(sums, own, codes, event, together);
  return { ...sums, names };
}

/**
 * Permutation test that events (losses) sit together in groups (jars, loads, cooks) more than if they had fallen on rows at random.
 * Two statistics: the sum over groups of (events - expected)² / variance, with the hypergeometric mean and variance of the
 * events in a group, which sees many groups that differ; and the largest of them above its expected number, which sees one
 * bad group among many. Their distribution comes from dealing the events again at random, within strata where given, in whole
 * blocks where given (each by what it has more than its rows have on average); p is
 * twice the smaller of the two. Each group's own p compares it with the worst group of each deal. Where there are too many rows
 * for all draws, dealing ends once fifty draws were as extreme by either statistic: p is then above .025 by far more than its
 * error.
 * @returns undefined when no group could differ: one group, no event or nothing but events in every stratum, groups that are whole strata
 * @throws RangeError if the columns differ in length, or a block has rows of two groups
 * @source permutation over groups: Fisher 1935, The Design of Experiments (from memory); hypergeometric moments: Cochran
 *   1954, Biometrics 10(4):417-451; whole blocks as the units: Anderson and ter Braak 2003, Journal of
 *   Statistical Computation and Simulation 73(2):85-113 (from memory); largest statistic of each deal: Westfall and Young 1993, Resampling-Based Multiple
 *   Testing, Wiley, 66-67; ending early: Besag and Clifford 1991, Biometrika 78(2):301-304 (from memory)
 * @example permuteClustering({ event: [true, true, false, false], group: ["a", "a", "b", "b"], seed: 1 })?.groups[0]?.expected // 1
 */
export function permuteClustering(input: ClusteringInput): Clustering | undefined {
  const sums = sumsOf(input);
  const { observed, sizes, expected, variance, base, dealt, names } = sums;
  const free = Int32Array.from(names, (_, code) => code).filter((code) => variance[code]! > 0);
  if (free.length < 2) return undefined;
  const seen = squaresOf(observed, free, sums);
  const picks = dealt.reduce((sum, one) => sum + one.picks, 0);
  const most = Math.max(fewestDraws, Math.min(mostDraws, Math.floor(work / (picks + names.length))));
  const enough = most < mostDraws ? clearly : mostDraws;
  const random = seededRandom(input.seed);
  const counts = new Float64Array(names.length);
  const highests: number[] = [];
  let [together, worst] = [0, 0];
  while (highests.length < most && Math.min(together, worst) < enough) {
    counts.set(base);
    deal(dealt, counts, random);
    const { sum, highest } = squaresOf(counts, free, sums);
    if (sum >= seen.sum * (1 - 1e-9)) together++;
    if (highest >= seen.highest * (1 - 1e-9)) worst++;
    highests.push(highest);
  }
  const draws = highests.length;
  const largest = Float64Array.from(highests).sort();
  const squareOf = (code: number): number => {
    const away = observed[code]! - expected[code]!;
    return away > 0 ? (away * away) / variance[code]! : 0;
  };
  const chanceOf = (square: number) => (square === 0 ? 1 : (drawsFrom(largest, square) + 1) / (draws + 1));
  return {
    p: Math.min(1, (2 * (Math.min(together, worst) + 1)) / (draws + 1)),
    draws,
    groups: [...free]
      .sort((a, b) => squareOf(b) - squareOf(a) || sizes[b]! - sizes[a]!)
      .map((code) => ({
        level: names[code]!,
        events: observed[code]!,
        rows: sizes[code]!,
        expected: expected[code]!,
        p: chanceOf(squareOf(code)),
      })),
  };
}
