import { fewCooks, gainDiffers, supposedDf, trayVariance } from "./compare-inside-cooks.ts";
import type { VerdictSettings } from "./compared-tray.ts";
import type { Decision, StandardError } from "./decision.ts";
import { couldHaveShown } from "./estimate.ts";
import { fillSettings } from "./fill-settings.ts";

/**
 * The difference that a book could show four times in five once more cooks like those it has are in: of `difference` in the
 * decision, in the same sense as its `couldHaveShown`. What is expected, not a promise.
 * @param moreCooks a whole number of 1 or more
 * @param settings those of the decision
 * @returns undefined where nothing is compared yet
 * @throws RangeError if `moreCooks` is not a whole number of 1 or more
 * @source standard errors fall with the root of the number of cooks; a first cook's successors are supposed to differ in their
 *   gains as the interval of few cooks supposes
 * @example couldShowAfter(decideComparison(comparedTrays), 1) // 2.3638...
 */
export function couldShowAfter(
  decision: Decision,
  moreCooks: number,
  settings: VerdictSettings = {},
): number | undefined {
  if (!Number.isInteger(moreCooks) || moreCooks < 1) {
    throw new RangeError(`couldShowAfter: moreCooks must be a whole number of 1 or more; received ${moreCooks}`);
  }
  const { errors, method, cooks } = decision;
  if (errors === undefined || method === "means-only") return undefined;
  const later = cooks + moreCooks;
  const few = later <= fewCooks ? supposedDf : 0;
  if (method === "one-cook") {
    const { standardError, degreesOfFreedom } = afterOneCook(decision, later, settings);
    return couldHaveShown({ standardError, degreesOfFreedom: degreesOfFreedom + few });
  }
  const { settled, supposed } = errors;
  const growing = method === "whole-cooks" ? moreCooks : (settled.degreesOfFreedom * moreCooks) / (cooks - 1);
  const standardError = supposed.standardError * Math.sqrt(cooks / later);
  // a further cook adds one degree at least, also where those before it left none
  return couldHaveShown({ ...supposed, standardError }, settled.degreesOfFreedom + Math.max(moreCooks, growing) + few);
}

/** One cook says nothing of how gains differ between cooks: that is supposed. */
function afterOneCook(
  { levels, difference, traySpread }: Decision,
  later: number,
  settings: VerdictSettings,
): StandardError {
  const filled = fillSettings(settings);
  const good = levels.filter(({ mean }) => mean !== undefined);
  const count = good.reduce((sum, { started, lost }) => sum + started - lost, 0);
  const mean = good.reduce((sum, own) => sum + (own.mean! * (own.started - own.lost)) / count, 0);
  const within = { squares: 0, degreesOfFreedom: 0 };
  if (traySpread !== undefined) {
    within.degreesOfFreedom = traySpread.degreesOfFreedom;
    within.squares = traySpread.variance * traySpread.degreesOfFreedom;
  }
  const variance = difference!.standardError ** 2 + 2 * gainDiffers * trayVariance(within, mean, filled);
  return { standardError: Math.sqrt(variance / later), degreesOfFreedom: later - 1 };
}
