import { quantileType7 } from "../../src/statistics/descriptive/quantile.ts";
import { normalCdf } from "../../src/statistics/distributions/normal.ts";
import { studentTQuantile } from "../../src/statistics/distributions/student-t.ts";
import { designEffect } from "../../src/statistics/planning/design-effect.ts";
import { power } from "../../src/statistics/power.ts";
import { type KaplanMeierStep, kaplanMeier } from "../../src/statistics/time-to-event/kaplan-meier.ts";
import { type WeibullLaw, weibullLaw } from "../../src/statistics/time-to-event/weibull-law.ts";
import type { Wait } from "./wait-sample.ts";

/** fewest finished waits from which a book's own days are taken */
export const fewestDone = 3;

/** How long trays of one kind wait. */
export interface WaitCurve {
  /** waits that ended, and those that go on */
  done: number;
  waiting: number;
  /** as many trays, each of a cook of its own, would tell as much */
  effective: number;
  /** of trays that get there, the share that waits longer than this many full days; never below what this few trays can rule out */
  slow(days: number): number;
  /** the day, counted from the start, by which this share of the trays that have waited `waited` full days is there */
  dayBy(share: number, waited: number): number;
}

/**
 * Share of known waits by which the stated share of waits to come is reached: a quantile from few trays is itself uncertain,
 * so the range is widened as a t prediction interval is.
 * @source Geisser 1993, Predictive Inference, chapter 2 (from memory)
 */
const widened = (share: number, effective: number): number =>
  share === 0.5
    ? share
    : normalCdf(studentTQuantile(share, Math.max(1, effective - 1)) * Math.sqrt(1 + 1 / Math.max(2, effective)));

const exact = ({ lower, upper }: Wait): boolean => upper === lower + 1 || upper === Number.POSITIVE_INFINITY;

/** The Weibull law of the waits; undefined where it has no best fit, as when all took the same days. */
function weibullOf(waits: ReadonlyArray<Wait>): WeibullLaw | undefined {
  try {
    return weibullLaw({ lower: waits.map(({ lower }) => lower), upper: waits.map(({ upper }) => upper) });
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    return undefined;
  }
}

/** As many trays in cooks of their own as tell the same: trays of one cook are alike. */
function effectiveNumber(done: ReadonlyArray<Wait>, likeness: number): number {
  const sizes = new Map<string, number>();
  for (const { group } of done) sizes.set(group, (sizes.get(group) ?? 0) + 1);
  // the size of the cook that a tray is in, on average
  const size = [...sizes.values()].reduce((sum, one) => sum + one ** 2, 0) / done.length;
  return done.length / designEffect(size, likeness);
}

/**
 * How long trays of one kind wait: the product-limit curve where there are enough trays for the share asked for, else the
 * Weibull law fitted to them; trays that still wait count as waiting. What the curve ends at is the share that may never get
 * there (Maller and Zhou 1992, Biometrika 79(4):731-739).
 * @param likeness share of the variance that lies between cooks, 0 to 1
 * @returns undefined where fewer than three waits have ended
 */
export function waitCurve(waits: ReadonlyArray<Wait>, likeness: number): WaitCurve | undefined {
  const done = waits.filter(({ upper }) => Number.isFinite(upper));
  if (done.length < fewestDone) return undefined;
  const effective = effectiveNumber(done, likeness);
  const curve = waits.every(exact) ? productLimit(waits) : undefined;
  let fitted: { law: WeibullLaw | undefined } | undefined;
  const law = () => {
    fitted ??= { law: weibullOf(waits) };
    return fitted.law;
  };
  const soonest = done.reduce((least, { lower }) => Math.min(least, lower), Number.POSITIVE_INFINITY);
  const longest = done.reduce((most, { upper }) => Math.max(most, upper - 1), 0);
  const middle = Math.round(
    quantileType7(
      done.map(({ lower, upper }) => (lower + upper - 1) / 2).sort((a, b) => a - b),
      0.5,
    ),
  );
  const left = (days: number): number =>
    curve === undefined ? lawLeft(law(), days, longest) : stillWaiting(curve, days);
  const floor = 1 / (effective + 1);
  const never = curve === undefined ? 0 : left(longest + 1);
  const lawDay = (share: number, waited: number): number => {
    const fit = law();
    if (fit === undefined) return Math.max(waited, share < 0.5 ? soonest : share > 0.5 ? longest : middle);
    const { shape, scale } = fit;
    const time = scale * power(power(waited / scale, shape) - Math.log1p(-share), 1 / shape);
    return Math.max(waited, Math.ceil(time) - 1);
  };
  return {
    done: done.length,
    waiting: waits.length - done.length,
    effective,
    slow: (days) => Math.max(floor, (left(days) - never) / (1 - never)),
    dayBy: (share, waited) => {
      const wanted = widened(share, effective);
      const remaining = effective * left(waited);
      // the outermost of n trays bounds a share of 1 / (n + 1)
      const enough = (remaining + 1) * Math.min(share, 1 - share) >= 1 - 1e-9;
      const found = curve === undefined || !enough ? undefined : limitDay(curve, 1 - wanted, waited);
      return found ?? lawDay(wanted, waited);
    },
  };
}

const productLimit = (waits: ReadonlyArray<Wait>): KaplanMeierStep[] =>
  kaplanMeier({
    times: waits.map(({ lower, upper }) => (Number.isFinite(upper) ? upper : lower)),
    events: waits.map(({ upper }) => Number.isFinite(upper)),
  });

const stillWaiting = (curve: ReadonlyArray<KaplanMeierStep>, days: number): number =>
  curve.findLast(({ time }) => time <= days)?.survival ?? 1;

function lawLeft(fit: WeibullLaw | undefined, days: number, longest: number): number {
  if (fit === undefined) return days > longest ? 0 : 1;
  return Math.exp(-power(days / fit.scale, fit.shape));
}

/** First day after which at most this share of those that waited `waited` full days still waits; undefined where it is not reached. */
function limitDay(curve: ReadonlyArray<KaplanMeierStep>, share: number, waited: number): number | undefined {
  const before = stillWaiting(curve, waited);
  if (before === 0) return undefined;
  const later = curve.filter(({ time, events }) => time > waited && events > 0);
  const step = later.find(({ survival }) => survival / before <= share + 1e-9);
  return step === undefined ? undefined : step.time - 1;
}
