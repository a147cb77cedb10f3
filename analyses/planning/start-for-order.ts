import type { Trial } from "../../src/analysis.ts";
import { usualTrayCv } from "../../src/decisions/verdict/index.ts";
import { startedCount } from "../../src/design/arm.ts";
import { doseFactor } from "../../src/design/factor.ts";
import { dateOfDay, dayNumber } from "../../src/measures/day-number.ts";
import { cookOf, countedEnds } from "../../src/records/ended-cooks.ts";
import { hasEnded, isLost, type Tray } from "../../src/records/tray.ts";
import type { YieldWeight } from "../../src/records/yield-weight.ts";
import { quantileType7 } from "../../src/statistics/descriptive/quantile.ts";
import { cooksInOrder } from "../comparison/cooks-in-order.ts";
import { supposedLikeness } from "../comparison/supposed-cooks.ts";
import { observe, yieldPerGoodTray } from "../comparison/tray-response.ts";
import { typedUsual, usualOf } from "../comparison/usual-level.ts";
import { cookLikeness } from "../due/cook-likeness.ts";
import { dueTrays } from "../due/due-trays.ts";
import { type DueDay, dueDay, knownDays } from "../due/known-days.ts";
import { type WaitCurve, waitCurve } from "../due/wait-curve.ts";
import { type DatedTray, waitSample } from "../due/wait-sample.ts";
import { lossesOver } from "../losses/loss-share.ts";
import { traysByLevel } from "../treatment/compared-trays.ts";
import { traysPerCookOf, traysPerLoadOf } from "../treatment/year-of-trays.ts";
import { bookSpread } from "./book-spread.ts";
import { costPerTrayOf } from "./judged-sizes.ts";
import { chanceByLoads, type OrderLoad, type OrderModel, orderDraws } from "./order-draws.ts";

/** An order to be met. */
export interface Order {
  grams: number;
  weight: YieldWeight;
  /** ISO 8601 date by which it is to be picked and dried */
  by: string;
  /** chance wanted that it is met, 0 to 1 */
  sure: number;
  /** ISO 8601 date of today */
  on: string;
}

/** What to start for an order, and how sure that is. */
export interface OrderPlan {
  kind: "order";
  /** trays started on each day: a cook as the book has them, which may be several loads of the cooker */
  traysPerCook: number;
  isOneLoad: boolean;
  /** days on which a cook is to be started, the last at the latest; none where what grows is enough */
  starts: string[];
  /** chance that it is enough with so many cooks: with none, one, ... up to one more than asked for */
  chances: number[];
  /** grams expected, and 8 of 10 */
  grams: { likely: number; low: number; high: number };
  /** growing trays that are counted in, and grams expected of them */
  growing: number;
  growingGrams: number;
  /** trays it was told from, and how they differ from the whole book */
  basis: { good: number; finished: number; cooks: number; mean: number; lost: number; kept: string };
  /** days from inoculation by which 19 of 20 are picked, and days to dry */
  pickedBy: number;
  dryingDays: number;
  /** days from one cook to the next: the book's own pace, a week where that is slower */
  gap: number;
  /** what a started tray costs until it has ended; absent where the book has no costs */
  costPerTray: number | undefined;
  /** whether the chance wanted is reached */
  isEnough: boolean;
  /** places free on the shelves for new trays, as far as the sheets tell */
  freePlaces: number;
}

/** Drying takes so long where the book does not say. Common practice, no source. */
const usualDryingDays = 2;
/** cooks that what is supposed of them counts for. Common practice, no source. */
const supposedCooks = 4;
const mostLoads = 60;
const draws = 4000;
const fewest = { good: 6, cooks: 2, ofOneDose: 12 };

const drawnTo = (found: number, value: number, cooks: number): number =>
  (Math.max(0, cooks - 1) * found + supposedCooks * value) / (Math.max(0, cooks - 1) + supposedCooks);

/**
 * Trays of the latest strain, and those of them whose yields trays to come are like: at the usual dose, else at the one used
 * most, where enough had it.
 */
