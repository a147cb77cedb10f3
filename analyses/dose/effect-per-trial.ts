import type { Trial } from "../../src/analysis.ts";
import { doseFactor } from "../../src/design/factor.ts";
import { readLayout } from "../../src/design/layout.ts";
import { groupingsOf } from "../comparison/compare-treatment.ts";
import { confounding } from "../comparison/confounding.ts";
import { fitTerms, type TermContrast } from "../comparison/fit-terms.ts";
import { inSentence } from "../comparison/level-text.ts";
import { type Observation, observe, type TrayResponse } from "../comparison/tray-response.ts";
import type { BookTrial } from "./trials-of-book.ts";

/** A trial whose dose effect can be judged on its own. */
export interface JudgedTrial {
  trial: BookTrial;
  observations: Observation[];
  groupNames: string[];
  /** doses with enough trays, lowest first */
  doses: number[];
}

/** The same effect in one trial. */
export interface TrialEffect extends TermContrast {
  name: string;
  trays: number;
  cooks: number;
  model: string;
}

/** What is compared over the trials. */
export type SharedEffect =
  | { kind: "pair"; from: number; to: number }
  /** no two doses are shared, so the rise per mL along a straight line is compared */
  | { kind: "slope" };

/** Reads one trial; the reason where its dose cannot be judged. */
export function judgeTrial(
  book: Trial,
  trial: BookTrial,
  response: TrayResponse,
): { kind: "judged"; judged: JudgedTrial } | { kind: "left-out"; name: string; reason: string } {
  const leftOut = (reason: string) => ({ kind: "left-out" as const, name: trial.name, reason });
  const layout = readLayout(trial.trays, doseFactor, book.memo);
  const verdict = confounding(layout);
  if (verdict.kind === "not-separable")
    return leftOut(
      verdict.reason
        .map(String)
        .join("")
        .replace(/^Cannot tell [^:]*: /, "")
        .replace(/\.$/, ""),
    );
  const groupings = groupingsOf(layout, trial.trays);
  const { observations } = observe(trial.trays, doseFactor, response, groupings);
  const counts = new Map<number, number>();
  for (const { dose } of observations) if (dose !== undefined) counts.set(dose, (counts.get(dose) ?? 0) + 1);
  const least = Math.max(2, book.settings.minimumTraysPerArm);
  const doses = [...counts].flatMap(([dose, trays]) => (trays >= least ? [dose] : [])).sort((a, b) => a - b);
  if (doses.length < 2) return leftOut(`fewer than two doses have ${least} trays with a result`);
  return {
    kind: "judged",
    judged: {
      trial,
      observations: observations.filter(({ dose }) => dose !== undefined && doses.includes(dose)),
      groupNames: groupings.map(({ label }) => inSentence(label)),
      doses,
    },
  };
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
 * The shared effect in one trial, by the model its layout calls for.
 * @returns the reason where this trial does not hold both doses, or cannot be fitted
 */
export function effectIn(
  { trial, observations, groupNames, doses }: JudgedTrial,
  effect: SharedEffect,
  level: number,
): TrialEffect | { name: string; reason: string } {
  const { name } = trial;
  if (effect.kind === "pair" && !(doses.includes(effect.from) && doses.includes(effect.to))) {
    return { name, reason: "it does not hold both doses" };
  }
  try {
    const values = observations.map(({ dose }) => dose!);
    const fit =
      effect.kind === "slope"
        ? fitTerms(observations, [{ kind: "number", name: "dose", values }], groupNames, level)
        : fitTerms(
            observations,
            [{ kind: "factor", name: "dose", values: values.map(String), reference: String(effect.from) }],
            groupNames,
            level,
          );
    const contrast = fit.contrast({ [effect.kind === "slope" ? "dose" : `dose: ${effect.to}`]: 1 });
    if (!(contrast.standardError > 0)) return { name, reason: "its trays do not vary, which real trays do" };
    return {
      ...contrast,
      name,
      trays: observations.length,
      cooks: new Set(observations.flatMap(({ source }) => source.batch ?? [])).size,
      model: fit.model,
    };
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    return { name, reason: error.message };
  }
}
