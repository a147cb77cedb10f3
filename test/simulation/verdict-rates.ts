import { type ComparedTray, type Decision, decideComparison } from "../../src/decisions/verdict/index.ts";
import { pooledDifference } from "./pooled-difference.ts";
import { growBook, type VerdictRow } from "./verdict-books.ts";

/** What was reported of a row's books, as shares. */
export interface VerdictRates {
  books: number;
  settled: number;
  leaning: number;
  cannotTell: number;
  /** intervals that hold the true difference, of those given */
  coverage: number;
  /** mean width of the intervals, g */
  width: number;
  /** reported leaning or settled towards the wrong side, of those reported so; nothing reported gives 0 */
  wrongWay: number;
  /** settled by a t test of all trays of the highest against the lowest dose at 5 % */
  naive: number;
}

/** t test of highest against lowest level at 5 %, as if trays were alone in the world. */
export function naiveSettles(trays: ReadonlyArray<ComparedTray>): boolean {
  const levels = [...new Set(trays.map(({ level }) => level))].sort((a, b) => Number(a) - Number(b));
  const valuesOf = (wanted: unknown): number[] =>
    trays.flatMap(({ level, value }) => (level === wanted && value !== "lost" ? [value] : []));
  const [low, high] = [valuesOf(levels[0]), valuesOf(levels.at(-1))];
  return low.length > 1 && high.length > 1 && pooledDifference(high, low).p < 0.05;
}

/** Asks every book of a row; seeds follow `firstSeed`. */
export function verdictRates(
  row: VerdictRow,
  books: number,
  firstSeed = 1,
  decide: (trays: ComparedTray[]) => Decision = (trays) => decideComparison(trays, row.settings),
): VerdictRates {
  const counts = {
    settled: 0,
    leaning: 0,
    cannotTell: 0,
    naive: 0,
    intervals: 0,
    held: 0,
    width: 0,
    reported: 0,
    wrong: 0,
  };
  for (let book = 0; book < books; book++) {
    const trays = growBook(row.plan, firstSeed + book);
    const decision = decide(trays);
    counts.settled += decision.verdict === "settled" ? 1 : 0;
    counts.leaning += decision.verdict === "leaning" ? 1 : 0;
    counts.cannotTell += decision.verdict === "cannot-tell" ? 1 : 0;
    counts.naive += naiveSettles(trays) ? 1 : 0;
    const interval = decision.difference?.interval;
    if (interval !== undefined) {
      counts.intervals++;
      counts.held += interval.lower <= row.truth && row.truth <= interval.upper ? 1 : 0;
      counts.width += interval.upper - interval.lower;
    }
    if (decision.verdict === "settled" || decision.verdict === "leaning") {
      counts.reported++;
      counts.wrong += decision.difference!.estimate * row.truth < 0 ? 1 : 0;
    }
  }
  return {
    books,
    settled: counts.settled / books,
    leaning: counts.leaning / books,
    cannotTell: counts.cannotTell / books,
    naive: counts.naive / books,
    coverage: counts.held / Math.max(1, counts.intervals),
    width: counts.width / Math.max(1, counts.intervals),
    wrongWay: counts.wrong / Math.max(1, counts.reported),
  };
}

const percent = (share: number): string => `${(100 * share).toFixed(1)} %`;
const standardError = (share: number, books: number): number => Math.sqrt((share * (1 - share)) / books);

/** False settled may be 5 %, or the specification's own rate where it states more. */
const falseAtMost = 0.05;
/** Power is at least this share of the specification's. */
const powerShare = 0.9;
const coverageAtLeast = 0.93;

/** Where a row's rates miss what is asked of them, beyond some standard errors of the counted rate. */
export function verdictMisses(row: VerdictRow, rates: VerdictRates, errors: number): string[] {
  const expected = (row.expected.settled ?? 0) / 100;
  const isGain = row.plan.effect(9) !== 0 || row.plan.effect(6) !== 0;
  const misses: string[] = [];
  if (isGain) {
    const least = powerShare * expected;
    if (rates.settled < least - errors * standardError(least, rates.books)) {
      misses.push(`power ${percent(rates.settled)}, asked ${percent(least)}`);
    }
  } else {
    const most = expected === 0 ? 0 : Math.max(falseAtMost, expected);
    if (rates.settled > most + errors * standardError(most, rates.books)) {
      misses.push(`false settled ${percent(rates.settled)}, at most ${percent(most)}`);
    }
  }
  return row.expected.coverage === "not held" ? misses : [...misses, ...coverageHeld(row, rates, errors)];
}

/** Where a row's intervals hold the truth too seldom. */
export function coverageHeld(row: VerdictRow, rates: VerdictRates, errors: number): string[] {
  if (rates.width === 0 || row.expected.coverage === "not held") return [];
  const least = Math.min(coverageAtLeast, (row.expected.coverage ?? 95) / 100);
  return rates.coverage < least - errors * standardError(least, rates.books)
    ? [`coverage ${percent(rates.coverage)}, asked ${percent(least)}`]
    : [];
}

/** Names of counted shares that may not exceed what is stated; of all others that may not fall short of it. */
const atMost = new Set(["settled", "wrong pair", "one leader", "leaning the wrong way", "any false", "refused"]);

/** The same of a row that counts in its own way. */
export function countedMisses(
  row: { expected: Record<string, number>; gain: boolean },
  counted: Record<string, number>,
  books: number,
  errors: number,
): string[] {
  return Object.entries(row.expected).flatMap(([name, stated]) => {
    const share = counted[name]!;
    const most = atMost.has(name) && !(name === "settled" && row.gain);
    const limit = most
      ? stated === 0
        ? 0
        : Math.max(falseAtMost, stated / 100)
      : name === "covers"
        ? Math.min(coverageAtLeast, stated / 100)
        : (powerShare * stated) / 100;
    const room = errors * standardError(limit, books);
    const missed = most ? share > limit + room : share < limit - room;
    return missed ? [`${name} ${percent(share)}, ${most ? "at most" : "at least"} ${percent(limit)}`] : [];
  });
}
