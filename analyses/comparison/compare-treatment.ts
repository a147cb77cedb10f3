import type { CannotTell, Excluded, Sentence, Trial, Verdict } from "../../src/analysis.ts";
import { batchFactor, type Factor } from "../../src/design/factor.ts";
import { type Layout, readLayout } from "../../src/design/layout.ts";
import type { ArmComparison, ArmSummary, PairDifference } from "./arm-comparison.ts";
import { compareArms } from "./compare-arms.ts";
import { confounding, layoutGrid, layoutSentence } from "./confounding.ts";
import { type Decision, decidingTest } from "./deciding-test.ts";
import { inSentence, levelLabel } from "./level-text.ts";
import { type Observation, observe, type TrayResponse } from "./tray-response.ts";

/** Two trays are needed to see how far trays of one level differ. */
const fewestTrays = 2;

/** A treatment compared on one response, with all that a report needs to tell of it. */
export interface TreatmentComparison {
  kind: "compared";
  layout: Layout;
  response: TrayResponse;
  comparison: ArmComparison;
  /** what says whether the levels differ at all: the model's test, logarithms, or dealing the levels again */
  decision: Decision;
  observations: Observation[];
  excluded: Excluded[];
  /** the arm all others are measured against: the lowest amount, or the first by name */
  reference: ArmSummary;
  /** the arm that stands furthest to the good side */
  best: ArmSummary;
  /** best less reference; when the reference is itself best, best less the worst */
  headline: PairDifference & { from: ArmSummary; to: ArmSummary };
  certainty: Verdict;
  method: Sentence[];
  caveats: Sentence[];
}

/** The groupings the comparison has to allow for, outer first. */
export function groupingsOf(layout: Layout, trays: Trial["trays"]): Factor[] {
  const cooks = new Set(trays.flatMap((tray) => tray.batch ?? [])).size;
  const allHaveCook = trays.every((tray) => tray.batch !== undefined);
  const outer = layout.block ?? (cooks > 1 && allHaveCook ? batchFactor : undefined);
  const groups = [outer, layout.unit === "tray" ? undefined : layout.unit].filter(
    (one): one is Factor => one !== undefined,
  );
  return groups.filter((factor, index) => groups.findIndex(({ key }) => key === factor.key) === index);
}

const dropped = (reason: string, trays: ReadonlyArray<{ trayId: string }>): Excluded[] =>
  trays.length === 0 ? [] : [{ trays: trays.map(({ trayId }) => trayId), reason }];

/** The difference between two arms, the second less the first, whichever way round the comparison lists them. */
export function differenceBetween(
  comparison: ArmComparison,
  from: string,
  to: string,
): TreatmentComparison["headline"] {
  const summary = (level: string) => comparison.arms.find(({ arm }) => arm === level)!;
  const ends = { from: summary(from), to: summary(to) };
  const pair = comparison.pairs.find(({ first, second }) => first === from && second === to);
  if (pair !== undefined) return { ...pair, ...ends };
  const { difference, low, high, p } = comparison.pairs.find(({ first, second }) => first === to && second === from)!;
  return { first: from, second: to, difference: -difference, low: -high, high: -low, p, ...ends };
}

/** A comparison told of the same two levels as another one; unchanged where it does not have both. */
export function sameLevelsAs(compared: TreatmentComparison, other: TreatmentComparison): TreatmentComparison {
  const [from, to] = [other.headline.from.arm, other.headline.to.arm];
  const levels = compared.comparison.arms.map(({ arm }) => arm);
  if (!levels.includes(from) || !levels.includes(to)) return compared;
  return { ...compared, headline: differenceBetween(compared.comparison, from, to) };
}

/**
 * Compares the levels of a treatment on one response by the method its layout calls for.
 * Asked again of the same trays and settings it gives the same object, since many questions start from it.
 * @param response known by its label; it may hang on the tray alone
 * @param better which way is good
 * @returns the comparison, or why there is none
 */
export function compareTreatment(
  trial: Trial,
  treatment: Factor,
  response: TrayResponse,
  better: "higher" | "lower",
): TreatmentComparison | CannotTell {
  return trial.memo.once(
    [trial.trays, trial.settings],
    `comparison ${JSON.stringify([treatment.key, response.label, better])}`,
    () => compare(trial, treatment, response, better),
  );
}

/** Why a treatment cannot be compared, with its layout. */
function nothingCompared(
  layout: Layout,
  reason: Sentence,
  wouldSettle: Sentence,
  excluded: Excluded[] = [],
): CannotTell {
  const grid = layoutGrid(layout);
  return {
    kind: "cannot-tell",
    reason,
    wouldSettle,
    estimates: [],
    tables: grid === undefined ? [] : [grid],
    charts: [],
    excluded,
    method: [layoutSentence(layout)],
    caveats: [],
  };
}

