import type { Sentence } from "../../src/analysis.ts";

/** The smallest difference worth finding, and why. */
export interface WorthwhileDifference {
  grams: number;
  /** "10% of a tray's yield" */
  because: Sentence;
}

/**
 * The smallest gain worth finding between two doses: the share of a tray's yield that the settings state.
 * @param share of a tray's yield, 0 to 1
 * @param mean grams of a tray
 */
export function worthwhileDifference(share: number, mean: number): WorthwhileDifference {
  return {
    grams: share * Math.abs(mean),
    because: [{ value: share, unit: "share" }, " of a tray's yield"],
  };
}
