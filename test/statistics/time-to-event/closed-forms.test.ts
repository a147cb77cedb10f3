import { describe, expect, test } from "vitest";
import { chiSquareUpperTail } from "../../../src/statistics/distributions/chi-square.ts";
import { normalUpperTail } from "../../../src/statistics/distributions/normal.ts";
import { kaplanMeier } from "../../../src/statistics/time-to-event/kaplan-meier.ts";
import { weibullRegression } from "../../../src/statistics/time-to-event/weibull-regression.ts";
import { assertClose } from "../../agreement.ts";

const never = Number.POSITIVE_INFINITY;
const z95 = 1.959963984540054; // of the normal at 0.975: any textbook's table
const sum = (values: ReadonlyArray<number>): number => values.reduce((all, one) => all + one, 0);

/** Kalbfleisch and Prentice 2002, The Statistical Analysis of Failure Time Data, section 3.2 (from memory; by algebra). */
describe("exponential times: the textbook's closed forms", () => {
  const lower = [2, 3, 5, 8, 1, 4, 4, 9, 12];
  const done = [true, true, false, true, true, true, false, true, false];
  const upper = lower.map((time, i) => (done[i] ? time : never));
  const group = ["a", "a", "a", "a", "b", "b", "b", "b", "b"];
  const of = (name: string | undefined) => {
    const own = lower.map((_, i) => i).filter((i) => name === undefined || group[i] === name);
    return { events: own.filter((i) => done[i]).length, time: sum(own.map((i) => lower[i]!)) };
  };

  test("one rate: events over the time waited, its error one over the root of the events", () => {
    const { events, time } = of(undefined);
    for (const level of [0.95, 0.9]) {
      const fit = weibullRegression({ lower, upper, terms: [], law: "exponential", level });
      const z = level === 0.95 ? z95 : 1.6448536269514722;
      const [mean] = fit.coefficients;
      assertClose(mean!.timeRatio.estimate, time / events, 1e-8);
      assertClose(mean!.hazardRatio.estimate, events / time, 1e-9);
      assertClose(mean!.standardError, 1 / Math.sqrt(events), 1e-9);
      assertClose(mean!.upper - mean!.estimate, z / Math.sqrt(events), 1e-9);
      assertClose(mean!.estimate - mean!.lower, z / Math.sqrt(events), 1e-9);
      assertClose(mean!.timeRatio.upper, Math.exp(mean!.upper), 1e-9);
      assertClose(mean!.timeRatio.lower, Math.exp(mean!.lower), 1e-9);
      assertClose(mean!.hazardRatio.upper, Math.exp(-mean!.lower), 1e-9);
      assertClose(mean!.hazardRatio.lower, Math.exp(-mean!.upper), 1e-9);
      assertClose(fit.logLikelihood, events * Math.log(events / time) - events, 1e-9);
      expect(fit).toMatchObject({ law: "exponential", observations: 9, level, collinear: [] });
      expect(fit.overall).toBeUndefined();
      // the scale is held at 1, without error
      for (const held of [fit.scale, fit.shape]) expect([held.estimate, held.lower, held.upper]).toEqual([1, 1, 1]);
      expect(fit.scale.log).toMatchObject({ estimate: -0, standardError: 0, z: 0, p: 1 });
    }
  });

  test("two rates: their ratio, its error, and the likelihood ratio against one rate", () => {
    const [a, b, all] = [of("a"), of("b"), of(undefined)];
    const fit = weibullRegression({
      lower,
      upper,
      terms: [{ kind: "factor", name: "strain", values: group }],
      law: "exponential",
    });
    const effect = fit.coefficients[1]!;
    expect(effect.name).toBe("strain: b");
    assertClose(effect.hazardRatio.estimate, b.events / b.time / (a.events / a.time), 1e-8);
    assertClose(effect.standardError, Math.sqrt(1 / a.events + 1 / b.events), 1e-8);
    assertClose(effect.z, effect.estimate / effect.standardError, 1e-12);
    assertClose(effect.p, 2 * normalUpperTail(Math.abs(effect.z)), 1e-12);
    const log = ({ events, time }: { events: number; time: number }) => events * Math.log(events / time) - events;
    const ratio = 2 * (log(a) + log(b) - log(all));
    assertClose(fit.overall!.likelihoodRatio, ratio, 1e-8);
    assertClose(fit.overall!.p, chiSquareUpperTail(ratio, 1), 1e-8);
    expect(fit.overall!.df).toBe(1);
  });

  test("looked at once a day: the share that goes each day is a proportion", () => {
    // 6 within the first day, 3 within the second, 1 within the third, 2 still there after it: 10 of 12 + 6 + 3 looks
    const days = [...new Array(6).fill(1), ...new Array(3).fill(2), 3];
    const fit = weibullRegression({
      lower: [...days.map((day: number) => day - 1), 3, 3],
      upper: [...days, never, never],
      terms: [],
      law: "exponential",
    });
    const share = 10 / (12 + 6 + 3);
    assertClose(Math.exp(-fit.coefficients[0]!.hazardRatio.estimate), 1 - share, 1e-9);
    assertClose(fit.logLikelihood, 10 * Math.log(share) + 11 * Math.log(1 - share), 1e-9);
    // looked at only once: done or not
    const once = weibullRegression({
      lower: [0, 0, 0, 4, 4],
      upper: [4, 4, 4, never, never],
      terms: [],
      law: "exponential",
    });
    assertClose(Math.exp(-4 * once.coefficients[0]!.hazardRatio.estimate), 2 / 5, 1e-9);
  });
});

