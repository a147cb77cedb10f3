import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { kaplanMeier } from "../../../src/statistics/time-to-event/kaplan-meier.ts";
import { weibullRegression } from "../../../src/statistics/time-to-event/weibull-regression.ts";
import { assertClose, expectAgreement } from "../../agreement.ts";

// Weeks of remission under 6-mercaptopurine and placebo: Freireich et al. 1963, Blood 21:699-716, as printed in
// Gehan 1965, Biometrika 52:203-223 (from memory); + marks a time still in remission.
const treated = "6 6 6 6+ 7 9+ 10 10+ 11+ 13 16 17+ 19+ 20+ 22 23 25+ 32+ 32+ 34+ 35+".split(" ");
const placebo = "1 1 2 2 3 4 4 5 5 8 8 8 8 11 11 12 12 15 17 22 23".split(" ");
const sampleOf = (marks: string[]) => ({
  times: marks.map((mark) => Number.parseInt(mark, 10)),
  events: marks.map((mark) => !mark.endsWith("+")),
});
const both = sampleOf([...treated, ...placebo]);
const arm = [...treated.map(() => "treated"), ...placebo.map(() => "placebo")];
const upper = both.times.map((time, i) => (both.events[i] ? time : Number.POSITIVE_INFINITY));
const arms = [{ kind: "factor" as const, name: "arm", values: arm }];

describe("remission times (Gehan 1965)", () => {
  test("curve and Greenwood errors as printed in Kalbfleisch and Prentice (from memory)", () => {
    const curve = kaplanMeier(sampleOf(treated));
    const events = curve.steps.filter((step) => step.events > 0);
    const printed = [
      [6, 0.857, 0.0764],
      [7, 0.807, 0.0869],
      [10, 0.753, 0.0963],
      [13, 0.69, 0.1068],
      [16, 0.627, 0.1141],
      [22, 0.538, 0.1282],
      [23, 0.448, 0.1346],
    ];
    expect(events.length).toBe(printed.length);
    events.forEach((step, k) => {
      expect(step.time).toBe(printed[k]![0]);
      assertClose(step.survival, printed[k]![1]!, 0.0005);
      expect(step.limits.kind).toBe("interval");
      if (step.limits.kind === "interval") assertClose(step.limits.standardError, printed[k]![2]!, 0.00005);
    });
    expect(curve.median.estimate).toBe(23);
    expect(kaplanMeier(sampleOf(placebo)).median.estimate).toBe(8);
  });
  test("Weibull: printed in Venables and Ripley 2002, section 13.2 (from memory)", () => {
    const fit = weibullRegression({ lower: both.times, upper, terms: [{ ...arms[0]!, reference: "treated" }] });
    assertClose(fit.coefficients[0]!.estimate, 3.516, 0.0005);
    assertClose(fit.coefficients[0]!.standardError, 0.252, 0.0005);
    assertClose(fit.coefficients[1]!.estimate, -1.267, 0.0005);
    assertClose(fit.coefficients[1]!.standardError, 0.311, 0.0005);
    assertClose(fit.scale.estimate, 0.732, 0.0005);
    assertClose(fit.logLikelihood, -106.6, 0.05);
    assertClose(fit.overall!.likelihoodRatio, 19.65, 0.005);
  });
  test("exponential: rates are events over time at risk, 9/359 and 21/182", () => {
    const fit = weibullRegression({ lower: both.times, upper, terms: arms, law: "exponential" });
    assertClose(fit.coefficients[0]!.estimate, Math.log(182 / 21), 1e-12);
    assertClose(fit.coefficients[1]!.timeRatio.estimate, 359 / 9 / (182 / 21), 1e-11);
    assertClose(fit.coefficients[1]!.hazardRatio.estimate, (9 / 359) * (182 / 21), 1e-12);
    assertClose(fit.coefficients[1]!.standardError, Math.sqrt(1 / 9 + 1 / 21), 1e-12);
    assertClose(fit.logLikelihood, 9 * Math.log(9 / 359) + 21 * Math.log(21 / 182) - 30, 1e-10);
    expect(fit.scale.log.standardError).toBe(0);
  });
});

interface Fitted {
  estimate: number[];
  standardError: number[];
  logLikelihood: number;
}
const file = JSON.parse(
  readFileSync(new URL("../../reference/interval-censored-weibull.json", import.meta.url), "utf8"),
) as {
  source: string;
  madeWith: string;
  data: { lower: number[]; upper: (number | "Infinity")[]; group: string[] };
  expected: { weibull: Fitted; exponential: Fitted; amlLookedAtDaily: Fitted };
  tolerance: { relative: number };
};
const visits = { lower: file.data.lower, upper: file.data.upper.map(Number) };

describe("interval-censored Weibull", () => {
  const published = file.source.split(",")[0]!;
  const compare = (dataset: string, source: string, fit: ReturnType<typeof weibullRegression>, expected: Fitted) => {
    const rows = fit.law === "weibull" ? [...fit.coefficients, fit.scale.log] : fit.coefficients;
    expect(rows.length).toBe(expected.estimate.length);
    expectAgreement(
      {
        method: `${fit.law} regression, interval-censored`,
        dataset,
        statistic: "coefficients, standard errors, log likelihood",
        source: `${source}; values by 40-digit arithmetic`,
      },
      [
        ...rows.flatMap((one, k): [number, number][] => [
          [one.estimate, expected.estimate[k]!],
          [one.standardError, expected.standardError[k]!],
        ]),
        [fit.logLikelihood, expected.logLikelihood],
      ],
      -Math.log10(file.tolerance.relative),
    );
  };
  const terms = [{ kind: "factor" as const, name: "group", values: file.data.group }];
  test("visits months apart", () => {
    compare("breast retraction", published, weibullRegression({ ...visits, terms }), file.expected.weibull);
    const constant = weibullRegression({ ...visits, terms, law: "exponential" });
    compare("breast retraction", published, constant, file.expected.exponential);
  });
  test("daily looks", () => {
    const aml = JSON.parse(readFileSync(new URL("../../reference/survival-aml.json", import.meta.url), "utf8")) as {
      data: { time: number[]; status: number[]; x: string[] };
    };
    const { time, status, x } = aml.data;
    const fit = weibullRegression({
      lower: time.map((t, i) => (status[i] === 1 ? t - 1 : t)),
      upper: time.map((t, i) => (status[i] === 1 ? t : Number.POSITIVE_INFINITY)),
      terms: [{ kind: "factor", name: "group", values: x }],
    });
    compare("leukaemia, looked at once a unit", "times of Miller 1997", fit, file.expected.amlLookedAtDaily);
  });
  test("ever narrower intervals tend to the fit of exact times", () => {
    const exact = weibullRegression({ lower: both.times, upper, terms: arms });
    const narrow = weibullRegression({
      lower: both.times.map((time, i) => (both.events[i] ? time * (1 - 1e-7) : time)),
      upper: both.times.map((time, i) => (both.events[i] ? time * (1 + 1e-7) : Number.POSITIVE_INFINITY)),
      terms: arms,
    });
    narrow.coefficients.forEach((one, k) => {
      assertClose(one.estimate, exact.coefficients[k]!.estimate, 1e-8);
      assertClose(one.standardError, exact.coefficients[k]!.standardError, 1e-8);
    });
    assertClose(narrow.scale.estimate, exact.scale.estimate, 1e-8);
  });
});
