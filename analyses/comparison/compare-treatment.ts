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

function compare(
  trial: Trial,
  treatment: Factor,
  response: TrayResponse,
  better: "higher" | "lower",
): TreatmentComparison | CannotTell {
  const { settings } = trial;
  const layout = readLayout(trial.trays, treatment, trial.memo);
  const verdict = confounding(layout);
  const grid = layoutGrid(layout);
  const nothing = (reason: Sentence, wouldSettle: Sentence, excluded: Excluded[] = []): CannotTell => ({
    kind: "cannot-tell",
    reason,
    wouldSettle,
    estimates: [],
    tables: grid === undefined ? [] : [grid],
    charts: [],
    excluded,
    method: [layoutSentence(layout)],
    caveats: [],
  });
  if (verdict.kind === "not-separable") return nothing(verdict.reason, verdict.wouldSettle);

  const groupings = groupingsOf(layout, trial.trays);
  const { observations, excluded } = observe(trial.trays, treatment, response, groupings);
  const minimum = fewestTrays;
  const counts = new Map<string, number>();
  for (const { arm } of observations) counts.set(arm, (counts.get(arm) ?? 0) + 1);
  const arms = layout.arms.map(({ level }) => level).filter((level) => (counts.get(level) ?? 0) >= minimum);
  const thin = layout.arms.filter(({ level }) => !arms.includes(level));
  const what = inSentence(treatment.label);
  if (arms.length < 2) {
    return nothing(
      [
        `Cannot tell whether ${what} changes ${response.label}: ${arms.length === 0 ? "no level has" : "only one level has"} the ${minimum} trays with a result that a comparison needs.`,
      ],
      [
        `Harvest at least ${minimum} trays of each level, from the same cooks; the question on how many more trays says how many would decide it.`,
      ],
      excluded,
    );
  }
  const used = observations.filter(({ arm }) => arms.includes(arm));
  const tooThin = dropped(
    `their level has fewer than ${minimum} trays with a result`,
    observations.filter(({ arm }) => !arms.includes(arm)).map(({ tray }) => ({ trayId: tray })),
  );
  const varies = arms.some(
    (level) => new Set(used.flatMap(({ arm, value }) => (arm === level ? [value] : []))).size > 1,
  );
  if (!varies) {
    return nothing(
      [
        `Cannot tell whether ${what} changes ${response.label}: trays of one level all have the same value, which real trays do not.`,
      ],
      ["Weigh (or date) each tray on its own and type what was read."],
      excluded,
    );
  }
  const comparison = compareArms({
    observations: used,
    arms,
    groupNames: groupings.map(({ label }) => inSentence(label)),
    level: settings.intervalLevel,
  });
  const sign = better === "higher" ? 1 : -1;
  const ranked = [...comparison.arms].sort((a, b) => sign * (b.adjustedMean - a.adjustedMean));
  const best = ranked[0]!;
  const reference = comparison.arms[0]!;
  const from = best === reference ? ranked.at(-1)! : reference;
  const headline = differenceBetween(comparison, from.arm, best.arm);
  const alpha = settings.significanceLevel;
  const decision = decidingTest(
    {
      observations: used,
      arms,
      groupNames: groupings.map(({ label }) => inSentence(label)),
      wholeGroups: layout.unit !== "tray",
      level: settings.intervalLevel,
      alpha,
      seed: settings.seed,
    },
    comparison,
  );
  const { low, high } =
    decision.logged === undefined ? headline : differenceBetween(decision.logged, from.arm, best.arm);
  const clear = decision.p < alpha && low * high > 0;
  return {
    kind: "compared",
    layout,
    response,
    comparison,
    decision,
    observations: used,
    excluded: [...excluded, ...tooThin],
    reference,
    best,
    headline,
    certainty: clear ? "settled" : decision.p < Math.max(0.2, alpha) ? "leaning" : "open",
    method: [layoutSentence(layout), ...comparison.method, ...decision.method],
    caveats: [
      ...verdict.caveats,
      ...comparison.caveats,
      ...decision.caveats,
      ...(thin.length === 0
        ? []
        : [[`Left out for want of trays: ${thin.map(({ level }) => levelLabel(treatment, level)).join(", ")}.`]]),
      ...(groupings.length === 0
        ? [["No cook is recorded (or there was only one), so how much another cook would differ is not known."]]
        : []),
    ],
  };
}
