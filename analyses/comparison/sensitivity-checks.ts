import type { Sentence, Table, Trial } from "../../src/analysis.ts";
import { kruskalWallis } from "../../src/statistics/groups/rank-tests.ts";
import { influence } from "../../src/statistics/linear-models/influence.ts";
import { linearModel } from "../../src/statistics/linear-models/linear-model.ts";
import { robustStandardErrors } from "../../src/statistics/linear-models/robust-errors.ts";
import type { TreatmentComparison } from "./compare-treatment.ts";
import { type Decision, decidedAgain } from "./deciding-test.ts";
import { levelLabel } from "./level-text.ts";
import { permutationTest } from "./permutation-test.ts";
import { type UnitValue, unitValues } from "./unit-values.ts";

/** The same question by other methods, and what a few trays do to the answer. */
export interface Agreement {
  sentence: Sentence;
  table: Table;
  caveats: Sentence[];
}

/** Beyond this many trays single ones decide nothing, and the exact arithmetic of the linear model gets slow. */
const mostTrays = 2000;

/** p of a method, or why it could not be used on these trays. */
type Tried = { p: number } | { reason: string };

function attempt(work: () => number): Tried {
  try {
    return { p: work() };
  } catch (error) {
    if (error instanceof RangeError) return { reason: error.message };
    throw error;
  }
}

/** The headline difference with errors that hold for unequal spread, blocks as fixed, allowing for all pairs by Bonferroni. */
function robustP(values: ReadonlyArray<UnitValue>, from: string, to: string, pairs: number): number {
  if (values.length > mostTrays)
    throw new RangeError(`more than ${mostTrays} trays, where it would not differ from the main method`);
  const blocks = values.map(({ block }) => block);
  const blocked = new Set(blocks).size > 1 && blocks.every((block) => block !== undefined);
  const model = linearModel({
    response: values.map(({ value }) => value),
    terms: [
      ...(blocked ? [{ kind: "factor" as const, name: "block", values: blocks as string[] }] : []),
      { kind: "factor", name: "arm", values: values.map(({ arm }) => arm), reference: from },
    ],
  });
  const coefficient = robustStandardErrors(model, "HC3").find(({ name }) => name === `arm: ${to}`);
  if (coefficient === undefined) throw new RangeError("the blocks leave nothing to compare these two levels by");
  return Math.min(1, coefficient.p * pairs);
}

/** Ranks compared between arms after each block's own mean is taken out. */
function rankP(values: ReadonlyArray<UnitValue>, arms: ReadonlyArray<string>): number {
  const sums = new Map<string | undefined, { sum: number; count: number }>();
  for (const { block, value } of values) {
    const entry = sums.get(block) ?? { sum: 0, count: 0 };
    sums.set(block, entry);
    entry.sum += value;
    entry.count++;
  }
  const aligned = (one: UnitValue) => one.value - sums.get(one.block)!.sum / sums.get(one.block)!.count;
  return kruskalWallis(arms.map((arm) => values.filter((one) => one.arm === arm).map(aligned))).p;
}

function permutationP(values: ReadonlyArray<UnitValue>, seed: number): number {
  if (values.length > mostTrays)
    throw new RangeError(`more than ${mostTrays} trays, where it would not differ from the main method`);
  return permutationTest(values, seed).p;
}