function likeTrays({ trays, settings }: Trial): { ofStrain: Tray[]; trays: Tray[]; kept: string } {
  const { lots } = cooksInOrder(trays);
  const strain = lots.at(-1)?.trays.at(-1)?.strain;
  const ofStrain = trays.filter((tray) => tray.strain === strain);
  const doses = traysByLevel(ofStrain, doseFactor);
  const said = strain === undefined ? "" : ` of ${strain}`;
  if (doses.size < 2) return { ofStrain, trays: ofStrain, kept: said };
  const typed = typedUsual(settings.usualDose, { kind: "amount", factor: doseFactor });
  const usual = usualOf(
    [...doses].map(([level, started]) => ({ level, started })),
    typed,
  );
  const same = ofStrain.filter(({ inoculumMillilitres }) => inoculumMillilitres === usual.one.level);
  return usual.by !== "first" && same.filter(hasEnded).length >= fewest.ofOneDose
    ? {
        ofStrain,
        trays: same,
        kept: `${said} at ${usual.one.level} mL (${usual.by === "named" ? "your usual dose" : "the dose used most"})`,
      }
    : { ofStrain, trays: ofStrain, kept: said };
}

/** How trays to come yield and are lost; undefined where too little is known. */
function modelOf(
  like: ReadonlyArray<Tray>,
  ofStrain: ReadonlyArray<Tray>,
  weight: YieldWeight,
  dayLikeness: number,
): OrderModel | undefined {
  const plain = asGrown(like, weight);
  const ended = countedEnds(ofStrain);
  const order = cooksInOrder(ended);
  const { lots } = order;
  if (plain.length < fewest.good || lots.length < fewest.cooks) return undefined;
  const spread = bookSpread(plain);
  const mean = plain.reduce((sum, { value }) => sum + value, 0) / plain.length;
  // trays too few, or too much alike, to tell how far they differ
  const variance = spread === undefined ? (usualTrayCv * mean) ** 2 : spread.traySd ** 2 + spread.cookSd ** 2;
  const found = spread === undefined ? supposedLikeness.kept : spread.cookSd ** 2 / variance;
  const between = drawnTo(found, supposedLikeness.kept, lots.length);
  return {
    mean,
    traySd: Math.sqrt(variance * (1 - between)),
    cookSd: Math.sqrt(variance * between),
    trays: plain.length,
    cooks: lots.length,
    losses: lossesOver(order),
    dayLikeness,
  };
}

/** Observations of trays as one arm: where several doses count in, those to come are as mixed. */
const asGrown = (trays: ReadonlyArray<Tray>, weight: YieldWeight) =>
  observe(trays, { key: "all", label: "", unit: "", level: () => "all" }, yieldPerGoodTray(weight));

/** Days from picking to dry: the middle of the book's own. */
function dryingDaysOf(trays: ReadonlyArray<Tray>, weight: YieldWeight): number {
  if (weight === "fresh") return 0;
  const days = trays
    .flatMap(({ harvestedOn, driedOn }) =>
      harvestedOn === undefined || driedOn === undefined || driedOn < harvestedOn
        ? []
        : [dayNumber(driedOn) - dayNumber(harvestedOn)],
    )
    .sort((a, b) => a - b);
  return days.length < 3 ? usualDryingDays : Math.ceil(quantileType7(days, 0.9));
}

/** Days between the starts of two cooks, the middle of the last ones; a week where the book goes slower or has no dates. */
function gapOf(trays: ReadonlyArray<Tray>): number {
  const { lots } = cooksInOrder(trays);
  const days = [...new Set(lots.slice(-13).flatMap(({ startedOn }) => startedOn ?? []))].sort().map(dayNumber);
  const gaps = days
    .slice(1)
    .map((day, index) => day - days[index]!)
    .sort((a, b) => a - b);
  return gaps.length === 0 ? 7 : Math.min(7, Math.max(1, Math.round(quantileType7(gaps, 0.5))));
}

/** Chance that a tray which has waited so long is picked by a day, counted from its start: the share whose day that is. */
function chanceBy(curve: WaitCurve, days: number, waited: number): number {
  let [low, high] = [0, 0.999];
  if (curve.dayBy(high, waited) <= days) return high;
  while (high - low > 0.002) {
    const middle = (low + high) / 2;
    if (curve.dayBy(middle, waited) <= days) low = middle;
    else high = middle;
  }
  return low;
}

