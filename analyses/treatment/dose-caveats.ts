import type { Sentence } from "../../src/analysis.ts";
import type { DoseWarning } from "../../src/decisions/dose/index.ts";
import { inSentence } from "../comparison/level-text.ts";
import type { BookDose } from "./book-dose-decision.ts";
import { capNotes } from "./decision-notes.ts";
import { amountWord, doseList, dosePart } from "./dose-words.ts";

const warningTexts: Readonly<Record<Exclude<DoseWarning, "one-dose-left">, string>> = {
  "up-down-up": "Yield goes up, down and up again over what was tried: look for a mix-up.",
  "none-lost": "No tray was lost, so losses are taken as none throughout.",
  "no-days": "No dates tell how long trays stood, so shelf days cost nothing here.",
  "grams-bring-nothing": "A gram brings nothing after fees, packing and drying, so more yield pays for nothing.",
};

/** What limits the decision, and what a reader could get wrong. */
export function doseCaveats(of: BookDose): Sentence[] {
  const { decision, verdict, thing } = of;
  const { gap, warnings, leftOut, caps, priced } = decision;
  const shown = warnings.filter((one) => one !== "one-dose-left" && (priced || one === "up-down-up"));
  const limits = [...new Set(caps.map(({ because }) => capNotes[because as keyof typeof capNotes]))];
  return [
    ...(gap === undefined
      ? []
      : [
          [
            "Nothing was tried between ",
            dosePart(of, gap.low),
            " and ",
            dosePart(of, gap.high),
            "; a peak hidden there would not show.",
          ] satisfies Sentence,
        ]),
    ...((priced || decision.seen.some(({ lost }) => lost > 0)) && verdict.verdict !== "settled"
      ? [
          [
            verdict.verdict === "leaning"
              ? `That ${inSentence(thing.factor.label)} changes the yield is likely, but not settled.`
              : `That ${inSentence(thing.factor.label)} changes the yield is not shown; ${priced ? "cost and losses" : "losses"} decide.`,
          ],
        ]
      : []),
    ...(of.tied.length === 0
      ? []
      : [
          [
            ...doseList(of, of.tied),
            " came with another change only, so nothing is said of it here.",
          ] satisfies Sentence,
        ]),
    ...limits.flatMap((text): Sentence[] => (text === undefined ? [] : [[text]])),
    ...shown.map((one): Sentence => [warningTexts[one as keyof typeof warningTexts]]),
    ...(leftOut.withoutCook === 0 ? [] : [[`${leftOut.withoutCook} trays without a cook do not count.`]]),
    ...(of.noMoney === ""
      ? []
      : [[`Money is not in it: ${of.noMoney}. So the question is which ${amountWord(of)} yields most.`]]),
  ];
}
