import { expect, test } from "vitest";
import { howMuchDidTheSubstrateGive } from "../../analyses/process/how-much-did-the-substrate-give.ts";
import { springTrays } from "../../data-samples/demo-book.ts";
import type { Tray } from "../../src/records/tray.ts";
import { recordOfDemoTray, trayRecord, trialOfTrays } from "./demo-records.ts";

const answerOf = (trays: ReadonlyArray<Tray>, settings = {}) => {
  const outcome = howMuchDidTheSubstrateGive.run(trialOfTrays(trays, settings));
  if (outcome.kind !== "answer") throw new Error(JSON.stringify(outcome));
  return outcome;
};

test("gives the biological efficiency printed for oyster mushrooms on straw and olive prunings", () => {
  // Abou Fayssal and others 2020, Scientifica 2020:3950357, Table 2: fresh g a bag (mean, SD) and efficiency in per cent. The
  // dry substrate a bag is what the two figures imply; the bags stand at mean - SD, mean, mean + SD.
  const printed = [
    { fresh: 910.1, spread: 236.3, efficiency: 1.05 },
    { fresh: 624.9, spread: 222.1, efficiency: 0.803 },
    { fresh: 406.8, spread: 11.6, efficiency: 0.541 },
  ];
  for (const { fresh, spread, efficiency } of printed) {
    const dryGrams = fresh / efficiency;
    const bags = [fresh - spread, fresh, fresh + spread].map((freshGrams, index) =>
      trayRecord({ trayId: `B${index}`, freshGrams, grainDryGrams: dryGrams / (1 - 0.12) }),
    );
    expect(answerOf(bags, { grainMoisture: 0.12 }).estimates[0]!.value).toBeCloseTo(efficiency, 12);
  }
});

test("takes the water out of air-dry grain and supplement, and says which moisture it took", () => {
  // 380 g of grain at 12 % and 40 g of supplement at 9 % hold 334.4 + 36.4 = 370.8 g of dry matter; mass balance, no source
  const tray = trayRecord({ trayId: "A", freshGrams: 185.4, grainDryGrams: 380, supplementGrams: 40 });
  const { estimates, method } = answerOf([tray], { grainMoisture: 0.12, supplementMoisture: 0.09 });
  expect(estimates[0]!.value).toBeCloseTo(0.5, 12);
  expect(JSON.stringify(method)).toContain('"value":0.12');
  expect(JSON.stringify(method)).toContain('"value":0.09');
});

test("a pool of trays weighed together counts its trays' substrate", () => {
  const one = trayRecord({ trayId: "A", freshGrams: 100, grainDryGrams: 250 });
  const pool = trayRecord({ trayId: "B", freshGrams: 300, grainDryGrams: 250, traysInPool: 3 });
  const { value } = answerOf([one, pool], { grainMoisture: 0 }).estimates[0]!;
  expect(value).toBeCloseTo(0.4, 12);
});

test("one cook's range has room for other cooks: three tenths of the variance of trays are supposed to lie between them", () => {
  const grams = [100, 110, 120, 130, 140, 150];
  const trays = grams.map((freshGrams, index) =>
    trayRecord({ trayId: `T${index}`, batch: "C1", freshGrams, grainDryGrams: 250 }),
  );
  const { value, low, high } = answerOf(trays, { grainMoisture: 0 }).estimates[0]!;
  // equal substrates make Fieller's limits a t interval; t of 5 degrees of freedom at .975 is 2.5706 (printed tables),
  // the standard deviation of the six is the root of 350
  const half = (2.5706 * Math.sqrt((350 / 6) * (1 + (6 * 0.3) / 0.7))) / 250;
  expect([low, high]).toEqual([expect.closeTo(0.5 - half, 5), expect.closeTo(0.5 + half, 5)]);
  expect(value).toBeCloseTo(0.5, 12);
});

test("lost trays count as nothing in a figure of their own", () => {
  const good = trayRecord({ trayId: "A", freshGrams: 200, grainDryGrams: 400 });
  const lost = trayRecord({ trayId: "B", outcome: "contaminated", grainDryGrams: 400 });
  const { estimates, caveats } = answerOf([good, lost], { grainMoisture: 0 });
  expect(estimates[0]!.value).toBeCloseTo(0.5, 12);
  expect(JSON.stringify(caveats)).toContain('"value":0.25');
});

test("a named supplement without its amount, and a blank where others have one, are left out with the reason", () => {
  const trays = [
    trayRecord({ trayId: "A", freshGrams: 200, grainDryGrams: 400, supplementGrams: 0 }),
    trayRecord({ trayId: "B", freshGrams: 500, grainDryGrams: 400, supplement: "bran" }),
    trayRecord({ trayId: "C", freshGrams: 500, grainDryGrams: 400 }),
    trayRecord({ trayId: "D", freshGrams: 200, grainDryGrams: 400, supplement: "none" }),
  ];
  const { estimates, excluded } = answerOf(trays, { grainMoisture: 0 });
  expect(estimates[0]!.value).toBeCloseTo(0.5, 12);
  expect(excluded.map(({ trays }) => trays)).toEqual([["B", "C"]]);
});

test("a tray with 0 g of grain is named as left out, alone and among others", () => {
  const good = trayRecord({ trayId: "A", freshGrams: 200, grainDryGrams: 400 });
  const empty = trayRecord({ trayId: "B", freshGrams: 180, grainDryGrams: 0 });
  expect(answerOf([good, empty]).excluded).toEqual([
    { trays: ["B"], reason: "substrate without weight: 0 g typed (grain_dry_g)" },
  ]);
  const outcome = howMuchDidTheSubstrateGive.run(trialOfTrays([empty]));
  expect(JSON.stringify(outcome.kind === "cannot-tell" && outcome.reason)).toContain("0 g typed");
});

test("wet weights alone give no biological efficiency, but their own share under its own name", () => {
  const outcome = howMuchDidTheSubstrateGive.run(
    trialOfTrays([trayRecord({ trayId: "A", freshGrams: 212.8, substrateWetGrams: 1000 })]),
  );
  if (outcome.kind !== "cannot-tell") throw new Error("an answer");
  expect(JSON.stringify(outcome.reason)).toContain("grain_dry_g");
  expect(JSON.stringify(outcome.caveats)).toContain("0.2128");
  expect(JSON.stringify(outcome.caveats)).toContain("not biological efficiency");
});

test("the demo book: the table's figures over all doses make up the answer's", () => {
  const trays = springTrays().map(recordOfDemoTray);
  const { tables, estimates } = answerOf(trays);
  const rows = tables[0]!.rows as [string, number, number, number, number][];
  // every demo tray is filled alike, so the whole is the mean of the doses weighed by their trays
  const total = rows.reduce((sum, [, count]) => sum + count, 0);
  const mean = rows.reduce((sum, [, count, efficiency]) => sum + count * efficiency, 0) / total;
  expect(mean).toBeCloseTo(estimates[0]!.value, 10);
  expect(total).toBe(trays.filter(({ outcome }) => outcome === "good").length);
});
