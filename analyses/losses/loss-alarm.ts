import { dayNumber } from "../../src/measures/day-number.ts";
import type { Settings } from "../../src/records/setting.ts";
import { isLost, type Tray } from "../../src/records/tray.ts";
import { betaBinomialUpperTails } from "../../src/statistics/distributions/beta-binomial.ts";
import { cooksInOrder, type Lot } from "../comparison/cooks-in-order.ts";
import { lossGroupings } from "./loss-groupings.ts";

/** Trays that share something, against what is usual in the book. */
export interface WatchedGroup {
  /** "cook", or "culture jar and cooker load" where both sort the trays alike */
  name: string;
  /** canonical columns behind it; none for the latest cooks together */
  keys: ReadonlyArray<string>;
  level: string;
  /** the cook that brought it up */
  cook: string;
  lost: ReadonlyArray<Tray>;
  trays: number;
  /** lost where losses are as usual */
  expected: number;
  /** chance of as many or more where losses are as usual */
  chance: number;
  /** how often a year a grower whose losses are as usual sees anything as unlikely */
  timesAYear: number;
}

/** What the latest cooks say beside what is usual. */
export interface LossAlarm {
  /** the least likely of all groups of the latest cooks; undefined where none of their trays is lost */
  worst: WatchedGroup | undefined;
  /** whether a steady grower would see it no more than once a year */
  heard: boolean;
  /** the lots in order, with the losses from which each is an alarm; absent where even all its trays lost are none */
  lots: { name: string; lost: number; trays: number; alarmFrom?: number }[];
  lotName: string;
  dated: boolean;
}

/** An alarm that a steady grower hears more often a year than this is none. */
const oftenestFalse = 1;
/** cooks a year of a book that has no dates. Common practice, no source. */
const supposedCooksAYear = 24;
/** cooks that are watched: losses of a cook become known over weeks. Common practice, no source. */
const watched = 4;
/** cooks over which a place, a person or an age of culture is watched. Common practice, no source. */
const reach = 6;
/** checks are counted over at most so many cooks, for speed; a year of a small grower has fewer */
const mostCounted = 60;
/** a cook as unlikely as this beside all others is left out of what is usual (of 100 steady ones, one) */
const setAside = 0.01;

/** a group whose losses are as likely as this beside its worst cook has nothing of its own: it is that cook */
const ofOneCook = 0.05;

/** Trays on which a cook is judged, and what was usual before it. */
interface Check {
  name: string;
  keys: ReadonlyArray<string>;
  level: string;
  lot: number;
  members: ReadonlyArray<number>;
  expected: number;
  /** chance of k or more lost, by k */
  tails: ReadonlyArray<number>;
}

interface LotSums {
  lost: number;
  trays: number;
  /** whether what is usual is reckoned from it */
  usual: boolean;
}

const tailsOf = (size: number, lost: number, trays: number): number[] =>
  betaBinomialUpperTails(size, lost + 0.5, trays - lost + 0.5);

/** Lost and started trays of each lot, and whether it is finished and not itself out of the usual. */
function sumsOf(lots: ReadonlyArray<Lot>): LotSums[] {
  const sums = lots.map(({ trays }) => ({
    lost: trays.filter(isLost).length,
    trays: trays.length,
    ended: trays.every(({ outcome }) => outcome !== "growing"),
  }));
  const [lost, trays] = sums
    .filter(({ ended }) => ended)
    .reduce(([a, b], one) => [a + one.lost, b + one.trays], [0, 0]);
  return sums.map(({ ended, ...one }) => {
    if (!ended) return { ...one, usual: false };
    return { ...one, usual: tailsOf(one.trays, lost! - one.lost, trays! - one.trays)[one.lost]! > setAside };
  });
}

class Watch {
  private readonly lotOf: Int32Array;
  private readonly sums: ReadonlyArray<LotSums>;
  /** what is usual, from the lots before each */
  private readonly before: { lost: number; trays: number }[] = [];
  /** trays of each lot, by their number */
  private readonly indices: number[][];
  private readonly groupings: ReturnType<typeof lossGroupings>;

