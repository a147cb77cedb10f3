import type { Layout } from "../../src/design/layout.ts";
import { dayNumber } from "../../src/measures/day-number.ts";
import { kruskalWallis } from "../../src/statistics/groups/rank-tests.ts";

/** How the levels of a treatment lie over the calendar. */
export type TimeConfounding =
  /** each level had a stretch of the calendar to itself */
  | "apart"
  /** levels were never begun on one day, and some came later than a draw by lot would put them */
  | "leaning"
  | "none";

/** Share of the trays that must have a date of inoculation before anything is said. */
const datedShare = 0.8;

/** p below which the order of the levels is no longer put down to the draw. */
const notByLot = 0.05;

/**
 * Whether a treatment followed the calendar. Levels that were begun on the same days can be compared whatever the season
 * does; levels that each had weeks of their own differ by the season, by practice and by everything else that moved.
 * @source serial order as a rival explanation: Cox 1958, Planning of Experiments, section 5 (from memory); ranks of days
 *   compared between levels: Kruskal and Wallis 1952, Journal of the American Statistical Association 47(260):583-621
 */
export function timeConfounding({ arms }: Layout): TimeConfounding {
  const trays = arms.reduce((sum, arm) => sum + arm.trays.length, 0);
  const days = arms.map((arm) => arm.trays.flatMap(({ inoculatedOn }) => inoculatedOn ?? []));
  if (arms.length < 2 || days.some((own) => own.length === 0)) return "none";
  if (days.reduce((sum, own) => sum + own.length, 0) < datedShare * trays) return "none";
  const distinct = days.map((own) => [...new Set(own)].sort());
  const all = distinct.flat();
  if (new Set(all).size < all.length) return "none";
  // ISO dates sort as text
  const stretches = distinct
    .map((own) => ({ from: own[0]!, to: own.at(-1)! }))
    .sort((a, b) => (a.from < b.from ? -1 : 1));
  if (stretches.every(({ from }, index) => index === 0 || stretches[index - 1]!.to < from)) return "apart";
  return kruskalWallis(distinct.map((own) => own.map(dayNumber))).p < notByLot ? "leaning" : "none";
}