test("Weibull: its two score equations hold, and a hazard ratio is one over the time ratio to the power of the shape", () => {
  const lower = [3, 5, 6, 9, 4, 8, 11, 14];
  const upper = [3, 5, never, 9, 4, 8, 11, never];
  const { shape, coefficients, scale } = weibullRegression({ lower, upper, terms: [] });
  const k = shape.estimate;
  // Kalbfleisch and Prentice 2002, section 3.3 (from memory; by algebra): 1/k + mean log event = weighted mean log time
  const powers = lower.map((time) => time ** k);
  const events = lower.filter((_, i) => upper[i] !== never);
  assertClose(coefficients[0]!.timeRatio.estimate ** k, sum(powers) / events.length, 1e-6);
  const weighted = sum(lower.map((time, i) => powers[i]! * Math.log(time))) / sum(powers);
  assertClose(1 / k + sum(events.map(Math.log)) / events.length, weighted, 1e-9);
  assertClose(scale.estimate, 1 / k, 1e-12);
  assertClose(shape.lower, 1 / scale.upper, 1e-12);
  assertClose(shape.upper, 1 / scale.lower, 1e-12);
  assertClose(Math.log(scale.upper) - Math.log(scale.estimate), z95 * scale.log.standardError, 1e-12);
  const values = [0, 0, 0, 0, 1, 1, 1, 1];
  const two = weibullRegression({ lower, upper, terms: [{ kind: "number", name: "cold", values }] });
  const effect = two.coefficients[1]!;
  assertClose(effect.hazardRatio.estimate, effect.timeRatio.estimate ** -two.shape.estimate, 1e-10);
  // where each group has its own law, and the shape is common, groups a unit of time apart are a coefficient apart
  const moved = weibullRegression({
    lower: lower.map((time, i) => time * (i < 4 ? 1 : 10)),
    upper: upper.map((time, i) => time * (i < 4 ? 1 : 10)),
    terms: [{ kind: "number", name: "cold", values }],
  });
  assertClose(moved.coefficients[1]!.estimate - effect.estimate, Math.log(10), 1e-9);
  assertClose(moved.scale.estimate, two.scale.estimate, 1e-9);
});

