import type { Sentence, Trial } from "../../src/analysis.ts";
import type { Level } from "../../src/decisions/verdict/index.ts";
import { doseFactor, fruitingFactor } from "../../src/design/factor.ts";
import { hasEnded } from "../../src/records/tray.ts";
import { capital, inRow, inSentence, levelLabel } from "../comparison/level-text.ts";
import { typedUsual } from "../comparison/usual-level.ts";
import { amountWord } from "../treatment/dose-words.ts";
import { thingsOf } from "../treatment/treatment-decision.ts";
import { traysPerLoadOf } from "../treatment/year-of-trays.ts";
import { chosenSize, judgedSizes, type Known, knownOf, placesACook, possibleSizes } from "./judged-sizes.ts";
import {
  armsOf,
  columnOf,
  levelsTried,
  namesToGrow,
  type PlannedThing,
  thingToPlan,
  tiedWith,
} from "./planned-thing.ts";
import { mostIn, type ProposedLevels, proposeDoses } from "./propose-doses.ts";
import { againstOf, showsSays, sizeSays, worthSays } from "./trial-says.ts";
import { sizesWithin } from "./trial-sizes.ts";
import type { TrialWishes } from "./trial-wishes.ts";
import { worthwhileDifference } from "./worthwhile-difference.ts";

/** A trial worth doing next. */
export interface TrialProposal {
  kind: "proposal";
  /** the column of what is varied */
  column: string;
  levels: Level[];
  /** cells of each arm, by column: every level, with every level of what it is crossed with */
  arms: Record<string, string>[];
  /** trays of each arm in each cook, and chamber */
  traysPerArm: number;
  cooks: number;
  traysPerLoad: number;
  /** in reading order: levels, size, what it will show, money */
  says: Sentence[];
  /** why it is better not to run it; absent where it is worth running */
  against?: Sentence;
}

/** Levels to look at, the fullest trial first: as asked for, or as proposed, or the one new dose beside the dose to use. */
function levelsToWeigh(
  trial: Trial,
  { thing, dose, steps, tried, decided }: Known,
  { doses, celsius }: TrialWishes,
  places: number,
): ProposedLevels[] {
  if (doses !== undefined) return [{ levels: [...new Set(doses)].sort((a, b) => a - b), why: "as asked for" }];
  if (thing.kind === "names") {
    const most = mostIn(places);
    if (decided !== undefined) return [namesToGrow(decided, typedUsual(trial.settings.usualDose, thing), most)];
    return [{ levels: levelsTried(thing, trial.trays, most), why: "those that were tried" }];
  }
  if (thing.factor === fruitingFactor) {
    return [{ levels: [...(celsius ?? [])], why: "swapped between the chambers from cook to cook" }];
  }
  const worthTrying = steps.filter(({ worth }) => worth).map(({ step }) => step.dose);
  const use = dose?.decision.use.dose;
  const { low, high } = dose?.decision.notRuledOut ?? { low: 0, high: 0 };
  const full = proposeDoses(tried, use === undefined ? undefined : { use, low, high, worthTrying }, places);
  if (full === undefined) return [];
  const [fresh] = worthTrying;
  const pair =
    use === undefined || fresh === undefined
      ? []
      : [
          {
            levels: [use, fresh].sort((a, b) => a - b),
            why: "the dose to use, and the one most worth trying beside it",
          },
        ];
  const name = thing.factor === doseFactor ? "dose" : "amount";
  return [full, ...pair].map(({ levels, why }) => ({ levels, why: why.replaceAll("dose", name) }));
}

/** Why nothing is proposed: a budget that cannot be counted; unasked for, too, all trays lost. */
function nothingToPlan({ allLost, costPerTray }: Known, { doses, mostMoney }: TrialWishes) {
  if (mostMoney !== undefined && costPerTray === undefined) {
    return {
      reason: "what a tray costs is not known, so a budget in money cannot be kept to",
      remedy: 'Give it in trays, such as --budget "18 trays"',
    };
  }
  if (doses !== undefined || !allLost) return undefined;
  return {
    reason: "every finished tray was lost",
    remedy: "Find out why before the next cook: first the cook, the culture and the inoculation",
  };
}

