import type { Excluded, Trial } from "../../src/analysis.ts";
import { compensatedSum } from "../../src/costing/compensated-sum.ts";
import { livesOnce } from "../../src/costing/trays/costed-trays.ts";
import type { TrayCosts } from "../../src/costing/trays/tray-costs.ts";
import { daysCharged, type TrayLife } from "../../src/costing/trays/tray-life.ts";
import {
  type Band,
  type CertaintyCap,
  type DoseDecision,
  type DosePrices as DoseMoney,
  type DoseQuestion,
  type DoseTray,
  doseDecision,
  doseYields,
  type NoDoseDecision,
} from "../../src/decisions/dose/index.ts";
import { type Cap, type Decision, groupTrays } from "../../src/decisions/verdict/index.ts";
import {
  cultureAgeFactor,
  doseFactor,
  type Factor,
  generationFactor,
  grainFactor,
  operatorFactor,
  supplementAmountFactor,
} from "../../src/design/factor.ts";
import type { VariedThing } from "../../src/design/varied-things.ts";
import { endsOf } from "../../src/records/ends.ts";
import { hasEnded, isLost, type Tray } from "../../src/records/tray.ts";
import { type YieldWeight, yieldWeightOf } from "../../src/records/yield-weight.ts";
import { yieldPerGoodTray } from "../comparison/tray-response.ts";
import { bookPrices } from "../costs/book-prices.ts";
import { type DosePrices, dosePrices } from "../costs/dose-prices.ts";
import { doseWork } from "../costs/dose-work.ts";
import { doubtsThatMove, moneyDoubts } from "../costs/money-doubts.ts";
import { supplementCosts } from "../costs/supplement-costs.ts";
import { gatherTrays, levelIn } from "./compared-trays.ts";
import { decideTreatment, type TreatmentDecision, thingsOf } from "./treatment-decision.ts";
import { levelOfOthers } from "./varied-beside.ts";
import { allLost } from "./why-nothing-compared.ts";

/** The decision about a dose that every answer of a book reads. */
export interface BookDose {
  kind: "dose";
  /** what was varied; its unit is that of every dose */
  thing: VariedThing;
  weight: YieldWeight;
  decision: DoseDecision;
  /** what the verdict rules say of yield */
  verdict: Decision;
  /** what a gram brings and a dose costs; absent where the book has no money: then `left` is grams of a started tray */
  money?: DosePrices;
  /** why there is no money in it; "" where there is */
  noMoney: string;
  /** doses of which no tray counts, as something else changed together with them */
  tied: number[];
  excluded: Excluded[];
}

/** Why a book has no decision about a dose; what was seen is there where trays were weighed. */
export interface NoBookDose {
  kind: "no-dose";
  why: "all-lost" | "not-weighed" | "nothing-varied" | NoDoseDecision["reason"] | Cap["reason"];
  thing?: VariedThing;
  weight?: YieldWeight;
  /** the limits of the verdict rules, where they stand in the way */
  verdict?: Decision;
  found?: DoseDecision | NoDoseDecision;
  beside?: TreatmentDecision["beside"];
  /** whether `found` is in money */
  priced: boolean;
  excluded: Excluded[];
}

/** Amounts that tell how old a culture is: nobody measures them out. */
const ages: ReadonlyArray<Factor> = [cultureAgeFactor, generationFactor];

/**
 * Whether a supplement has a question of its own beside that of the dose: where doses varied, too, or where one costs more
 * than another, which is weighed against what it brings.
 */
function isAskedApart(trial: Trial, factor: Factor): boolean {
  if (!factor.key.startsWith("supplement")) return false;
  if (doseThing(trial) !== undefined) return true;
  const prices = bookPrices(trial);
  if (prices.kind !== "prices") return false;
  const [least, most] = endsOf(supplementCosts(prices.costs, factor).map(({ perTray }) => perTray));
  return most > least * (1 + 1e-9);
}

/** The main thing where it has names; people are not chosen between. */
export function namedThing(trial: Trial): VariedThing | undefined {
  const [main] = thingsOf(trial);
  const isNamed = main?.kind === "names" && !main.isPeriod && main.factor !== operatorFactor;
  return isNamed && !isAskedApart(trial, main.factor) ? main : undefined;
}

/** The main thing where it is an amount, else the dose of culture, else the first amount that varied and can be measured out. */
export function doseThing(trial: Trial): VariedThing | undefined {
  const things = thingsOf(trial);
  const amounts = things.filter(({ kind, factor }) => kind === "amount" && !ages.includes(factor));
  return things[0]?.kind === "amount" ? things[0] : (amounts.find(({ factor }) => factor === doseFactor) ?? amounts[0]);
}

const none: ReadonlyArray<object> = [];