/** Kaplan and Meier 1958, Journal of the American Statistical Association 53(282):457-481; Greenwood's error; by hand. */
describe("Kaplan-Meier by hand", () => {
  // 8 trays: one done at 2, two at 3 and one taken away then, one done at 5, one taken away at 6, two done at 9
  const sample = {
    times: [9, 3, 2, 6, 3, 5, 3, 9],
    events: [true, true, true, false, false, true, true, true],
  };

  test("who is at risk, the share that waits, its error and limits on either scale", () => {
    const shares = [7 / 8, (7 / 8) * (5 / 7), (7 / 8) * (5 / 7) * (3 / 4), (7 / 8) * (5 / 7) * (3 / 4), 0];
    const hazards = [1 / 56, 1 / 56 + 2 / 35, 1 / 56 + 2 / 35 + 1 / 12, 1 / 56 + 2 / 35 + 1 / 12];
    for (const scale of ["log", "log-log"] as const) {
      const curve = kaplanMeier(sample, { scale });
      expect(curve).toMatchObject({ observations: 8, events: 6, scale, level: 0.95 });
      expect(curve.steps.map(({ time, atRisk, events, censored }) => [time, atRisk, events, censored])).toEqual([
        [2, 8, 1, 0],
        [3, 7, 2, 1],
        [5, 4, 1, 0],
        [6, 3, 0, 1],
        [9, 2, 2, 0],
      ]);
      curve.steps.forEach(({ survival, limits }, i) => {
        const share = shares[i]!;
        assertClose(survival, share, 1e-14);
        if (limits.kind === "none") {
          expect([i, limits.reason]).toEqual([4, "all have had the event, so the share has no standard error"]);
          return;
        }
        const error = Math.sqrt(hazards[i]!);
        assertClose(limits.standardError, share * error, 1e-12);
        const power = (sign: number) => Math.exp((sign * z95 * error) / Math.abs(Math.log(share)));
        const expected =
          scale === "log"
            ? [share * Math.exp(-z95 * error), Math.min(1, share * Math.exp(z95 * error))]
            : [share ** power(1), share ** power(-1)];
        assertClose(limits.lower, expected[0]!, 1e-12);
        assertClose(limits.upper, expected[1]!, 1e-12);
      });
    }
    expect(kaplanMeier(sample).scale).toBe("log-log");
    const narrow = kaplanMeier(sample, { level: 0.5 }).steps[1]!.limits;
    const wide = kaplanMeier(sample, { level: 0.99 }).steps[1]!.limits;
    expect(narrow.kind === "interval" && wide.kind === "interval" && narrow.lower > wide.lower).toBe(true);
    expect(() => kaplanMeier(sample, { level: 0 })).toThrow("kaplanMeier: level must lie between 0 and 1");
  });

  test("the median: the first time at or below one half; the middle where the curve rests on it; never", () => {
    const of = (times: number[], events = times.map(() => true)) => kaplanMeier({ times, events }).median;
    expect(of([1, 2, 3]).estimate).toBe(2);
    expect(of([1, 2, 3, 4]).estimate).toBe(2.5);
    // resting on one half until the end
    expect(of([1, 2, 3, 4], [true, true, false, false]).estimate).toBe(2);
    expect(of([1, 2, 3, 4], [true, false, false, false]).estimate).toBe(never);
    // one half as a product of ten fractions is one half
    const ten = Array.from({ length: 20 }, (_, i) => i + 1);
    expect(of(ten).estimate).toBe(10.5);
    const { lower, estimate, upper } = of(ten);
    expect([lower < estimate, estimate < upper, upper < never]).toEqual([true, true, true]);
    // limits of the median are where the curve's own limits cross one half (Brookmeyer and Crowley 1982, from memory)
    const curve = kaplanMeier({ times: ten, events: ten.map(() => true) });
    const crossing = (end: "lower" | "upper") =>
      curve.steps.find(({ limits }) => limits.kind === "interval" && limits[end] <= 0.5)!.time;
    expect([lower, upper]).toEqual([crossing("lower"), crossing("upper")]);
  });
});
