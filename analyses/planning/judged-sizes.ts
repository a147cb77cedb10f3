import type { Sentence, Trial } from "../../src/analysis.ts";
import { valueOfMoreTrays } from "../../src/decisions/dose/index.ts";
import { couldShowAfter, type Decision } from "../../src/decisions/verdict/index.ts";
import { startedCount } from "../../src/design/arm.ts";
import { doseFactor } from "../../src/design/factor.ts";
import { hasEnded } from "../../src/records/tray.ts";
import { yieldWeightOf } from "../../src/records/yield-weight.ts";
import { cooksInOrder } from "../comparison/cooks-in-order.ts";
import { observe, yieldPerGoodTray } from "../comparison/tray-response.ts";
import { bookCosts } from "../costs/book-prices.ts";
import { type BookDose, bookDoseDecision } from "../treatment/book-dose-decision.ts";
import { extraMinutes, type JudgedStep, judgedSteps } from "../treatment/step-words.ts";
import { thingsOf } from "../treatment/treatment-decision.ts";
import { yieldDecision } from "../treatment/what-changed-the-yield.ts";
import { startsPerYear, traysPerLoadOf, trialTerms } from "../treatment/year-of-trays.ts";
import { type BookSpread, bookSpread, supposedSpread } from "./book-spread.ts";
import type { PlannedThing } from "./planned-thing.ts";
import { smallestShown } from "./trial-power.ts";
import { type Size, sizesWithin } from "./trial-sizes.ts";
import { type TrialWishes, timesARound } from "./trial-wishes.ts";

/** A smaller trial that leaves this share of the best is preferred: money is not known to the last percent. */
const nearlyBest = 0.95;
/** What the book knows that a proposal rests on. */
export interface Known {
  dose: BookDose | undefined;
  steps: JudgedStep[];
  tried: number[];
  thing: PlannedThing;
  allLost: boolean;
  /** what the book says of the names compared; absent for amounts */
  decided: Decision | undefined;
  spread: Pick<BookSpread, "traySd" | "cookDoseSd" | "mean">;
  spreadSays: Sentence;
  unit: string;
  /** of a started tray that has ended; absent where the book has no costs */
  costPerTray: number | undefined;
}

/** What a started tray that has ended cost, all costs shared; undefined where the book has none. */
export function costPerTrayOf(trial: Trial): number | undefined {
  const costs = bookCosts(trial);
  if (costs.kind === "cannot-tell") return undefined;
  let spent = 0;
  costs.trays.forEach((tray, index) => {
    if (hasEnded(tray)) spent += costs.totals[index]!;
  });
  const started = startedCount(costs.trays.filter(hasEnded));
  return started === 0 ? undefined : spent / started;
}

/** @param thing what the trial is to vary */
export function knownOf(trial: Trial, thing: PlannedThing): Known {
  const { factor } = thing;
  const tried = [...new Set(trial.trays.flatMap((tray) => factor.value?.(tray) ?? []))]
    .filter((amount) => amount > 0 || factor !== doseFactor)
    .sort((a, b) => a - b);
  const found = bookDoseDecision(trial);
  const dose = found.kind === "dose" && found.thing.factor.key === factor.key ? found : undefined;
  const weight = yieldWeightOf(trial);
  const spread = weight && bookSpread(observe(trial.trays, factor, yieldPerGoodTray(weight)));
  const own = spread !== undefined && spread.mean > 0 ? spread : undefined;
  const compared = thing.kind === "names" ? thingsOf(trial).find((one) => one.factor.key === factor.key) : undefined;
  return {
    dose,
    steps: dose === undefined ? [] : judgedSteps(dose, trialTerms(trial)),
    tried,
    thing,
    allLost: found.kind !== "dose" && found.why === "all-lost",
    decided: compared && yieldDecision(trial, compared)?.decision,
    spread: own ?? supposedSpread,
    spreadSays: own?.says ?? [
      "How much trays vary is not known from this book; ",
      { value: supposedSpread.traySd, unit: "share" },
      " of their mean is supposed (common practice, no source).",
    ],
    unit: own === undefined ? "share" : "g",
    costPerTray: costPerTrayOf(trial),
  };
}

/** A size with what it shows, brings and takes. */
export interface JudgedSize extends Size {
  trays: number;
  /** it goes on from cooks that held the same */
  isMore: boolean;
  /** the difference that is shown with `wantedChance` once its trays are in; absent where they are too few for a test */
  shows: number | undefined;
  /** what choosing the dose better is worth over a year, in the unit of the decision; 0 where there is none */
  gain: number;
  /** the gain is the most it can be: what knowing an untried dose for sure is worth */
  gainAtMost: boolean;
  /** what the trial takes beyond an ordinary crop: work, and trays at doses that leave less */
  cost: number;
}

