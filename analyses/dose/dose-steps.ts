import { studentTUpperTail } from "../../src/statistics/distributions/student-t.ts";
import type { ModelTerm } from "../../src/statistics/linear-models/model-term.ts";
import { fitTerms, type TermContrast, type TermsFit } from "../comparison/fit-terms.ts";
import type { Observation } from "../comparison/tray-response.ts";

/** A curve through the doses for reading off what a step does: a straight line for two doses, a parabola for more. */
export interface StepCurve {
  form: "straight line" | "parabola";
  fit: TermsFit;
  /** what going from one dose to another does to the mean */
  change(from: number, to: number): TermContrast;
}

const [dose, squared] = ["dose", "dose squared"] as const;

/**
 * Fits the curve with the cook or other groups allowed for.
 * @param observations each with a dose; at least two different doses
 * @throws RangeError if it cannot be fitted
 */
export function stepCurve(
  observations: ReadonlyArray<Observation>,
  groupNames: ReadonlyArray<string>,
  level: number,
): StepCurve {
  const doses = observations.map((one) => one.dose!);
  const bends = new Set(doses).size > 2;
  const terms: ModelTerm[] = [
    { kind: "number", name: dose, values: doses },
    ...(bends ? [{ kind: "power" as const, name: squared, values: doses, exponent: 2 }] : []),
  ];
  const fit = fitTerms(observations, terms, groupNames, level);
  return {
    form: bends ? "parabola" : "straight line",
    fit,
    change: (from, to) => fit.contrast({ [dose]: to - from, ...(bends ? { [squared]: to ** 2 - from ** 2 } : {}) }),
  };
}

/** A step from the dose in use, and what is to be expected of it. */
export interface DoseStep {
  from: number;
  to: number;
  change: TermContrast;
  /** grams it has to give to pay for its liquid; below 0 when it saves liquid */
  gramsToPay: number;
  /** chance that it pays, by what is known now */
  chanceItPays: number;
  place: "tried" | "between doses tried" | "beyond the doses tried";
}

/** What a step from one dose to another promises. @param gramsPerMillilitre what a mL costs, in grams of product */
export function doseStep(
  curve: StepCurve,
  doses: ReadonlyArray<number>,
  from: number,
  to: number,
  gramsPerMillilitre: number,
): DoseStep {
  const change = curve.change(from, to);
  const gramsToPay = (to - from) * gramsPerMillilitre;
  const beyond = to > doses.at(-1)! || to < doses[0]!;
  return {
    from,
    to,
    change,
    gramsToPay,
    chanceItPays: studentTUpperTail((gramsToPay - change.estimate) / change.standardError, change.df),
    place: doses.includes(to) ? "tried" : beyond ? "beyond the doses tried" : "between doses tried",
  };
}