  constructor(
    private readonly trays: ReadonlyArray<Tray>,
    readonly lots: ReadonlyArray<Lot>,
    settings: Readonly<Settings>,
  ) {
    const numbers = new Map(lots.flatMap((lot, index) => lot.trays.map((tray) => [tray, index] as const)));
    this.lotOf = Int32Array.from(trays, (tray) => numbers.get(tray)!);
    this.sums = sumsOf(lots);
    let usual = { lost: 0, trays: 0 };
    for (const one of this.sums) {
      this.before.push(usual);
      if (one.usual) usual = { lost: usual.lost + one.lost, trays: usual.trays + one.trays };
    }
    this.indices = lots.map(() => []);
    this.lotOf.forEach((lot, tray) => {
      this.indices[lot]!.push(tray);
    });
    // a dose is chosen, not met with: the question about dose judges it
    this.groupings = lossGroupings(trays, settings).filter(({ keys }) => keys.some((key) => key !== "inoculum_ml"));
  }

  /** What was usual before a lot, without these trays. */
  private usualBefore(lot: number, without: ReadonlyArray<number>): { lost: number; trays: number } {
    let { lost, trays } = this.before[lot]!;
    for (const tray of without) {
      const own = this.lotOf[tray]!;
      if (own >= lot || !this.sums[own]!.usual) continue;
      trays--;
      if (isLost(this.trays[tray]!)) lost--;
    }
    return { lost, trays };
  }

  private check(lot: number, group: Pick<Check, "name" | "keys" | "level">, members: number[]): Check {
    const { lost, trays } = this.usualBefore(lot, members);
    const expected = (members.length * (lost + 0.5)) / (trays + 1);
    return { ...group, lot, members, expected, tails: tailsOf(members.length, lost, trays) };
  }

  /** Every group of a lot's trays, each with the trays that share it in the cooks up to this one. */
  of(lot: number): Check[] {
    const { indices } = this;
    const from = Math.max(0, lot - reach + 1);
    const near = indices.slice(from, lot + 1).flat();
    const checks = this.groupings.flatMap(({ name, keys, levels }) => {
      const groups = new Map<string, number[]>();
      for (const tray of indices[lot]!) if (levels[tray] !== undefined) groups.set(levels[tray], []);
      for (const tray of near) groups.get(levels[tray] ?? "")?.push(tray);
      return [...groups]
        .filter(([, members]) => members.length > 1)
        .map(([level, members]) => this.check(lot, { name, keys, level }, members));
    });
    const latest = indices.slice(Math.max(0, lot - watched + 1), lot + 1);
    if (latest.length < watched) return checks;
    const first = lot - watched + 1;
    const together = { name: "latest cooks", keys: [], level: `the last ${watched} together` };
    return [...checks, { ...this.check(first, together, latest.flat()), lot }];
  }

  /** Whether losses of trays from several cooks are those of one of them: beside it the others lost no more than is usual. */
  isOfOneCook({ lot, members }: Check): boolean {
    const lostIn = new Map<number, number>();
    for (const tray of members) {
      const own = this.lotOf[tray]!;
      lostIn.set(own, (lostIn.get(own) ?? 0) + Number(isLost(this.trays[tray]!)));
    }
    if (lostIn.size < 2) return false;
    const [worst] = [...lostIn].reduce((a, b) => (b[1] > a[1] ? b : a));
    const others = members.filter((tray) => this.lotOf[tray] !== worst);
    const { lost, trays } = this.usualBefore(lot, members);
    const lostThere = others.filter((tray) => isLost(this.trays[tray]!)).length;
    return tailsOf(others.length, lost, trays)[lostThere]! > ofOneCook;
  }

  lostOf({ members }: Check): Tray[] {
    return members.flatMap((tray) => (isLost(this.trays[tray]!) ? [this.trays[tray]!] : []));
  }

  /** The losses from which a lot alone is at most so likely; undefined where even all its trays lost are not. */
  lossesFor(chance: number, lot: number): number | undefined {
    const { lost, trays } = this.before[lot]!;
    const from = tailsOf(this.lots[lot]!.trays.length, lost, trays).findIndex((tail) => tail <= chance * (1 + 1e-9));
    return from < 0 ? undefined : from;
  }
}