/** Whether one or two trays decide the answer: the comparison again without the ones that pull hardest. */
function drivenBy(trial: Trial, compared: TreatmentComparison): Sentence[] {
  const { observations, comparison, decision, layout } = compared;
  if (layout.unit !== "tray" || observations.length < 8 || observations.length > mostTrays) return [];
  const blocked = new Set(observations.map(({ groups }) => groups[0])).size > 1;
  const model = linearModel({
    response: observations.map(({ value }) => value),
    terms: [
      ...(blocked
        ? [{ kind: "factor" as const, name: "block", values: observations.map(({ groups }) => groups[0]!) }]
        : []),
      { kind: "factor", name: "arm", values: observations.map(({ arm }) => arm) },
    ],
  });
  const pull = influence(model).map(({ cooksDistance }) => cooksDistance);
  const order = observations.map((_, index) => index).sort((a, b) => pull[b]! - pull[a]!);
  const strongest = new Set(order.slice(0, 2));
  const rest = observations.filter((_, index) => !strongest.has(index));
  const arms = comparison.arms.map(({ arm }) => arm);
  if (arms.some((arm) => rest.filter((one) => one.arm === arm).length < 2)) return [];
  const { intervalLevel: level, significanceLevel: alpha, seed } = trial.settings;
  const groupNames = comparison.groupings.map(({ name }) => name);
  const again = decidedAgain(decision.by, {
    observations: rest,
    arms,
    groupNames,
    wholeGroups: false,
    level,
    alpha,
    seed,
  });
  if (again < alpha === decision.p < alpha) return [];
  const names = [...strongest].map((index) => observations[index]!.tray).join(" and ");
  return [
    [
      `Two trays drive this result: without ${names} the difference would ${again < alpha ? "be clear" : "no longer be clear"}. Look at their rows first.`,
    ],
  ];
}

function influentialTrays(trial: Trial, compared: TreatmentComparison): Sentence[] {
  try {
    return drivenBy(trial, compared);
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    return [[`Whether single trays drive this result could not be checked (${error.message}).`]];
  }
}

const mainMethod = (decision: Decision, model: string): string =>
  ({
    model,
    logarithms: `${decision.logged?.model ?? model} of logarithms`,
    permutation: "levels dealt again, the trial being tiny",
  })[decision.by];

/** Asks the same question by a robust and a rank method, and checks what the two most influential trays do. */
export function sensitivityChecks(trial: Trial, compared: TreatmentComparison): Agreement {
  const { comparison, decision, headline, layout } = compared;
  const { significanceLevel: alpha } = trial.settings;
  const arms = comparison.arms.map(({ arm }) => arm);
  const values = unitValues(compared.observations, layout.unit !== "tray");
  const robust = attempt(() => robustP(values, headline.from.arm, headline.to.arm, comparison.pairs.length));
  const rank = attempt(() => rankP(values, arms));
  const dealt = attempt(() => permutationP(values, trial.settings.seed));
  const pair = `${levelLabel(layout.treatment, headline.to.arm)} against ${levelLabel(layout.treatment, headline.from.arm)}`;
  const rows: { method: string; tested: string; result: Tried }[] = [
    { method: `main: ${mainMethod(decision, comparison.model)}`, tested: "all levels", result: { p: decision.p } },
    ...(decision.by === "model"
      ? []
      : [
          {
            method: `beside it, on plain numbers: ${comparison.model}`,
            tested: "all levels",
            result: { p: comparison.overall.p },
          },
        ]),
    { method: "robust: errors that allow unequal spread (HC3)", tested: pair, result: robust },
    { method: "ranks: Kruskal and Wallis, group means taken out", tested: "all levels", result: rank },
    ...(decision.by === "permutation"
      ? []
      : [{ method: "permutation: levels dealt again within groups", tested: "all levels", result: dealt }]),
  ];
  const told = rows.flatMap(({ result }) => ("p" in result ? [result.p < alpha] : []));
  const agree = told.every((one) => one === told[0]);
  return {
    sentence: [
      agree
        ? `The main, robust, rank and permutation methods agree (${told.length} of ${rows.length} could be used): ${told[0] ? "a difference is shown" : "no difference is shown"}.`
        : "The main, robust, rank and permutation methods do not agree, so take the answer as less sure than its interval says.",
    ],
    table: {
      caption: `The same question by other methods: ${compared.response.label}`,
      columns: [{ label: "method" }, { label: "tested" }, { label: "p", unit: "p" }, { label: "says" }],
      rows: rows.map(({ method, tested, result }) => [
        method,
        tested,
        "p" in result ? result.p : null,
        "p" in result ? (result.p < alpha ? "differ" : "not shown to differ") : `could not be used: ${result.reason}`,
      ]),
    },
    caveats: [
      ...(agree ? [] : [["Methods disagree: see the table of methods."]]),
      ...influentialTrays(trial, compared),
    ],
  };
}