/** What the trial varies beside the main thing: another that changed together with it, where a round of both fits a cook. */
function crossedWith(trial: Trial, thing: PlannedThing, { layout, doses }: TrialWishes) {
  const other = layout === "blocks" && doses === undefined ? tiedWith(trial, thing) : undefined;
  if (other === undefined) return undefined;
  const levels = levelsTried(other, trial.trays.filter(hasEnded), 2);
  return levels.length === 2 && placesACook(trial, 0) >= 4 ? { thing: other, levels } : undefined;
}

/** "Doses: 3 mL, 9 mL (the ends of the doses tried)." */
const levelsSays = ({ factor }: PlannedThing, { levels, why }: ProposedLevels): Sentence => [
  `${factor === doseFactor ? "Doses" : capital(factor.label)}: `,
  ...levels.flatMap(
    (level, k): Sentence => [
      k === 0 ? "" : ", ",
      typeof level === "number" && factor.unit !== ""
        ? { value: level, unit: factor.unit, isSet: true }
        : String(level),
    ],
  ),
  ` (${why}).`,
];

/** "Each dose with each supplement grade (coarse and fine): the two changed together so far." */
function crossedSays(thing: PlannedThing, crossed: ReturnType<typeof crossedWith>): Sentence[] {
  if (crossed === undefined) return [];
  const { factor } = crossed.thing;
  const names = inRow(crossed.levels.map((level) => levelLabel(factor, String(level))));
  return [
    [
      `Each ${amountWord({ thing })} with each ${inSentence(factor.label)} (${names}): the two changed together so far, and side by side the trial tells both.`,
    ],
  ];
}

/** What differed between trays of a cook and has no part in the trial. */
function keptSame(trial: Trial, columns: ReadonlyArray<string>): Sentence[] {
  const same = thingsOf(trial).filter(
    ({ factor, place, isPeriod }) =>
      place !== "whole cooks" && !isPeriod && !columns.includes(columnOf(factor)) && isSet.test(factor.key),
  );
  if (same.length === 0) return [];
  return [
    [
      `Keep the same in every tray, as it is not part of the trial: ${inRow(same.map(({ factor }) => inSentence(factor.label)))}.`,
    ],
  ];
}

/** What a tray is given, and no note of where it stood or who did it. */
const isSet = /^(?:inoculum_ml|spawn_|supplement|strain|container|light_hours|fruiting_c|incubation_c|factor:)/;

/** What is said where the least number of trays of a trial is more than the budget. */
function beyondBudget(trays: number, plural: string, { mostMoney }: TrialWishes, { costPerTray = 0 }: Known) {
  const enough = mostMoney === undefined ? `"${trays} trays"` : Math.ceil(trays * costPerTray);
  return {
    reason: `the smallest trial of these ${plural} takes ${trays} trays, which is beyond the budget`,
    remedy: `Give --budget ${enough} or more${plural === "doses" ? ", or fewer doses with --doses" : ""}`,
  };
}

/**
 * Proposes what to vary, its levels, trays and cooks for the next trial: the book's main question, and what changed together
 * with it; by what a better choice of the dose is worth against what the trial takes where the book decides about the dose,
 * else the smallest trial that shows a worthwhile difference; in whole cooker loads, within the places there are and the budget.
 * @returns the reason where nothing can be laid out: nothing to start from, what is set for a whole room, or too many levels
 */