/** Lots of the last year (sixty at most), and how many such stretches are in a year. */
function yearOf(lots: ReadonlyArray<Lot>, dated: boolean): { first: number; stretches: number } {
  const dayOf = ({ startedOn }: Lot) => dayNumber(startedOn!);
  const recent = Math.max(0, lots.length - mostCounted);
  if (!dated || lots.length < 2) return { first: recent, stretches: supposedCooksAYear / (lots.length - recent) };
  const end = dayOf(lots.at(-1)!);
  const first = Math.max(
    recent,
    lots.findIndex((lot) => end - dayOf(lot) < 365),
  );
  const counted = lots.length - first;
  // from the first to the last lot and one gap more
  const span = counted < 2 ? 365 : ((end - dayOf(lots[first]!)) * counted) / (counted - 1);
  return { first, stretches: Math.min(365 / Math.max(span, 1), 365) };
}

/**
 * How often a year a grower whose losses are as usual sees something of at most this chance: the sum, over all checks of a
 * year, of the chance that each comes out so. No independence is needed, and what counts cannot do is not counted.
 */
function falseAYear(chance: number, checks: ReadonlyArray<Check>, stretches: number): number {
  let sum = 0;
  for (const { tails } of checks) sum += tails.find((tail) => tail <= chance * (1 + 1e-9)) ?? 0;
  return sum * stretches;
}

/** The largest chance that a steady grower meets no more than once a year; 0 where there is none. */
function alarmChance(checks: ReadonlyArray<Check>, stretches: number): number {
  const every = [...new Set(checks.flatMap(({ tails }) => tails))].sort((a, b) => a - b);
  let [low, high] = [0, every.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (falseAYear(every[middle]!, checks, stretches) <= oftenestFalse) low = middle + 1;
    else high = middle;
  }
  return every[low - 1] ?? 0;
}

/**
 * Whether the latest cooks, or a jar, load, place, person or age of culture in them, lose more trays than is usual in the
 * book: the chance of as many, from the finished cooks before (a predictive chart), with a limit at which a grower whose
 * losses are as usual hears one false alarm a year over everything that is watched. What several cooks share is not named for
 * the losses of one of them. Losses of a cook that still grows count as soon as they are known: more can only be added.
 * @param trays those recorded one by one and not asked about are used
 * @returns undefined where there is no cook, nor a day of inoculation
 * @source predictive chart: Bourazas, Kiagias and Tsiamyrtzis 2022, Journal of Quality Technology 54(4):367-391; expected
 *   number of false alarms of discrete checks: Tarone 1990, Biometrics 46(2):515-522 (from memory)
 */
export function lossAlarm(trays: ReadonlyArray<Tray>, settings: Readonly<Settings>): LossAlarm | undefined {
  const single = trays.filter(({ traysInPool, outcome }) => traysInPool === 1 && outcome !== "asked");
  const { lots, lotName, dated, without } = cooksInOrder(single);
  if (lots.length === 0) return undefined;
  const left = new Set(without);
  const watch = new Watch(
    single.filter((tray) => !left.has(tray)),
    lots,
    settings,
  );
  const { first, stretches } = yearOf(lots, dated);
  const checks = lots.flatMap((_, lot) => (lot < first ? [] : watch.of(lot)));
  const found = checks
    .filter(({ lot }) => lot >= lots.length - watched)
    .map((check) => ({ check, lost: watch.lostOf(check) }))
    .filter(({ check, lost }) => lost.length > 0 && !watch.isOfOneCook(check))
    .map(({ check: { name, keys, level, lot, members, expected, tails }, lost }) => {
      const chance = tails[lost.length]!;
      return { name, keys, level, cook: lots[lot]!.name, lost, trays: members.length, expected, chance };
    })
    // of two as unlikely the smaller group says more exactly where to look
    .sort((a, b) => a.chance - b.chance || a.trays - b.trays);
  const [least] = found;
  const worst = least === undefined ? undefined : { ...least, timesAYear: falseAYear(least.chance, checks, stretches) };
  const limit = alarmChance(checks, stretches);
  return {
    worst,
    heard: worst !== undefined && worst.timesAYear <= oftenestFalse,
    lots: lots.map(({ name, trays: own }, lot) => {
      const alarmFrom = watch.lossesFor(limit, lot);
      const lost = own.filter(isLost).length;
      return { name, lost, trays: own.length, ...(alarmFrom === undefined ? {} : { alarmFrom }) };
    }),
    lotName,
    dated,
  };
}
