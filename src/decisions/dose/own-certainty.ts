import type { ChosenDose } from "./choose-dose.ts";
import type { DoseDecision } from "./dose-facts.ts";
import type { CertaintyCap, DoseCertainty } from "./dose-tray.ts";

/** Fewer doses than this are never settled: a peak between them would not show. */
const dosesToSettle = 4;
const worstFirst: ReadonlyArray<DoseCertainty> = ["cannot tell", "open", "leaning", "settled"];

/**
 * How far the fit by itself lets the decision go. A best dose is settled only where another is ruled out: where all do about
 * as well nothing is best, and `hardlyMatters` says so.
 * @param maySettle false where grams bring nothing or yield goes up, down and up again
 */
export function ownCertainty(
  { risk, noDifference }: ChosenDose,
  doses: number,
  ruledOut: number,
  maySettle: boolean,
): DoseCertainty {
  if (ruledOut === 0) return "open";
  return doses >= dosesToSettle && maySettle && risk.high <= noDifference ? "settled" : "leaning";
}

/** The lowest of the fit's own certainty and the caps, with the caps that lower it. */
export function capped(
  own: DoseCertainty,
  all: ReadonlyArray<CertaintyCap>,
): { caps: CertaintyCap[]; certainty: DoseCertainty } {
  const caps = all.filter(({ atMost }) => worstFirst.indexOf(atMost) < worstFirst.indexOf(own));
  const lowest = Math.min(worstFirst.indexOf(own), ...caps.map(({ atMost }) => worstFirst.indexOf(atMost)));
  return { caps, certainty: worstFirst[lowest]! };
}

/** With two or three doses, the widest stretch in which a dose could have been tried; of equal ones the nearer to `use`. */
export function widestGap(doses: ReadonlyArray<number>, step: number, use: number): DoseDecision["gap"] {
  if (doses.length >= dosesToSettle) return undefined;
  const distance = ({ low, high }: { low: number; high: number }): number => Math.abs((low + high) / 2 - use);
  const gaps = doses
    .slice(1)
    .map((high, i) => ({ low: doses[i]!, high }))
    .filter(({ low, high }) => high - low > 1.5 * step);
  const widest = gaps.reduce((most, { low, high }) => Math.max(most, high - low), 0);
  const wide = gaps.filter(({ low, high }) => high - low > 0.999 * widest);
  return wide.length === 0 ? undefined : wide.reduce((near, gap) => (distance(gap) < distance(near) ? gap : near));
}
