import type { Trial } from "../../src/analysis.ts";
import { type ComparedTray, type Decision, decideComparison } from "../../src/decisions/verdict/index.ts";
import { doseFactor } from "../../src/design/factor.ts";
import { studentTQuantile } from "../../src/statistics/distributions/student-t.ts";
import { inSentence } from "../comparison/level-text.ts";
import type { TrayResponse } from "../comparison/tray-response.ts";
import { cannotTellWords } from "../treatment/cannot-tell-words.ts";
import { gatherTrays } from "../treatment/compared-trays.ts";
import { isDrawnByLot } from "../treatment/treatment-decision.ts";
import type { BookTrial } from "./trials-of-book.ts";

/** A trial whose dose effect can be judged on its own. */
export interface JudgedTrial {
  trial: BookTrial;
  trays: ComparedTray[];
  /** doses with a good tray that counts, lowest first */
  doses: number[];
}

/** The same effect in one trial, as the verdict rules have it. */
export interface TrialEffect {
  name: string;
  trays: number;
  cooks: number;
  estimate: number;
  low: number;
  high: number;
  standardError: number;
  degreesOfFreedom: number;
  /** one cook cannot show how gains differ from cook to cook */
  oneCook: boolean;
}

/** What is compared over the trials. */
export type SharedEffect =
  | { kind: "pair"; from: number; to: number }
  /** no two doses are shared, so the rise per mL from end to end is compared */
  | { kind: "slope" };

const decide = (book: Trial, trays: ReadonlyArray<ComparedTray>): Decision =>
  decideComparison(trays, { alpha: book.settings.significanceLevel, drawnByLot: isDrawnByLot(book) });

/** Reads one trial; the reason where its dose cannot be judged. */
export function judgeTrial(
  book: Trial,
  trial: BookTrial,
  response: TrayResponse,
): { kind: "judged"; judged: JudgedTrial } | { kind: "left-out"; name: string; reason: string } {
  const { trays } = gatherTrays(trial.trays, doseFactor, response);
  const { name } = trial;
  if (trays.length === 0) return { kind: "left-out", name, reason: "no finished tray has a dose" };
  const decision = decide(book, trays);
  if (decision.errors === undefined) {
    return {
      kind: "left-out",
      name,
      reason: cannotTellWords(inSentence(doseFactor.label), decision).reason,
    };
  }
  const doses = decision.levels.flatMap(({ level, mean }) => (mean === undefined ? [] : [Number(level)]));
  return { kind: "judged", judged: { trial, trays, doses } };
}

/**
 * The effect most trials share: the two doses found in the most trials, the widest apart among equals; the slope where no
 * two doses stand together in two trials.
 */
export function sharedEffect(trials: ReadonlyArray<JudgedTrial>): SharedEffect {
  const pairs = new Map<string, { from: number; to: number; trials: number }>();
  for (const { doses } of trials) {
    doses.forEach((from, k) => {
      for (const to of doses.slice(k + 1)) {
        const pair = pairs.get(`${from} ${to}`) ?? { from, to, trials: 0 };
        pairs.set(`${from} ${to}`, pair);
        pair.trials++;
      }
    });
  }
  const best = [...pairs.values()].reduce<{ from: number; to: number; trials: number } | undefined>(
    (a, b) =>
      a === undefined || b.trials > a.trials || (b.trials === a.trials && b.to - b.from > a.to - a.from) ? b : a,
    undefined,
  );
  return best === undefined || best.trials < Math.min(2, trials.length)
    ? { kind: "slope" }
    : { kind: "pair", from: best.from, to: best.to };
}

/**
 * The shared effect in one trial, decided as everything that varied is.
 * @returns the reason where this trial does not hold both doses, or says nothing of them
 */
export function effectIn(
  book: Trial,
  { trial, trays, doses }: JudgedTrial,
  effect: SharedEffect,
): TrialEffect | { name: string; reason: string } {
  const { name } = trial;
  if (effect.kind === "pair" && !(doses.includes(effect.from) && doses.includes(effect.to))) {
    return { name, reason: "it does not hold both doses" };
  }
  const decision = decide(
    book,
    effect.kind === "slope" ? trays : trays.filter(({ level }) => level === effect.from || level === effect.to),
  );
  const { difference, errors, cooks, method } = decision;
  if (difference === undefined || errors === undefined) {
    return { name, reason: cannotTellWords(inSentence(doseFactor.label), decision).reason };
  }
  const span = effect.kind === "slope" ? Number(difference.to) - Number(difference.from) : 1;
  const standardError = errors.supposed.standardError / span;
  const { degreesOfFreedom } = errors.supposed;
  const estimate = difference.estimate / span;
  if (!(decision.traySpread?.variance !== 0 && standardError > 1e-9 * Math.abs(estimate) && standardError > 0)) {
    return { name, reason: "its trays do not vary, which real trays do" };
  }
  const half = studentTQuantile((1 + book.settings.intervalLevel) / 2, degreesOfFreedom) * standardError;
  return {
    name,
    trays: decision.levels.reduce((sum, { values }) => sum + values.length, 0),
    cooks,
    estimate,
    low: estimate - half,
    high: estimate + half,
    standardError,
    degreesOfFreedom,
    oneCook: method === "one-cook",
  };
}
