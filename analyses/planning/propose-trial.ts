import type { Sentence, Trial } from "../../src/analysis.ts";
import { doseFactor } from "../../src/design/factor.ts";
import { valueOfSampleInformation } from "../../src/statistics/planning/value-of-sample-information.ts";
import { startsPerYear } from "../treatment/year-of-trays.ts";
import { type DoseEvidence, doseEvidence, knownDifferences } from "./dose-evidence.ts";
import { wantedChance } from "./more-trays.ts";
import { proposeDoses } from "./propose-doses.ts";
import { chanceToShow, type PowerInput, plannedPrecision, smallestShown } from "./trial-power.ts";
import { type WorthwhileDifference, worthwhileDifference } from "./worthwhile-difference.ts";

/** How a next trial is to be arranged. */
export type WantedLayout = "blocks" | "latin" | "split";

/** What the grower has already decided; the rest is proposed. */
export interface TrialWishes {
  /** mL per tray */
  doses?: ReadonlyArray<number>;
  /** trays of each dose in each cook (and chamber) */
  traysPerDose?: number;
  cooks?: number;
  layout: WantedLayout;
  /** chambers a split plot runs over */
  chambers: number;
}

/** A trial worth doing next. */
export interface TrialProposal {
  kind: "proposal";
  doses: number[];
  traysPerDose: number;
  cooks: number;
  /** in reading order: doses, size, what it will show, money */
  says: Sentence[];
}

const fewestCooks = 3;
const mostCooks = 8;
const mostTraysPerDose = 12;
/** Work a trial tray takes over any other: drawing, labelling, weighing it alone. Common practice, no source. */
const extraMinutes = 2;
/** A smaller trial that leaves this share of the best is preferred: money is not known to the last percent. */
const nearlyBest = 0.95;

interface Size {
  traysPerDose: number;
  cooks: number;
}

/** Sizes that fit the shelves: cooks of whole rounds of the doses. */
function sizesWithin(wishes: TrialWishes, doses: number, places: number): Size[] {
  const share = doses * (wishes.layout === "split" ? wishes.chambers : 1);
  if (wishes.layout === "latin") return [{ traysPerDose: 1, cooks: doses }];
  const most = Math.min(mostTraysPerDose, Math.floor(places / share));
  const perDose =
    wishes.traysPerDose === undefined
      ? // two trays of a dose in a cook show how much trays vary there, so one is taken only where two do not fit
        Array.from({ length: most }, (_, k) => k + 1).filter((trays) => trays > 1 || most === 1)
      : [wishes.traysPerDose];
  const cooks =
    wishes.cooks === undefined
      ? Array.from({ length: mostCooks - fewestCooks + 1 }, (_, k) => k + fewestCooks)
      : [wishes.cooks];
  return perDose.flatMap((traysPerDose) => cooks.map((count) => ({ traysPerDose, cooks: count })));
}

/** A size with what it shows, brings and takes. */
interface JudgedSize extends Size {
  trays: number;
  power: PowerInput;
  /** chance of showing the worthwhile difference */
  chance: number;
  /** money that knowing is worth over a year */
  gain: number;
  /** money the trial takes beyond an ordinary crop: work, and trays at doses that earn less */
  cost: number;
}

/** The size to propose from those that fit, smallest first. */
function chosenSize(sizes: ReadonlyArray<JudgedSize>, least: number): { size: JudgedSize; pays: boolean } {
  const left = ({ gain, cost }: JudgedSize) => gain - cost;
  const most = Math.max(...sizes.map(left));
  if (most > 0) return { size: sizes.find((size) => left(size) >= nearlyBest * most)!, pays: true };
  const enough = sizes.find(({ chance }) => chance >= wantedChance);
  const surest = sizes.reduce((a, b) => (b.chance > a.chance ? b : a));
  const hasMoney = sizes.some(({ cost }) => cost > 0);
  // a trial that does not pay is kept as small as still makes a comparison
  const smallest = sizes.find(({ traysPerDose, cooks }) => traysPerDose * cooks >= least) ?? sizes[0]!;
  return { size: hasMoney ? smallest : (enough ?? surest), pays: false };
}

/**
 * Proposes doses, trays per dose and cooks for the next trial: by what knowing is worth against what the trial takes where
 * the book has prices, else the smallest trial that shows a worthwhile difference, within the places there are.
 * @returns the reason where nothing can be laid out: no dose to start from, or the doses do not fit the shelves
 */
