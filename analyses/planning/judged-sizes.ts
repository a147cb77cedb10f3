import type { Sentence, Trial } from "../../src/analysis.ts";
import { valueOfMoreTrays } from "../../src/decisions/dose/index.ts";
import { startedCount } from "../../src/design/arm.ts";
import { doseFactor } from "../../src/design/factor.ts";
import { hasEnded } from "../../src/records/tray.ts";
import { yieldWeightOf } from "../../src/records/yield-weight.ts";
import { cooksInOrder } from "../comparison/cooks-in-order.ts";
import { observe, yieldPerGoodTray } from "../comparison/tray-response.ts";
import { bookCosts } from "../costs/book-prices.ts";
import { type BookDose, bookDoseDecision } from "../treatment/book-dose-decision.ts";
import { extraMinutes, type JudgedStep, judgedSteps } from "../treatment/step-words.ts";
import { startsPerYear, traysPerLoadOf, trialTerms } from "../treatment/year-of-trays.ts";
import { type BookSpread, bookSpread, supposedSpread } from "./book-spread.ts";
import type { PlannedThing } from "./planned-thing.ts";
import { wantedChance } from "./trays-needed.ts";
import { chanceToShow, type PowerInput } from "./trial-power.ts";
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
  return {
    dose,
    steps: dose === undefined ? [] : judgedSteps(dose, trialTerms(trial)),
    tried,
    thing,
    allLost: found.kind !== "dose" && found.why === "all-lost",
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
  power: PowerInput;
  /** chance of showing the worthwhile difference, and one twice as large */
  chance: number;
  chanceOfTwice: number;
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

/** The size to propose from those that fit, smallest first. */
export function chosenSize(sizes: ReadonlyArray<JudgedSize>): JudgedSize {
  const left = ({ gain, cost }: JudgedSize) => gain - cost;
  const most = Math.max(...sizes.map(left));
  if (most > 0) return sizes.find((size) => left(size) >= nearlyBest * most)!;
  const enough = sizes.find(({ chance }) => chance >= wantedChance);
  const surest = sizes.reduce((a, b) => (b.chance > a.chance ? b : a));
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

/** Every size of a trial of some doses that fits the shelves, whatever it takes. */
export function possibleSizes(
  trial: Trial,
  wishes: TrialWishes,
  doses: ReadonlyArray<number | string>,
  traysPerLoad: number,
): (Size & { trays: number })[] {
  const share = doses.length * timesARound(wishes);
  return sizesWithin(wishes, doses.length, placesACook(trial, share), traysPerLoad).map((size) => ({
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
  { worthFinding, traysPerLoad }: { worthFinding: number; traysPerLoad: number },
): JudgedSize[] {
  const { settings } = trial;
  const rooms = timesARound(wishes);
  return possibleSizes(trial, wishes, doses, traysPerLoad)
    .map((size): JudgedSize => {
      const power: PowerInput = {
        spread: known.spread,
        doses: doses.length,
        significance: settings.significanceLevel,
        existing: [],
        existingTrays: 0,
        moreCooks: size.cooks,
        traysPerDose: size.traysPerDose * rooms,
      };
      const chance = chanceToShow(worthFinding, power);
      const chanceOfTwice = chanceToShow(2 * worthFinding, power);
      return { ...size, power, chance, chanceOfTwice, ...worthOf(trial, known, doses, size, rooms) };
    })
    .filter(({ trays }) => withinBudget(trays, wishes, known))
    .sort((a, b) => a.trays - b.trays || b.cooks - a.cooks);
}