/** Levels with the trays a comparison needs, in the layout's order. */
function comparableArms(layout: Layout, observations: ReadonlyArray<Observation>): string[] {
  const counts = new Map<string, number>();
  for (const { arm } of observations) counts.set(arm, (counts.get(arm) ?? 0) + 1);
  return layout.arms.map(({ level }) => level).filter((level) => (counts.get(level) ?? 0) >= fewestTrays);
}

/** Why these trays cannot be compared, and what would help; undefined where they can. */
function whyNot(
  arms: ReadonlyArray<string>,
  used: ReadonlyArray<Observation>,
  treatment: Factor,
  response: TrayResponse,
): [reason: Sentence, wouldSettle: Sentence] | undefined {
  const what = inSentence(treatment.label);
  if (arms.length < 2) {
    return [
      [
        `Cannot tell whether ${what} changes ${response.label}: ${arms.length === 0 ? "no level has" : "only one level has"} the ${fewestTrays} trays with a result that a comparison needs.`,
      ],
      [
        `Harvest at least ${fewestTrays} trays of each level, from the same cooks; the question on how many more trays says how many would decide it.`,
      ],
    ];
  }
  const varies = arms.some(
    (level) => new Set(used.flatMap(({ arm, value }) => (arm === level ? [value] : []))).size > 1,
  );
  if (varies) return undefined;
  return [
    [
      `Cannot tell whether ${what} changes ${response.label}: trays of one level all have the same value, which real trays do not.`,
    ],
    ["Weigh (or date) each tray on its own and type what was read."],
  ];
}

/** The reference, the best arm, and the difference to tell first. */
function headlineOf(
  comparison: ArmComparison,
  better: "higher" | "lower",
): Pick<TreatmentComparison, "reference" | "best" | "headline"> {
  const sign = better === "higher" ? 1 : -1;
  const ranked = [...comparison.arms].sort((a, b) => sign * (b.adjustedMean - a.adjustedMean));
  const best = ranked[0]!;
  const reference = comparison.arms[0]!;
  const from = best === reference ? ranked.at(-1)! : reference;
  return { reference, best, headline: differenceBetween(comparison, from.arm, best.arm) };
}

/** How sure the headline is: settled where the deciding test is beyond chance and its range leaves out 0. */
function certaintyOf({ p, logged }: Decision, headline: TreatmentComparison["headline"], alpha: number): Verdict {
  const { low, high } = logged === undefined ? headline : differenceBetween(logged, headline.from.arm, headline.to.arm);
  if (p < alpha && low * high > 0) return "settled";
  return p < Math.max(0.2, alpha) ? "leaning" : "open";
}

function compare(
  trial: Trial,
  treatment: Factor,
  response: TrayResponse,
  better: "higher" | "lower",
): TreatmentComparison | CannotTell {
  const { intervalLevel: level, significanceLevel: alpha, seed } = trial.settings;
  const layout = readLayout(trial.trays, treatment, trial.memo);
  const verdict = confounding(layout);
  if (verdict.kind === "not-separable") return nothingCompared(layout, verdict.reason, verdict.wouldSettle);

  const groupings = groupingsOf(layout, trial.trays);
  const { observations, excluded } = observe(trial.trays, treatment, response, groupings);
  const arms = comparableArms(layout, observations);
  const used = observations.filter(({ arm }) => arms.includes(arm));
  const refused = whyNot(arms, used, treatment, response);
  if (refused !== undefined) return nothingCompared(layout, ...refused, excluded);

  const groupNames = groupings.map(({ label }) => inSentence(label));
  const input = { observations: used, arms, groupNames, level };
  const comparison = compareArms(input);
  const ends = headlineOf(comparison, better);
  const decision = decidingTest({ ...input, wholeGroups: layout.unit !== "tray", alpha, seed }, comparison);
  const tooThin = dropped(
    `their level has fewer than ${fewestTrays} trays with a result`,
    observations.filter(({ arm }) => !arms.includes(arm)).map(({ tray }) => ({ trayId: tray })),
  );
  const thin = layout.arms.filter((one) => !arms.includes(one.level));
  return {
    kind: "compared",
    layout,
    response,
    comparison,
    decision,
    observations: used,
    excluded: [...excluded, ...tooThin],
    ...ends,
    certainty: certaintyOf(decision, ends.headline, alpha),
    method: [layoutSentence(layout), ...comparison.method, ...decision.method],
    caveats: [
      ...verdict.caveats,
      ...comparison.caveats,
      ...decision.caveats,
      ...(thin.length === 0
        ? []
        : [[`Left out for want of trays: ${thin.map((one) => levelLabel(treatment, one.level)).join(", ")}.`]]),
      ...(groupings.length === 0
        ? [["No cook is recorded (or there was only one), so how much another cook would differ is not known."]]
        : []),
    ],
  };
}
