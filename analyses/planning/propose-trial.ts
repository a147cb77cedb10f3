import type { Sentence, Trial } from "../../src/analysis.ts";
import { doseFactor, fruitingFactor } from "../../src/design/factor.ts";
import { inSentence } from "../comparison/level-text.ts";
import { thingsOf } from "../treatment/treatment-decision.ts";
import { traysPerLoadOf } from "../treatment/year-of-trays.ts";
import { chosenSize, judgedSizes, type Known, knownOf, placesACook, possibleSizes } from "./judged-sizes.ts";
import { type ProposedDoses, proposeDoses } from "./propose-doses.ts";
import { againstOf, showsSays, sizeSays, worthSays } from "./trial-says.ts";
import { sizesWithin } from "./trial-sizes.ts";
import type { TrialWishes } from "./trial-wishes.ts";
import { worthwhileDifference } from "./worthwhile-difference.ts";

/** A trial worth doing next. */
export interface TrialProposal {
  kind: "proposal";
  doses: number[];
  traysPerDose: number;
  cooks: number;
  traysPerLoad: number;
  /** in reading order: doses, size, what it will show, money */
  says: Sentence[];
  /** why it is better not to run it; absent where it is worth running */
  against?: Sentence;
}

/** Doses to look at, the fullest trial first: as asked for, or as proposed, or the one new dose beside the dose to use. */
function dosesToWeigh({ dose, steps, tried }: Known, { doses }: TrialWishes, places: number): ProposedDoses[] {
  if (doses !== undefined) return [{ doses: [...new Set(doses)].sort((a, b) => a - b), why: "as asked for" }];
  const worthTrying = steps.filter(({ worth }) => worth).map(({ step }) => step.dose);
  const use = dose?.decision.use.dose;
  const { low, high } = dose?.decision.notRuledOut ?? { low: 0, high: 0 };
  const full = proposeDoses(tried, use === undefined ? undefined : { use, low, high, worthTrying }, places);
  if (full === undefined) return [];
  const [fresh] = worthTrying;
  if (use === undefined || fresh === undefined) return [full];
  const pair = {
    doses: [use, fresh].sort((a, b) => a - b),
    why: "the dose to use, and the one most worth trying beside it",
  };
  return [full, pair];
}

/** Why nothing is proposed: a budget that cannot be counted; unasked for, too, all trays lost, or another thing compared at one dose. */
function nothingToPlan(
  trial: Trial,
  { allLost, tried, costPerTray }: Known,
  { layout, doses, mostMoney }: TrialWishes,
) {
  if (mostMoney !== undefined && costPerTray === undefined) {
    return {
      reason: "what a tray costs is not known, so a budget in money cannot be kept to",
      remedy: 'Give it in trays, such as --budget "18 trays"',
    };
  }
  if (doses !== undefined) return undefined;
  if (allLost) {
    return {
      reason: "every finished tray was lost",
      remedy: "Find out why before the next cook: first the cook, the culture and the inoculation",
    };
  }
  const [main] = thingsOf(trial);
  if (main === undefined || main.factor === doseFactor || tried.length > 1 || layout === "split") return undefined;
  const what = inSentence(main.factor.label);
  return {
    reason: `the book compares ${what}, and a plan lays out doses of culture`,
    remedy: `Grow its levels side by side in every cook, drawn by lot tray by tray; the report says how many more cooks tell. ${
      main.factor === fruitingFactor
        ? "Where there are two chambers, --layout split swaps the temperatures between them"
        : "For doses all the same, name them, such as --doses 3,6,9"
    }`,
  };
}

/** What is said where the least number of trays of a trial is more than the budget. */
function beyondBudget(trays: number, { mostMoney }: TrialWishes, { costPerTray = 0 }: Known) {
  const enough = mostMoney === undefined ? `"${trays} trays"` : Math.ceil(trays * costPerTray);
  return {
    reason: `the smallest trial of these doses takes ${trays} trays, which is beyond the budget`,
    remedy: `Give --budget ${enough} or more, or fewer doses with --doses`,
  };
}

/**
 * Proposes doses, trays per dose and cooks for the next trial: by what a better choice of the dose is worth against what the
 * trial takes where the book decides about the dose, else the smallest trial that shows a worthwhile difference; in whole
 * cooker loads, within the places there are and the budget.
 * @returns the reason where nothing can be laid out: no dose to start from, or the doses do not fit the shelves
 */
export function proposeTrial(
  trial: Trial,
  wishes: TrialWishes,
): TrialProposal | { kind: "cannot-tell"; reason: string; remedy: string } {
  const cannot = (reason: string, remedy: string) => ({ kind: "cannot-tell", reason, remedy }) as const;
  const giveDoses = "Give two doses or more, such as --doses 5,10,15";
  const { settings } = trial;
  const known = knownOf(trial);
  const other = nothingToPlan(trial, known, wishes);
  if (other !== undefined) return cannot(other.reason, other.remedy);
  const candidates = dosesToWeigh(known, wishes, placesACook(trial, 0));
  if (candidates.length === 0) return cannot("the book records no dose to start from", giveDoses);
  const doses = candidates[0]!.doses;
  if (doses.length < 2) return cannot("a trial needs at least two different doses", giveDoses);
  const rooms = wishes.layout === "split" ? wishes.chambers : 1;
  const traysPerLoad = traysPerLoadOf(trial);
  if (sizesWithin(wishes, doses.length, settings.shelfPlaces, traysPerLoad).length === 0) {
    const inRooms = rooms > 1 ? ` in ${rooms} chambers` : "";
    return cannot(
      `${doses.length} doses${inRooms} do not fit on ${settings.shelfPlaces} shelf places, one tray each`,
      "Give fewer doses with --doses, or correct shelf_places in settings.csv",
    );
  }
  const worth = worthwhileDifference(settings.worthwhileShare, known.spread.mean);
  const weighed = candidates.flatMap((proposed) => {
    const terms = { worthFinding: worth.grams, traysPerLoad };
    const sizes = judgedSizes(trial, wishes, known, proposed.doses, terms);
    return sizes.length === 0 ? [] : [{ proposed, size: chosenSize(sizes) }];
  });
  const chosen = weighed.find(({ size }) => size.gain > size.cost) ?? weighed[0];
  if (chosen === undefined) {
    const least = Math.min(
      ...candidates.flatMap((one) => possibleSizes(trial, wishes, one.doses, traysPerLoad).map(({ trays }) => trays)),
    );
    const beyond = beyondBudget(least, wishes, known);
    return cannot(beyond.reason, beyond.remedy);
  }
  const { proposed, size } = chosen;
  const against = againstOf(known, size, settings.worthwhileShare);
  return {
    kind: "proposal",
    doses: proposed.doses,
    traysPerDose: size.traysPerDose,
    cooks: size.cooks,
    traysPerLoad,
    says: [
      [
        "Doses: ",
        ...proposed.doses.flatMap((dose, k): Sentence => [k === 0 ? "" : ", ", { value: dose, unit: doseFactor.unit }]),
        ` (${proposed.why}).`,
      ],
      ...sizeSays(size, rooms, trial, traysPerLoad),
      showsSays(size, worth, known),
      known.spreadSays,
      ...worthSays(known, size, trial),
    ],
    ...(against === undefined ? {} : { against }),
  };
}