export function proposeTrial(
  trial: Trial,
  wishes: TrialWishes,
): TrialProposal | { kind: "cannot-tell"; reason: string } {
  const { settings } = trial;
  const known = doseEvidence(trial);
  const proposed =
    wishes.doses === undefined
      ? proposeDoses(known.tried, known.best)
      : { doses: [...new Set(wishes.doses)].sort((a, b) => a - b), why: "as asked for" };
  if (proposed === undefined) return { kind: "cannot-tell", reason: "the book records no dose to start from" };
  const { doses, why } = proposed;
  if (doses.length < 2) return { kind: "cannot-tell", reason: "a trial needs at least two different doses" };
  const rooms = wishes.layout === "split" ? wishes.chambers : 1;
  const sizes = sizesWithin(wishes, doses.length, settings.shelfPlaces);
  if (sizes.length === 0) {
    return {
      kind: "cannot-tell",
      reason: `${doses.length} doses${rooms > 1 ? ` in ${rooms} chambers` : ""} do not fit on ${settings.shelfPlaces} shelf places, one tray each`,
    };
  }
  const worth = worthwhileDifference(settings.worthwhileShare, known.spread.mean, known.money, doses[0], doses.at(-1));
  const differences = knownDifferences(known, doses);
  const year = startsPerYear(trial);
  const perGram = (known.money?.perGram ?? 0) * known.goodShare;
  const givenUp = differences.reduce((sum, { mean }) => sum + Math.max(0, -mean), 0);
  const judged = sizes
    .map((size): JudgedSize => {
      const trays = size.traysPerDose * size.cooks * doses.length * rooms;
      const power: PowerInput = {
        spread: known.spread,
        doses: doses.length,
        significance: settings.significanceLevel,
        existing: [],
        existingTrays: 0,
        moreCooks: size.cooks,
        traysPerDose: size.traysPerDose * rooms,
      };
      const error = plannedPrecision(power).standardError * perGram;
      return {
        ...size,
        trays,
        power,
        chance: chanceToShow(worth.grams, power),
        gain: year * Math.max(0, ...differences.map((one) => valueOfSampleInformation(one, error))),
        cost:
          known.money === undefined
            ? 0
            : (trays * extraMinutes * settings.ownerLabourRate) / 60 + givenUp * (trays / doses.length),
      };
    })
    .sort((a, b) => a.trays - b.trays || b.cooks - a.cooks);
  const { size, pays } = chosenSize(judged, settings.minimumTraysPerArm);
  const says: Sentence[] = [
    [
      "Doses: ",
      ...doses.flatMap((dose, k): Sentence => [k === 0 ? "" : ", ", { value: dose, unit: doseFactor.unit }]),
      ` (${why}).`,
    ],
    ...sizeSays(size, rooms, trial),
    showsSays(size, worth, known),
    known.spreadSays,
    ...moneySays(known, pays, size, year),
  ];
  return { kind: "proposal", doses, traysPerDose: size.traysPerDose, cooks: size.cooks, says };
}

function sizeSays({ traysPerDose, cooks, trays }: JudgedSize, rooms: number, { settings }: Trial): Sentence[] {
  const perCook = trays / cooks;
  const loads = Math.ceil(perCook / settings.traysPerLoad);
  return [
    [
      `Size: ${traysPerDose} ${traysPerDose === 1 ? "tray" : "trays"} of each dose${rooms > 1 ? " and chamber" : ""} in each of ${cooks} ${cooks === 1 ? "cook" : "cooks"}, ${trays} trays in all; ${perCook} trays a cook, in ${loads} ${loads === 1 ? "load" : "loads"} of up to ${settings.traysPerLoad}.`,
    ],
    ...(perCook > settings.shelfPlaces
      ? [[`A cook of ${perCook} trays does not fit on ${settings.shelfPlaces} shelf places at once.`]]
      : []),
    ...(cooks === 1 ? [["One cook cannot show whether another would do the same: take three or more."]] : []),
  ];
}

function showsSays({ power, chance }: JudgedSize, worth: WorthwhileDifference, { unit }: DoseEvidence): Sentence {
  const smallest = smallestShown(wantedChance, power);
  return smallest === undefined
    ? ["It is too small for a test: take more cooks or more trays."]
    : [
        "With a chance of ",
        { value: wantedChance, unit: "share" },
        " it shows a difference between two doses of ",
        { value: smallest, unit },
        " a good tray; one of ",
        { value: worth.grams, unit },
        " (",
        ...worth.because,
        ") it shows with a chance of ",
        { value: chance, unit: "share", digits: 2 },
        ".",
      ];
}

function moneySays({ money, noMoney }: DoseEvidence, pays: boolean, size: JudgedSize, year: number): Sentence[] {
  if (money === undefined) return [[`What knowing is worth in money is not in it: ${noMoney}.`]];
  return [
    [
      "Money: knowing is worth about ",
      { value: size.gain, unit: "money" },
      ` over a year of ${Math.round(year)} trays; the trial takes about `,
      { value: size.cost, unit: "money" },
      ` beyond an ordinary crop (${extraMinutes} minutes more a tray, and trays at doses that are expected to earn less). Its trays cost `,
      { value: size.trays * money.perStartedTray, unit: "money" },
      " as they would anyway, and sell like any others.",
      pays
        ? " The size is the smallest that leaves nearly the most."
        : " Knowing more is not worth a trial of these doses by this count: stay with the best so far. The size is the smallest that still compares them.",
    ],
  ];
}