export function proposeTrial(
  trial: Trial,
  asked: TrialWishes,
): TrialProposal | { kind: "cannot-tell"; reason: string; remedy: string } {
  const cannot = (reason: string, remedy: string) => ({ kind: "cannot-tell", reason, remedy }) as const;
  const giveDoses = "Give two doses or more, such as --doses 5,10,15";
  const { settings } = trial;
  const thing = asked.doses === undefined ? thingToPlan(trial, asked.layout === "split") : doses;
  if ("reason" in thing) return cannot(thing.reason, thing.remedy);
  const known = knownOf(trial, thing);
  const other = nothingToPlan(known, asked);
  if (other !== undefined) return cannot(other.reason, other.remedy);
  const crossed = crossedWith(trial, thing, asked);
  const isOfRooms = thing.factor === fruitingFactor;
  const wishes: TrialWishes = {
    ...asked,
    // where nothing but the chambers' temperatures is varied, these are what a round of a cook holds
    ...(isOfRooms ? { layout: "blocks" } : {}),
    ...(crossed === undefined ? {} : { crossed: crossed.levels.length }),
  };
  const word = amountWord({ thing });
  const plural = word === "dose" ? "doses" : `levels of ${word}`;
  const each =
    crossed !== undefined
      ? `${word} and ${inSentence(crossed.thing.factor.label)}`
      : `${word}${asked.layout === "split" && !isOfRooms ? " and chamber" : ""}`;
  const candidates = levelsToWeigh(
    trial,
    known,
    wishes,
    Math.floor(placesACook(trial, 0) / (crossed?.levels.length ?? 1)),
  );
  if (candidates.length === 0) return cannot("the book records no dose to start from", giveDoses);
  if (candidates[0]!.levels.length < 2) return cannot(`a trial needs at least two different ${plural}`, giveDoses);
  const traysPerLoad = traysPerLoadOf(trial);
  const most = candidates[0]!.levels.length;
  if (sizesWithin(wishes, most, settings.shelfPlaces, traysPerLoad).length === 0) {
    const inRooms = asked.layout === "split" ? ` in ${asked.chambers} chambers` : "";
    return cannot(
      `${most} ${plural}${inRooms} do not fit on ${settings.shelfPlaces} shelf places, one tray each`,
      `${word === "dose" ? "Give fewer doses with --doses, or correct" : "Correct"} shelf_places in settings.csv`,
    );
  }
  const worth = worthwhileDifference(settings.worthwhileShare, known.spread.mean);
  const weighed = candidates.flatMap((proposed) => {
    const sizes = judgedSizes(trial, wishes, known, proposed.levels, traysPerLoad);
    return sizes.length === 0 ? [] : [{ proposed, size: chosenSize(sizes, worth.grams) }];
  });
  const chosen = weighed.find(({ size }) => size.gain > size.cost) ?? weighed[0];
  if (chosen === undefined) {
    const least = Math.min(
      ...candidates.flatMap((one) =>
        possibleSizes(trial, wishes, known, one.levels, traysPerLoad).map(({ trays }) => trays),
      ),
    );
    const beyond = beyondBudget(least, plural, wishes, known);
    return cannot(beyond.reason, beyond.remedy);
  }
  const { proposed, size } = chosen;
  const against = againstOf(known, size, worth);
  const own = armsOf(thing, proposed.levels, trial.trays);
  const beside = crossed === undefined ? [{}] : armsOf(crossed.thing, crossed.levels, trial.trays);
  const arms = own.flatMap((cells) => beside.map((more): Record<string, string> => ({ ...more, ...cells })));
  return {
    kind: "proposal",
    column: columnOf(thing.factor),
    levels: proposed.levels,
    arms,
    traysPerArm: size.traysPerDose,
    cooks: size.cooks,
    traysPerLoad,
    says: [
      levelsSays(thing, proposed),
      ...crossedSays(thing, crossed),
      ...keptSame(trial, [...Object.keys(arms[0]!), ...(asked.layout === "split" ? [fruitingFactor.key] : [])]),
      ...sizeSays(size, trial, traysPerLoad, each),
      showsSays(size, worth, known),
      known.spreadSays,
      ...worthSays(known, size, trial),
    ],
    ...(against === undefined ? {} : { against }),
  };
}

const doses: PlannedThing = { factor: doseFactor, kind: "amount" };
