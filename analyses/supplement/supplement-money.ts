import type { CannotTell } from "../../src/costing/cannot-tell.ts";
import type { SupplementCost } from "../costs/supplement-costs.ts";

/** A yield gained, in grams per started tray. */
export interface YieldGain {
  value: number;
  low: number;
  high: number;
}

/** What a dearer supplement brings, and where it stops paying. */
export interface DearerPays {
  /** money more per started tray */
  extra: { value: number; low: number; high: number };
  /** net price of a gram below which it stops paying: from low to high, high infinite where the data set no upper end */
  stopsBelow: { kind: "price"; value: number; low: number; high: number } | CannotTell;
  /** the most its supplement may cost per kg, where grams are known */
  mostPerKg: { value: number; low: number; high: number } | undefined;
}

/**
 * Weighs a gain in yield against dearer supplement.
 * @param gain grams per started tray, dearer less cheaper; @param netPerGram what a gram leaves, money, above 0
 * @returns money per started tray and the prices at which it is 0. The net price at which it stops is the extra cost over
 *   the gain: a ratio with an exact numerator, so Fieller's set is the extra cost over the ends of the gain's interval,
 *   without an upper end where the gain may be 0
 * @throws RangeError if the dearer one does not cost more
 * @source Fieller 1954, Journal of the Royal Statistical Society B 16(2):175-185, numerator without error
 */
export function dearerPays(
  gain: YieldGain,
  dearer: SupplementCost,
  cheaper: SupplementCost,
  netPerGram: number,
): DearerPays {
  const extraCost = dearer.perTray - cheaper.perTray;
  if (!(extraCost > 0)) throw new RangeError(`dearerPays: the dearer must cost more; received ${extraCost} more`);
  const over = (ofGain: (grams: number) => number) => ({
    value: ofGain(gain.value),
    low: ofGain(gain.low),
    high: ofGain(gain.high),
  });
  const { grams } = dearer;
  return {
    extra: over((more) => more * netPerGram - extraCost),
    stopsBelow:
      gain.value > 0
        ? {
            kind: "price",
            value: extraCost / gain.value,
            low: extraCost / gain.high,
            high: gain.low > 0 ? extraCost / gain.low : Number.POSITIVE_INFINITY,
          }
        : { kind: "cannot-tell", reason: "it gave no more, so it pays at no price" },
    mostPerKg:
      grams === undefined || !(grams > 0)
        ? undefined
        : over((more) => (Math.max(0, cheaper.perTray + more * netPerGram) / grams) * 1000),
  };
}
