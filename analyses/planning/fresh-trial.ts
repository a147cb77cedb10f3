import type { CannotTell, Sentence, Trial } from "../../src/analysis.ts";
import { counted } from "../../src/records/counted.ts";
import type { YieldWeight } from "../../src/records/yield-weight.ts";
import type { BookSpread } from "./book-spread.ts";
import { cooksToShow, type PowerInput, wantedChance } from "./trial-power.ts";
import { worthwhileDifference } from "./worthwhile-difference.ts";

/** What a fresh trial with every dose in every cook would need, for books whose own layout decides nothing. */
export function freshTrial(spread: BookSpread | undefined, doses: number, trial: Trial, weight: YieldWeight): Sentence {
  if (spread === undefined || !(spread.mean > 0)) return [];
  const places = Math.floor(trial.settings.shelfPlaces / doses);
  const traysPerDose = Math.max(1, Math.min(6, places));
  const input: Omit<PowerInput, "cooks"> = {
    spread,
    doses,
    significance: trial.settings.significanceLevel,
    traysPerDose,
  };
  const worth = worthwhileDifference(trial.settings.worthwhileShare, spread.mean);
  return [
    " With trays that vary as these do, a difference of ",
    { value: trial.settings.worthwhileShare, unit: "share" },
    ` of the ${weight} yield (`,
    { value: worth.grams, unit: "g" },
    `) would be shown by ${neededTotal(worth.grams, input)} with a chance of `,
    { value: wantedChance, unit: "share" },
    ".",
  ];
}

function neededTotal(difference: number, input: Omit<PowerInput, "cooks">): string {
  const cooks = cooksToShow(difference, input);
  return cooks === undefined
    ? "more than 400 cooks"
    : `${cooks * input.traysPerDose} trays per dose over ${counted(cooks, "cook")}`;
}

/** Trays needed for usual spreads, for a book that has none of its own. */
export function usualSpreads(doses: number, trial: Trial): CannotTell["tables"] {
  const traysPerDose = Math.max(1, Math.min(6, Math.floor(trial.settings.shelfPlaces / doses)));
  const rows = [0.15, 0.2, 0.25, 0.3].map((spread) => {
    const cells = [0.1, 0.2, 0.3].map((difference) => {
      const cooks = cooksToShow(difference, {
        spread: { traySd: spread, cookDoseSd: 0 },
        doses,
        significance: trial.settings.significanceLevel,
        traysPerDose,
      });
      return cooks === undefined ? null : cooks * traysPerDose;
    });
    return [spread, ...cells];
  });
  return [
    {
      caption: "Trays per dose for a chance of 80%, by how much trays vary and the difference to find",
      columns: [
        { label: "standard deviation over mean", unit: "share" },
        { label: "10% difference", unit: "trays" },
        { label: "20% difference", unit: "trays" },
        { label: "30% difference", unit: "trays" },
      ],
      rows,
      note: `In cooks of ${traysPerDose} trays per dose. Trays in good practice vary by 15 to 30% (common practice, no source).`,
    },
  ];
}
