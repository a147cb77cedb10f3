import type { Sentence } from "../../src/analysis.ts";
import { type DoseMoney, gainThatPays } from "./dose-money.ts";

/** The smallest difference worth finding, and why. */
export interface WorthwhileDifference {
  grams: number;
  /** "10 % of a tray's yield" */
  because: string;
  says: Sentence;
}

/** Share of the yield below which a trial on a few shelves is rarely worth its trays. Common practice, no source. */
export const usualShare = 0.1;

/**
 * The smallest gain worth finding between two doses: a tenth of a tray's yield, or what the extra liquid costs if that
 * is more.
 * @param mean grams of a tray
 * @param money absent when the book has no prices
 */
export function worthwhileDifference(
  mean: number,
  money: DoseMoney | undefined,
  fromDose: number | undefined,
  toDose: number | undefined,
): WorthwhileDifference {
  const usual = usualShare * Math.abs(mean);
  const pays =
    money === undefined || fromDose === undefined || toDose === undefined
      ? 0
      : gainThatPays(money, Math.min(fromDose, toDose), Math.max(fromDose, toDose));
  if (pays > usual) {
    return {
      grams: pays,
      because: "what the extra liquid costs",
      says: ["A gain below ", { value: pays, unit: "g" }, " does not pay for the extra liquid culture."],
    };
  }
  return {
    grams: usual,
    because: "10 % of a tray's yield",
    says: [
      "Worth finding is taken as 10 % of a tray's yield, ",
      { value: usual, unit: "g" },
      ...(pays > 0 ? [" (the extra liquid culture is paid for by ", { value: pays, unit: "g" } as const, ")"] : []),
      ".",
    ],
  };
}
