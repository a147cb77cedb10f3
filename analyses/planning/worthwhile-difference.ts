import type { Sentence } from "../../src/analysis.ts";
import { type DoseMoney, gainThatPays } from "../dose/dose-money.ts";

/** The smallest difference worth finding, and why. */
export interface WorthwhileDifference {
  grams: number;
  /** "10% of a tray's yield" */
  because: Sentence;
  /** the same in a chart or table */
  label: string;
  /** the extra liquid asks for more than the settings do */
  isForLiquid: boolean;
  says: Sentence;
}

/**
 * The smallest gain worth finding between two doses: the share of a tray's yield that the settings state, or what the extra
 * liquid costs if that is more.
 * @param share of a tray's yield, 0 to 1
 * @param mean grams of a tray
 * @param money absent when the book has no prices
 */
export function worthwhileDifference(
  share: number,
  mean: number,
  money: DoseMoney | undefined,
  fromDose: number | undefined,
  toDose: number | undefined,
): WorthwhileDifference {
  const usual = share * Math.abs(mean);
  const ofYield: Sentence = [{ value: share, unit: "share" }, " of a tray's yield"];
  const pays =
    money === undefined || fromDose === undefined || toDose === undefined
      ? 0
      : gainThatPays(money, Math.min(fromDose, toDose), Math.max(fromDose, toDose));
  if (pays > usual) {
    return {
      grams: pays,
      because: ["what the extra liquid costs"],
      label: "what the extra liquid costs",
      isForLiquid: true,
      says: ["A gain below ", { value: pays, unit: "g" }, " does not pay for the extra liquid culture."],
    };
  }
  return {
    grams: usual,
    because: ofYield,
    label: `${Number((100 * share).toPrecision(3))}% of a tray's yield`,
    isForLiquid: false,
    says: [
      "Worth finding is taken as ",
      ...ofYield,
      ", ",
      { value: usual, unit: "g" },
      ...(pays > 0 ? [" (the extra liquid culture is paid for by ", { value: pays, unit: "g" } as const, ")"] : []),
      ".",
    ],
  };
}
