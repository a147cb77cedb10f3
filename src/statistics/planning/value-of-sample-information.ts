import { normalDensity, normalUpperTail } from "../distributions/normal.ts";

/** What is known of the money one dose earns over another, per tray. */
export interface KnownDifference {
  /** expected */
  mean: number;
  /** standard deviation of what it may truly be */
  sd: number;
}

/**
 * What a trial is worth before it is done: how much more a tray earns on average when the better of two doses is chosen
 * after the trial instead of now.
 * @param known money per tray, before the trial
 * @param trialError standard error of the difference that the trial will measure, money per tray
 * @returns money per tray, 0 or more
 * @throws RangeError if an amount is not finite or a standard deviation is negative
 * @source expected value of sample information for a normal difference: Raiffa and Schlaifer 1961, Applied Statistical
 *   Decision Theory, Harvard Business School, chapter 5
 * @example valueOfSampleInformation({ mean: 0, sd: 1 }, 0) // 0.3989...
 */
export function valueOfSampleInformation({ mean, sd }: KnownDifference, trialError: number): number {
  if (!Number.isFinite(mean) || !(sd >= 0) || !Number.isFinite(sd) || !(trialError >= 0)) {
    throw new RangeError(
      `valueOfSampleInformation: mean and sd must be finite and sd and trialError 0 or more; received ${mean}, ${sd}, ${trialError}`,
    );
  }
  if (sd === 0 || trialError === Number.POSITIVE_INFINITY) return 0;
  // standard deviation of the mean after the trial, as seen before it
  const moves = sd ** 2 / Math.hypot(sd, trialError);
  const z = Math.abs(mean) / moves;
  return moves * (normalDensity(z) - z * normalUpperTail(z));
}