/** The decision about the dose of a book, worked out once. */
export function bookDoseDecision(trial: Trial): BookDose | NoBookDose {
  const { trays, settings, costLines = none, products = none, unread = none, memo } = trial;
  const from = [trays, settings, costLines, products, unread];
  return memo.once(from, `dose decision, reading ${trial.reading ?? "unknown"}`, () => decide(trial));
}

function decide(trial: Trial): BookDose | NoBookDose {
  const weight = yieldWeightOf(trial);
  const thing = doseThing(trial);
  if (weight === undefined) {
    const why = allLost(trial) ? "all-lost" : "not-weighed";
    return { kind: "no-dose", why, thing, priced: false, excluded: [] };
  }
  if (thing === undefined) return { kind: "no-dose", why: "nothing-varied", weight, priced: false, excluded: [] };
  const of = yieldOver(trial, thing, weight);
  if (of === undefined) return { kind: "no-dose", why: "no-trays", thing, weight, priced: false, excluded: [] };
  const verdict = of.decision;
  const madeOf = weight === "dry" ? "dried" : "fresh";
  const prices = bookPrices(trial);
  const perPart = prices.kind === "prices" ? dosePrices(trial, prices, madeOf) : prices;
  const costed = prices.kind === "prices" && perPart.kind === "dose-prices" ? { prices, perPart } : undefined;
  const { trays, excluded, tied, yields } = dosesGrown(trial, thing, weight);
  const question: DoseQuestion = {
    trays,
    ...(costed === undefined
      ? {}
      : {
          prices: pricesOfThing(thing, costed.perPart, costed.prices.costs),
          work: doseWork(trial, costed.prices, madeOf),
        }),
    caps: [...verdict.caps.flatMap(capOfDose), ...(costed === undefined ? [] : capOfMoney(trial))],
    settings: decisionSettings(trial, thing),
  };
  const found = doseDecision(question, yields);
  const base = { thing, weight, verdict, excluded, beside: of.beside };
  const priced = costed !== undefined;
  if (found.kind === "cannot-tell") return { kind: "no-dose", why: found.reason, found, priced, ...base };
  if (found.certainty === "cannot tell") {
    const why = found.caps.find(({ atMost }) => atMost === "cannot tell")!.because as Cap["reason"];
    return { kind: "no-dose", why, found, priced, ...base };
  }
  return {
    kind: "dose",
    ...base,
    decision: found,
    tied,
    noMoney: costed !== undefined ? "" : prices.kind === "cannot-tell" ? prices.reason : reasonOf(perPart),
    ...(costed === undefined ? {} : { money: costed.perPart }),
  };
}

/** The most there can be of an amount, by its unit. */
const mostBy: Readonly<Record<string, number>> = { hours: 24, "%": 100 };

function decisionSettings(
  { trays, settings: { doseStep, nearOptimalShare, seed } }: Trial,
  { factor }: VariedThing,
): DoseQuestion["settings"] {
  // nobody tries an older culture than there was
  const oldest = ages.includes(factor) ? endsOf(trays.flatMap((tray) => factor.value!(tray) ?? []))[1] : undefined;
  // there is no half a generation
  const step = factor === generationFactor ? 1 : doseStep;
  return { tolerance: nearOptimalShare, seed, most: oldest ?? mostBy[factor.unit], ...(step > 0 ? { step } : {}) };
}

/** What the dose decision rests on but for prices: yields and losses drawn once, whatever is asked of them. */
function dosesGrown(trial: Trial, thing: VariedThing, weight: YieldWeight) {
  const { trays, settings, memo } = trial;
  return memo.once([trays, settings], `yields over ${thing.factor.key}, ${weight}`, () => {
    const gathered = doseTrays(trial, thing, weight);
    return { ...gathered, yields: doseYields({ trays: gathered.trays, settings: decisionSettings(trial, thing) }) };
  });
}

/** Grams expected of a good tray over dose, from the decision's own draws; undefined where there are none. */
export function expectedGrams(trial: Trial, thing: VariedThing): { dose: number; grams: Band }[] | undefined {
  const weight = yieldWeightOf(trial);
  if (weight === undefined || thing !== doseThing(trial)) return undefined;
  const { yields } = dosesGrown(trial, thing, weight);
  if (yields.kind === "cannot-tell") return undefined;
  return yields.grid.doses.map((dose, at) => ({ dose, grams: yields.grams[at]! }));
}

const reasonOf = (prices: { kind: string; reason?: string }): string => prices.reason ?? "";

/** Limits of the verdict that hold for the dose, too. Losses that go with the level are counted in the money itself. */
function capOfDose({ at, reason }: Cap): CertaintyCap[] {
  if (at === "settled" || reason === "losses-follow-level") return [];
  return [{ atMost: at === "cannot-tell" ? "cannot tell" : at, because: reason }];
}

