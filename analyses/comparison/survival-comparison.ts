import type { Chart, Sentence, Table, Trial } from "../../src/analysis.ts";
import type { Arm } from "../../src/design/arm.ts";
import type { Factor } from "../../src/design/factor.ts";
import type { Layout } from "../../src/design/layout.ts";
import { chiSquareUpperTail } from "../../src/statistics/distributions/chi-square.ts";
import { seededRandom } from "../../src/statistics/random/seeded-random.ts";
import { kaplanMeier } from "../../src/statistics/time-to-event/kaplan-meier.ts";
import { turnbullCurve } from "../../src/statistics/time-to-event/turnbull-curve.ts";
import { weibullRegression } from "../../src/statistics/time-to-event/weibull-regression.ts";
import { weibullTime } from "../../src/statistics/time-to-event/weibull-time.ts";
import { inSentence, levelLabel } from "./level-text.ts";
import { colonisationWait, lastDateOf, type WaitingTime } from "./tray-days.ts";

interface Waiting {
  arm: string;
  group: string | undefined;
  time: WaitingTime;
}

/** Waiting times of a treatment's arms, unfinished trays included. */
export interface SurvivalComparison {
  kind: "compared";
  /** trays still waiting */
  unfinished: number;
  trays: number;
  /** likelihood-ratio test that no arm takes longer than another */
  p: number;
  /** median days by arm */
  medians: { arm: string; median: number; low: number; high: number; waiting: number; trays: number }[];
  /** how many times as long each arm takes as the first */
  ratios: { arm: string; ratio: number; low: number; high: number }[];
  chart: Chart;
  table: Table;
  method: Sentence;
}

const waitsOf = (arms: ReadonlyArray<Arm>, trial: Trial, block: Factor | undefined): Waiting[] => {
  const last = lastDateOf(trial.trays);
  return arms.flatMap(({ level, trays }) =>
    trays.flatMap((tray): Waiting[] => {
      const time = colonisationWait(tray, last);
      return time === undefined ? [] : [{ arm: level, group: block?.level(tray), time }];
    }),
  );
};

/** Above this many blocks a level for each costs too much, and trays are many enough to do without. */
const mostBlocks = 60;
/** Above this many trays the curve for times known as intervals gives way to the one for times known to the day. */
const mostIntervals = 1000;

/** Above this many trays a random draw of them is compared: their share still waiting is known to a fraction of a percent. */
const mostTrays = 20_000;

/** Days and the share of trays still waiting after each. */
function stepsOf(times: ReadonlyArray<WaitingTime>): { days: number[]; share: number[] } {
  if (times.length > mostIntervals) {
    const { steps } = kaplanMeier({
      times: times.map(({ lower, upper }) => (Number.isFinite(upper) ? upper : lower)),
      events: times.map(({ upper }) => Number.isFinite(upper)),
    });
    return { days: steps.map(({ time }) => time), share: steps.map(({ survival }) => survival) };
  }
  const { steps } = turnbullCurve({ lower: times.map(({ lower }) => lower), upper: times.map(({ upper }) => upper) });
  const ended = steps.filter(({ to }) => Number.isFinite(to));
  return { days: ended.map(({ to }) => to), share: ended.map(({ survival }) => survival) };
}

/** The share of each arm's trays still waiting, as steps from day 0. */
function waitingChart(waits: ReadonlyArray<Waiting>, layout: Layout, arms: ReadonlyArray<Arm>): Chart {
  const groups = arms.map(({ level }) => {
    const own = waits.filter(({ arm }) => arm === level);
    const steps = stepsOf(own.map(({ time }) => time));
    return {
      group: levelLabel(layout.treatment, level),
      days: [0, ...steps.days],
      share: [1, ...steps.share],
    };
  });
  return {
    kind: "waiting",
    title: `Trays not yet colonised, by ${inSentence(layout.treatment.label)}`,
    description: groups
      .map(({ group, days, share }) => {
        const half = days.find((_, index) => share[index]! <= 0.5);
        return `${group}: half colonised by day ${half ?? "not yet"}`;
      })
      .join("; "),
    timeLabel: "days since inoculation",
    groups,
  };
}

