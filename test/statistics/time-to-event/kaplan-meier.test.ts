import { expect, test } from "vitest";
import { kaplanMeier } from "../../../src/statistics/time-to-event/kaplan-meier.ts";
import { assertClose, expectAgreement } from "../../agreement.ts";
import aml from "../../reference/survival-aml.json" with { type: "json" };
import { treated } from "./remission-weeks.ts";

test.each(Object.entries(aml.expected.kaplanMeier))("leukaemia maintenance, %s: Miller 1997", (group, curve) => {
  const rows = aml.data.time.map((_, i) => i).filter((i) => group === "all" || aml.data.x[i] === group);
  const steps = kaplanMeier({
    times: rows.map((i) => aml.data.time[i]!),
    events: rows.map((i) => aml.data.status[i] === 1),
  });
  expect(steps.map(({ time, events }) => [time, events])).toEqual(curve.time.map((time, k) => [time, curve.nEvent[k]]));
  expectAgreement(
    {
      method: "Kaplan-Meier",
      dataset: "leukaemia maintenance (Miller)",
      statistic: `${group}: share still waiting`,
      source: `${aml.originallyPublished}; reference values ${aml.madeWith}`,
    },
    steps.map(({ survival }, k) => [survival, curve.surv[k]!] as const),
    -Math.log10(aml.tolerance.relative),
    aml.tolerance.absolute,
  );
});

test("remission times: the curve as printed in Kalbfleisch and Prentice (from memory)", () => {
  const events = kaplanMeier(treated).filter((step) => step.events > 0);
  expect(events.map(({ time }) => time)).toEqual([6, 7, 10, 13, 16, 22, 23]);
  events.forEach(({ survival }, k) => {
    assertClose(survival, [0.857, 0.807, 0.753, 0.69, 0.627, 0.538, 0.448][k]!, 0.0005);
  });
});

test("by hand: a tray taken away at a time still counts as waiting there; all done, all waiting", () => {
  // 8 trays: one done at 2, two at 3 and one taken away then, one done at 5, one taken away at 6, two done at 9
  const steps = kaplanMeier({
    times: [9, 3, 2, 6, 3, 5, 3, 9],
    events: [true, true, true, false, false, true, true, true],
  });
  expect(steps.map(({ time, events }) => [time, events])).toEqual([[2, 1], [3, 2], [5, 1], [6, 0], [9, 2]]); // biome-ignore format: pairs
  const shares = [7 / 8, (7 / 8) * (5 / 7), (7 / 8) * (5 / 7) * (3 / 4), (7 / 8) * (5 / 7) * (3 / 4), 0];
  steps.forEach(({ survival }, i) => {
    assertClose(survival, shares[i]!, 1e-14);
  });
  expect(kaplanMeier({ times: [4], events: [true] })).toEqual([{ time: 4, events: 1, survival: 0 }]);
  expect(kaplanMeier({ times: [3, 5], events: [false, false] }).every(({ survival }) => survival === 1)).toBe(true);
});

test("bad calls throw", () => {
  expect(() => kaplanMeier({ times: [], events: [] })).toThrow(/at least 1/);
  expect(() => kaplanMeier({ times: [1, -1], events: [true, true] })).toThrow(/0 or more/);
  expect(() => kaplanMeier({ times: [Number.NaN], events: [true] })).toThrow(/finite/);
  expect(() => kaplanMeier({ times: [1], events: [true, false] })).toThrow(/equally long/);
});