/** A cost line that is not read, or in doubt, may turn which dose earns most. */
function capOfMoney(trial: Trial): CertaintyCap[] {
  const moving = doubtsThatMove(moneyDoubts(trial), "products");
  return moving.length === 0 ? [] : [{ atMost: "leaning", because: "money-in-doubt" }];
}

/** What is compared for the dose: the weight of good trays. */
const yieldOver = (trial: Trial, thing: VariedThing, weight: YieldWeight) =>
  decideTreatment(trial, thing, { response: yieldPerGoodTray(weight), better: "higher", withLost: true });

/**
 * Finished trays with their dose, in the same cooks as the verdict has them, and what the verdict takes out beside the dose.
 * Trays that it leaves out since two things changed together say nothing of the dose here either. A good tray without a
 * weight counts for losses.
 */
function doseTrays(
  trial: Trial,
  thing: VariedThing,
  weight: YieldWeight,
): { trays: DoseTray[]; excluded: Excluded[]; tied: number[] } {
  const { settings, memo } = trial;
  const grams = yieldPerGoodTray(weight);
  const of = yieldOver(trial, thing, weight);
  const takenOut = of?.beside.takenOut ?? [];
  const otherOf = takenOut.length === 0 ? undefined : levelOfOthers(takenOut);
  const tied = new Set(
    of?.decision.leftOut.flatMap(({ row, reason }) =>
      reason === "tied-to-the-other-factor" ? [of.gathered.byRow[row]!] : [],
    ),
  );
  const trays = trial.trays.filter((tray) => !tied.has(tray));
  const finished = {
    ...grams,
    of: (tray: Tray) => (tray.outcome === "good" ? (grams.of(tray) ?? 0) : undefined),
  };
  const gathered = gatherTrays(trays, thing.factor, finished);
  const { grouping, trays: placed } = groupTrays(gathered.trays);
  const groupOf = new Map<number, string>();
  for (const { tray, group } of placed) groupOf.set(tray.row, grouping.groups[group]!);
  const lives = livesOnce(trial.trays, settings, memo);
  const lifeOf = new Map<Tray, TrayLife>();
  for (let i = 0; i < lives.length; i++) lifeOf.set(trial.trays[i]!, lives[i]!);
  const counted = new Set(gathered.trays.map(({ level }) => level));
  const ofTied = new Set([...tied].map((tray) => Number(levelIn(thing.factor, tray))));
  return {
    tied: [...ofTied].filter((dose) => !counted.has(dose)).sort((a, b) => a - b),
    trays: gathered.trays.map(({ row, level }) => {
      const tray = gathered.byRow[row]!;
      const lost = isLost(tray);
      return {
        dose: Number(level),
        lost,
        cook: groupOf.get(row),
        other: otherOf && String(otherOf(tray)),
        grams: lost ? undefined : grams.of(tray),
        trays: tray.traysInPool === 1 ? undefined : tray.traysInPool,
        days: daysCharged(lifeOf.get(tray)!, "filling"),
      };
    }),
    excluded: [
      ...gathered.excluded,
      ...(tied.size === 0
        ? []
        : [{ trays: [...tied].map(({ trayId }) => trayId), reason: "it stands where two things changed together" }]),
    ],
  };
}

/** Cost lines counted by the gram of an amount that may be varied. */
const basisOf: ReadonlyMap<string, "supplement g" | "grain g"> = new Map([
  [supplementAmountFactor.key, "supplement g"],
  [grainFactor.key, "grain g"],
]);

/** Prices of a decision about any amount: only what follows that amount is per unit of it, the rest is per started tray. */
function pricesOfThing({ factor }: VariedThing, prices: DosePrices, costs: TrayCosts): DoseMoney {
  const { perGram, perGoodTray, perShelfDay, recoveredPerLostTray } = prices;
  const kept = { perGram, perGoodTray, perShelfDay, recoveredPerLostTray };
  if (factor === doseFactor) {
    return { ...kept, perDoseUnit: prices.perMillilitre, perStartedTray: prices.perStartedTray };
  }
  const finished = costs.trays.flatMap((tray, index) => (hasEnded(tray) ? [{ tray, index }] : []));
  const sum = (of: (one: (typeof finished)[number]) => number): number => compensatedSum(finished.map(of));
  const started = sum(({ tray }) => tray.traysInPool);
  const culture = prices.perMillilitre * sum(({ tray }) => (tray.inoculumMillilitres ?? 0) * tray.traysInPool);
  const used = sum(({ tray }) => (factor.value?.(tray) ?? 0) * tray.traysInPool);
  const basis = basisOf.get(factor.key);
  let spent = 0;
  costs.items.forEach(({ per }, row) => {
    if (basis !== undefined && per === basis) spent += sum(({ index }) => costs.amounts[row]![index]!);
  });
  return {
    ...kept,
    perDoseUnit: used > 0 ? spent / used : 0,
    perStartedTray: prices.perStartedTray + (culture - (used > 0 ? spent : 0)) / started,
  };
}