/** Growing trays of one strain by cook, with the chances that they are lost and that they are picked in time. */
function growingLoads(
  trial: Trial,
  strain: string | undefined,
  curve: WaitCurve,
  pickedBy: number,
  on: string,
): OrderLoad[] {
  const due = dueTrays(trial.trays, trial.settings, on).trays.filter(({ tray }) => tray.strain === strain);
  const loads = new Map<string, OrderLoad>();
  const today = dayNumber(on);
  for (const { tray, state, next, lossChance } of due) {
    if (state === "lost" || tray.inoculatedOn === undefined || next.step === "flush") continue;
    const start = dayNumber(tray.inoculatedOn);
    const inTime = pickedBy < today ? 0 : chanceBy(curve, pickedBy - start, Math.max(0, today - start));
    // of a tray on its way to colonise in good time the whole way is still to come
    const lost = next.step === "colonise" && state !== "overdue" ? undefined : lossChance;
    const key = JSON.stringify([cookOf(tray), inTime.toFixed(6), lost?.toFixed(6)]);
    const load = loads.get(key);
    if (load !== undefined) load.trays += tray.traysInPool;
    else loads.set(key, { trays: tray.traysInPool, inTime, ...(lost === undefined ? {} : { lost }) });
  }
  return [...loads.values()];
}

/** How long trays take from inoculation to picking, and how far those of one cook go together. */
function daysToPicking(trays: ReadonlyArray<Tray>, day: DueDay): { likeness: number; curve: WaitCurve | undefined } {
  const dated = trays.flatMap((tray): DatedTray[] => {
    const days = knownDays(tray, day);
    return days === undefined ? [] : [{ tray, days }];
  });
  const waits = waitSample(dated, { from: "inoculated", to: "harvest" }, day);
  const likeness = cookLikeness(waits);
  return { likeness, curve: waitCurve(waits, likeness) };
}

/**
 * Which cooks to start, and by when, so that an order is met as surely as wanted: whole cooks, at the pace of the book, the
 * last one as late as 19 of 20 trays are picked and dried in time.
 * @returns the reason where the book does not tell
 */
export function startForOrder(trial: Trial, order: Order): OrderPlan | { kind: "cannot-tell"; reason: string } {
  const { grams, weight, by, sure, on } = order;
  const { ofStrain, trays: like, kept } = likeTrays(trial);
  const { likeness, curve } = daysToPicking(ofStrain, dueDay(trial.trays, on));
  const model = modelOf(like, ofStrain, weight, likeness);
  if (model === undefined) {
    return {
      kind: "cannot-tell",
      reason: `fewer than ${fewest.good} good trays${kept} with a ${weight} weight in ${fewest.cooks} finished cooks`,
    };
  }
  if (curve === undefined) {
    return { kind: "cannot-tell", reason: `fewer than three trays${kept} with the dates of inoculation and harvest` };
  }
  const dryingDays = dryingDaysOf(ofStrain, weight);
  const [today, end] = [dayNumber(on), dayNumber(by) - dryingDays];
  const pickedBy = Math.max(curve.dayBy(0.9, 0), curve.dayBy(0.95, 0));
  const gap = gapOf(trial.trays);
  const traysPerCook = traysPerCookOf(trial);
  const latest = end - pickedBy;
  const days = Array.from({ length: mostLoads }, (_, index) => latest - index * gap).filter((start) => start >= today);
  const loads = days.map((start): OrderLoad => ({ trays: traysPerCook, inTime: chanceBy(curve, end - start, 0) }));
  const now = growingLoads(trial, like[0]?.strain, curve, end, on);
  const future = orderDraws(model, now, loads, { draws, seed: trial.settings.seed });
  const chances = chanceByLoads(future, grams);
  const reached = chances.findIndex((chance) => chance >= sure);
  const count = reached < 0 ? loads.length : reached;
  const sums = future.map((one) => one[count]!).sort((a, b) => a - b);
  const ended = countedEnds(ofStrain);
  return {
    kind: "order",
    traysPerCook,
    isOneLoad: traysPerCook === traysPerLoadOf(trial),
    starts: days.slice(0, count).reverse().map(dateOfDay),
    chances: chances.slice(0, count + 2),
    grams: { likely: quantileType7(sums, 0.5), low: quantileType7(sums, 0.1), high: quantileType7(sums, 0.9) },
    growing: now.reduce((sum, one) => sum + one.trays, 0),
    growingGrams: future.reduce((sum, one) => sum + one[0]!, 0) / draws,
    basis: {
      good: model.trays,
      finished: startedCount(ended),
      cooks: model.cooks,
      mean: model.mean,
      lost: startedCount(ended.filter(isLost)),
      kept,
    },
    pickedBy,
    dryingDays,
    gap,
    costPerTray: costPerTrayOf(trial),
    isEnough: reached >= 0,
    freePlaces: trial.settings.shelfPlaces - startedCount(trial.trays.filter(({ outcome }) => outcome === "growing")),
  };
}
