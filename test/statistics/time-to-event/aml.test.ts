import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { kaplanMeier } from "../../../src/statistics/time-to-event/kaplan-meier.ts";
import type { SurvivalSample } from "../../../src/statistics/time-to-event/survival-sample.ts";
import { weibullRegression } from "../../../src/statistics/time-to-event/weibull-regression.ts";
import { expectAgreement } from "../../agreement.ts";

// Miller 1997, Survival Analysis; reference values by the program named in the file

interface Curve {
  time: number[];
  nRisk: number[];
  nEvent: number[];
  nCensor: number[];
  surv: number[];
  /** the program prints "NaN" where the share is 0 */
  seGreenwood: (number | "NaN")[];
  lower95log: (number | null)[];
  upper95log: (number | null)[];
  lower95loglog: (number | null)[];
  upper95loglog: (number | null)[];
  median: number;
  /** null: not reached */
  medianCIlog: (number | null)[];
  medianCIloglog: (number | null)[];
}
interface File {
  originallyPublished: string;
  madeWith: string;
  data: { time: number[]; status: number[]; x: string[] };
  expected: {
    kaplanMeier: Record<string, Curve>;
    logRank: { X2: number; df: number; p: number; observed: number[]; expected: number[] };
    petoPetoRho1: { X2: number; p: number };
    weibullAFT: {
      names: string[];
      estimate: number[];
      se: number[];
      z: number[];
      p: number[];
      scale: number;
      logLik: number;
      interceptOnly: { intercept: number; scale: number; logLik: number };
    };
  };
  tolerance: { relative: number; absolute: number; pValueRelative: number };
}

const file = JSON.parse(readFileSync(new URL("../../reference/survival-aml.json", import.meta.url), "utf8")) as File;
const { data, expected, tolerance } = file;
const digits = -Math.log10(tolerance.relative);
const pDigits = -Math.log10(tolerance.pValueRelative);
const row = (method: string, statistic: string) => ({
  method,
  dataset: "leukaemia maintenance (Miller)",
  statistic,
  source: `${file.originallyPublished}; reference values ${file.madeWith}`,
});
const chosen = data.time.map((_, i) => i);
const sampleOf = (rows: number[]): SurvivalSample => ({
  times: rows.map((i) => data.time[i]!),
  events: rows.map((i) => data.status[i] === 1),
});

describe.each(Object.keys(expected.kaplanMeier))("Kaplan-Meier: %s", (group) => {
  const curve = expected.kaplanMeier[group]!;
  const sample = sampleOf(group === "all" ? chosen : chosen.filter((i) => data.x[i] === group));
  test.each(["log", "log-log"] as const)("%s limits", (scale) => {
    const ours = kaplanMeier(sample, { scale });
    const [lower, upper, median] =
      scale === "log"
        ? [curve.lower95log, curve.upper95log, curve.medianCIlog]
        : [curve.lower95loglog, curve.upper95loglog, curve.medianCIloglog];
    expect(ours.steps.map((step) => [step.time, step.atRisk, step.events, step.censored])).toEqual(
      curve.time.map((time, k) => [time, curve.nRisk[k], curve.nEvent[k], curve.nCensor[k]]),
    );
    const pairs: [number, number][] = [[ours.median.estimate, curve.median]];
    ours.steps.forEach((step, k) => {
      pairs.push([step.survival, curve.surv[k]!]);
      if (step.limits.kind === "none") {
        expect([curve.seGreenwood[k], lower[k], upper[k]]).toEqual(["NaN", null, null]);
        return;
      }
      pairs.push(
        [step.limits.standardError, Number(curve.seGreenwood[k])],
        [step.limits.lower, lower[k]!],
        [step.limits.upper, upper[k]!],
      );
    });
    const limit = (value: number | null | undefined) => value ?? Number.POSITIVE_INFINITY;
    expect([ours.median.lower, ours.median.upper]).toEqual([limit(median[0]), limit(median[1])]);
    expectAgreement(
      row("Kaplan-Meier", `${group}: share, Greenwood error, ${scale} limits, median`),
      pairs,
      digits,
      tolerance.absolute,
    );
  });
});

test("Weibull regression, right-censored", () => {
  const upper = data.time.map((time, i) => (data.status[i] === 1 ? time : Number.POSITIVE_INFINITY));
  const fit = weibullRegression({
    lower: data.time,
    upper,
    terms: [{ kind: "factor", name: "group", values: data.x }],
  });
  const reported = expected.weibullAFT;
  const rows = [...fit.coefficients, fit.scale.log];
  expect(reported.names.length).toBe(rows.length);
  expectAgreement(
    row("Weibull regression", "coefficients, standard errors, z, scale, log likelihood"),
    [
      ...rows.flatMap((one, k): [number, number][] => [
        [one.estimate, reported.estimate[k]!],
        [one.standardError, reported.se[k]!],
        [one.z, reported.z[k]!],
      ]),
      [fit.scale.estimate, reported.scale],
      [fit.logLikelihood, reported.logLik],
    ],
    digits,
  );
  expectAgreement(
    row("Weibull regression", "p"),
    rows.map((one, k): [number, number] => [one.p, reported.p[k]!]),
    pDigits,
  );
  const common = weibullRegression({ lower: data.time, upper, terms: [] });
  expectAgreement(
    row("Weibull regression", "no terms: intercept, scale, log likelihood"),
    [
      [common.coefficients[0]!.estimate, reported.interceptOnly.intercept],
      [common.scale.estimate, reported.interceptOnly.scale],
      [common.logLikelihood, reported.interceptOnly.logLik],
    ],
    digits,
  );
});