/** What a trial of some doses brings a year and takes, by the draws of the dose decision. */
function worthOf(trial: Trial, known: Known, doses: ReadonlyArray<number | string>, size: Size, rooms: number) {
  const { dose, steps } = known;
  if (dose === undefined) return { gain: 0, gainAtMost: false, cost: 0 };
  const { decision } = dose;
  const traysPerDose = size.traysPerDose * size.cooks * rooms;
  const year = startsPerYear(trial);
  const again = doses.filter((one) => decision.doses.includes(Number(one))).length;
  const retested =
    again < 2 ? 0 : year * valueOfMoreTrays(decision, { traysPerDose, cooks: size.cooks, traysAYear: year }).perTray;
  const fresh = steps.flatMap(({ step, worthAYear }) => (doses.includes(step.dose) ? [worthAYear] : []));
  const givenUp = doses.reduce((sum: number, one) => {
    const expected = decision.expected.find((place) => Math.abs(place.dose - Number(one)) < decision.settings.step / 2);
    return sum + Math.max(0, expected?.givesUp ?? 0);
  }, 0);
  const work = decision.priced ? (traysPerDose * doses.length * extraMinutes * trial.settings.ownerLabourRate) / 60 : 0;
  const gain = Math.max(retested, ...fresh);
  return { gain, gainAtMost: gain > retested, cost: givenUp * traysPerDose + work };
}

/** Trays of a dose over all cooks below which a trial is no comparison. Common practice, no source. */
const fewestPerDose = 4;

/**
 * The size to propose from those that fit, smallest first.
 * @param worthFinding the difference it should show, in the unit of the spread
 */
export function chosenSize(sizes: ReadonlyArray<JudgedSize>, worthFinding: number): JudgedSize {
  const left = ({ gain, cost }: JudgedSize) => gain - cost;
  const most = Math.max(...sizes.map(left));
  if (most > 0) return sizes.find((size) => left(size) >= nearlyBest * most)!;
  const shown = ({ shows = Number.POSITIVE_INFINITY }: JudgedSize) => shows;
  const enough = sizes.find((size) => shown(size) <= worthFinding);
  const surest = sizes.reduce((a, b) => (shown(b) < shown(a) ? b : a));
  // a trial that does not pay is kept as small as still makes a comparison
  const smallest = sizes.find(({ traysPerDose, cooks }) => traysPerDose * cooks >= fewestPerDose) ?? sizes[0]!;
  return sizes.some(({ cost }) => cost > 0) ? smallest : (enough ?? surest);
}

function withinBudget(trays: number, { mostTrays, mostMoney }: TrialWishes, { costPerTray }: Known): boolean {
  if (mostTrays !== undefined && trays > mostTrays) return false;
  return mostMoney === undefined || costPerTray === undefined || trays * costPerTray <= mostMoney;
}

/** Places that the trays of one cook may take: as many as the book's largest cook or one load had, on the shelves there are. */
export function placesACook(trial: Trial, share: number): number {
  const cooks = cooksInOrder(trial.trays).lots.map((lot) => startedCount(lot.trays));
  return Math.min(trial.settings.shelfPlaces, Math.max(share, traysPerLoadOf(trial), ...cooks));
}

/** What the book says of just these levels, grown side by side in several cooks: a trial of them goes on from there. */
function decidedBefore({ decided }: Known, { layout, crossed }: TrialWishes, levels: ReadonlyArray<number | string>) {
  if (decided?.method !== "inside-cooks" || layout !== "blocks" || crossed !== undefined) return undefined;
  const isSame = decided.levels.length === levels.length && decided.levels.every(({ level }) => levels.includes(level));
  return isSame ? decided : undefined;
}

/** Every size of a trial of some doses that fits the shelves, whatever it takes. */
export function possibleSizes(
  trial: Trial,
  wishes: TrialWishes,
  known: Known,
  doses: ReadonlyArray<number | string>,
  traysPerLoad: number,
): (Size & { trays: number })[] {
  const share = doses.length * timesARound(wishes);
  const isMore = decidedBefore(known, wishes, doses) !== undefined;
  return sizesWithin(wishes, doses.length, placesACook(trial, share), traysPerLoad, isMore).map((size) => ({
    ...size,
    trays: size.traysPerDose * size.cooks * share,
  }));
}

/** Every size of a trial of some doses that fits the shelves and the budget, fewest trays first. */
export function judgedSizes(
  trial: Trial,
  wishes: TrialWishes,
  known: Known,
  doses: ReadonlyArray<number | string>,
  traysPerLoad: number,
): JudgedSize[] {
  const { settings } = trial;
  const rooms = timesARound(wishes);
  const before = decidedBefore(known, wishes, doses);
  const significance = settings.significanceLevel;
  const showsOf = ({ cooks, traysPerDose }: Size): number | undefined =>
    before === undefined
      ? smallestShown({
          ...{ spread: known.spread, doses: doses.length, significance, cooks },
          traysPerDose: traysPerDose * rooms,
        })
      : couldShowAfter(before, cooks, { alpha: significance });
  return possibleSizes(trial, wishes, known, doses, traysPerLoad)
    .map((size): JudgedSize => {
      const worth = worthOf(trial, known, doses, size, rooms);
      return { ...size, isMore: before !== undefined, shows: showsOf(size), ...worth };
    })
    .filter(({ trays }) => withinBudget(trays, wishes, known))
    .sort((a, b) => a.trays - b.trays || b.cooks - a.cooks);
}