/**
 * Compares the arms' days to colonise with unfinished trays counted as still waiting (Weibull regression for times known
 * to the day, each block with a level of its own).
 * @returns undefined when an arm has no finished tray, or the law cannot be fitted to these trays (then the plain comparison stands alone)
 */
export function compareSurvival(
  trial: Trial,
  layout: Layout,
  armLevels: ReadonlyArray<string>,
): SurvivalComparison | { kind: "none"; reason: string } {
  const arms = layout.arms.filter(({ level }) => armLevels.includes(level));
  const all = waitsOf(arms, trial, layout.block);
  const waits = all.length > mostTrays ? seededRandom(trial.settings.seed).shuffle(all).slice(0, mostTrays) : all;
  const finished = (own: ReadonlyArray<Waiting>) => own.filter(({ time }) => Number.isFinite(time.upper)).length;
  const empty = arms.find(({ level }) => finished(waits.filter(({ arm }) => arm === level)) === 0);
  if (empty !== undefined) {
    return { kind: "none", reason: `no tray of ${levelLabel(layout.treatment, empty.level)} has colonised yet` };
  }
  const blocks = new Set(waits.map(({ group }) => group));
  const blocked = layout.block !== undefined && blocks.size <= mostBlocks && !blocks.has(undefined);
  const sample = { lower: waits.map(({ time }) => time.lower), upper: waits.map(({ time }) => time.upper) };
  const armTerm = {
    kind: "factor" as const,
    name: "arm",
    values: waits.map(({ arm }) => arm),
    reference: arms[0]!.level,
  };
  const blockTerms = blocked
    ? [{ kind: "factor" as const, name: "block", values: waits.map(({ group }) => group!) }]
    : [];
  const { intervalLevel: level } = trial.settings;
  try {
    const fit = weibullRegression({ ...sample, terms: [armTerm, ...blockTerms], level });
    const without = weibullRegression({ ...sample, terms: blockTerms, level });
    const medians = arms.map(({ level: arm }) => {
      const own = waits.filter((one) => one.arm === arm);
      const { estimate, lower, upper } = weibullTime(fit, 0.5, { levels: { arm } });
      return { arm, median: estimate, low: lower, high: upper, waiting: own.length - finished(own), trays: own.length };
    });
    const ratios = arms.slice(1).map(({ level: arm }) => {
      const { timeRatio } = fit.coefficients.find(({ name }) => name === `arm: ${arm}`)!;
      return { arm, ratio: timeRatio.estimate, low: timeRatio.lower, high: timeRatio.upper };
    });
    const { treatment } = layout;
    return {
      kind: "compared",
      unfinished: waits.length - finished(waits),
      trays: waits.length,
      p: chiSquareUpperTail(Math.max(0, 2 * (fit.logLikelihood - without.logLikelihood)), arms.length - 1),
      medians,
      ratios,
      chart: waitingChart(waits, layout, arms),
      table: {
        caption: `Median days to colonise by ${inSentence(treatment.label)}, unfinished trays counted as still waiting`,
        columns: [
          { label: treatment.label },
          { label: "trays", unit: "trays" },
          { label: "still waiting", unit: "trays" },
          { label: "median", unit: "days" },
          { label: "from", unit: "days" },
          { label: "to", unit: "days" },
        ],
        rows: medians.map(({ arm, median, low, high, waiting, trays }) => [
          levelLabel(treatment, arm),
          trays,
          waiting,
          median,
          low,
          high,
        ]),
      },
      method: [
        `Weibull regression of days to colonise, each known to the day and unfinished trays as still waiting${blocked ? `, with a level of its own for each ${inSentence(layout.block!.label)}` : ""}${all.length > waits.length ? `, on ${waits.length} of ${all.length} trays drawn at random (seed ${trial.settings.seed})` : ""}.`,
      ],
    };
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    return { kind: "none", reason: error.message };
  }
}
