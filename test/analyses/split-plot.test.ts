import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { yieldPerGoodTray } from "../../analyses/comparison/tray-response.ts";
import { chamberRuns } from "../../analyses/temperature/chamber-runs.ts";
import { doesTemperaturePay } from "../../analyses/temperature/does-temperature-pay.ts";
import { splitPlot } from "../../analyses/temperature/split-plot.ts";
import type { Tray } from "../../src/records/tray.ts";
import { seededRandom } from "../../src/statistics/random/seeded-random.ts";
import { trayRecord, trialOfTrays } from "./demo-records.ts";
import { renderedSentence } from "./rendered-sentence.ts";

interface OatsReference {
  data: { Block: string[]; Variety: string[]; nitro: number[]; yield: number[] };
}

// Yates 1935, Supplement to the Journal of the Royal Statistical Society 2:181-247: three varieties on whole plots in six
// blocks, four amounts of nitrogen on their split plots. Varieties stand for temperatures, nitrogen for doses.
const oats = (JSON.parse(readFileSync("test/reference/lmm-Oats.json", "utf8")) as OatsReference).data;
const celsiusOf: Record<string, number> = { "Golden Rain": 14, Marvellous: 16, Victory: 18 };
const oatsTrays = oats.yield.map((dryGrams, index) =>
  trayRecord({
    trayId: `T${index + 1}`,
    batch: oats.Block[index]!,
    chamber: `Shelf ${((index >> 2) + Math.floor(index / 12)) % 3}`,
    fruitingCelsius: celsiusOf[oats.Variety[index]!]!,
    inoculumMillilitres: 10 * oats.nitro[index]!,
    dryGrams,
  }),
);

test("the split plot of a published field trial: each source against its own error", () => {
  const fitted = splitPlot(chamberRuns(oatsTrays), yieldPerGoodTray("dry"), true, 0.95)!;
  // whole plots: F 1.49 with 2 and 10 degrees of freedom; split plots: nitrogen 37.69 with 3 and 45, together 0.30 with 6
  // and 45. Venables and Ripley 2002, Modern Applied Statistics with S, section 10.2 (from memory)
  expect(fitted.runs).toBe(18);
  expect(fitted.temperature.f).toBeCloseTo(1.485, 2);
  expect([fitted.temperature.numeratorDf, Math.round(fitted.temperature.denominatorDf * 1e6) / 1e6]).toEqual([2, 10]);
  expect(fitted.temperature.p).toBeCloseTo(0.272, 3);
  expect(fitted.dose.f).toBeCloseTo(37.69, 1);
  expect([fitted.dose.numeratorDf, Math.round(fitted.dose.denominatorDf * 1e6) / 1e6]).toEqual([3, 45]);
  const { test: together } = fitted.interaction;
  expect(together.f).toBeCloseTo(0.303, 2);
  expect(together.numeratorDf).toBe(6);
  expect(together.denominatorDf).toBeCloseTo(45, 6);
  expect(together.p).toBeCloseTo(0.932, 3);
});

test("the answer tells temperature by runs and dose inside them", () => {
  const outcome = doesTemperaturePay.run(trialOfTrays(oatsTrays));
  if (outcome.kind !== "answer") throw new Error(renderedSentence(outcome.reason));
  expect(renderedSentence(outcome.sentence)).toContain("Dose is not shown to do anything else at another temperature");
  expect(outcome.method.map(renderedSentence).join(" ")).toContain("inside 18 chamber runs, so this is a split plot");
  const table = outcome.tables.find(({ caption }) => caption.startsWith("Split plot"))!;
  expect(table.rows.map(([source, by]) => [source, by])).toEqual([
    ["temperature", "chamber runs"],
    ["dose", "trays inside runs"],
    ["dose and temperature together", "trays inside runs"],
  ]);
});

/** Cooks split over two chambers that swap temperatures, every dose in every run; runs and trays have scatter of their own. */
function book(seed: number, cooks: number, gramsOf: (celsius: number, dose: number) => number): Tray[] {
  const random = seededRandom(seed);
  return Array.from({ length: cooks }, (_, cook) =>
    [18, 22].flatMap((fruitingCelsius, half) => {
      const run = 2 * random.normal();
      return [5, 10].flatMap((inoculumMillilitres) =>
        Array.from({ length: 3 }, (_, copy) =>
          trayRecord({
            trayId: `T${cook}-${fruitingCelsius}-${inoculumMillilitres}-${copy}`,
            batch: `C${cook}`,
            chamber: `Tent ${((cook + half) % 2) + 1}`,
            fruitingCelsius,
            inoculumMillilitres,
            dryGrams: gramsOf(fruitingCelsius, inoculumMillilitres) + run + random.normal(),
          }),
        ),
      );
    }),
  ).flat();
}

const fittedOf = (trays: Tray[]) => splitPlot(chamberRuns(trays), yieldPerGoodTray("dry"), true, 0.95)!;

test("nothing happens: no source is called different more often than promised", () => {
  const books = 100;
  const called = { temperature: 0, dose: 0, together: 0 };
  for (let seed = 1; seed <= books; seed++) {
    const { temperature, dose, interaction } = fittedOf(book(seed, 5, () => 20));
    if (temperature.p < 0.05) called.temperature++;
    if (dose.p < 0.05) called.dose++;
    if (interaction.test.p < 0.05) called.together++;
  }
  const most = books * (0.05 + 2 * Math.sqrt((0.05 * 0.95) / books));
  for (const count of Object.values(called)) expect(count).toBeLessThanOrEqual(most);
});

test("a dose that works only when cool is found, with runs scattered twice as much as trays", () => {
  const { interaction, temperature } = fittedOf(book(3, 8, (celsius, dose) => (celsius === 18 ? 16 + 0.6 * dose : 19)));
  expect(interaction.test.p).toBeLessThan(0.01);
  const [contrast] = interaction.contrasts;
  expect(contrast!.low).toBeLessThan(-3);
  expect(contrast!.high).toBeGreaterThan(-3);
  expect(temperature.denominatorDf).toBeLessThan(interaction.test.denominatorDf);
});

test("doses given to whole runs, or one dose alone, are no split plot", () => {
  const whole = book(4, 6, () => 20).filter(
    ({ trayId, inoculumMillilitres }) =>
      (Number(trayId.split("-")[0]!.slice(1)) % 2 === 0) === (inoculumMillilitres === 5),
  );
  expect(splitPlot(chamberRuns(whole), yieldPerGoodTray("dry"), true, 0.95)).toBeUndefined();
  const single = book(4, 6, () => 20).filter(({ inoculumMillilitres }) => inoculumMillilitres === 5);
  expect(splitPlot(chamberRuns(single), yieldPerGoodTray("dry"), true, 0.95)).toBeUndefined();
});
