import { expect, test } from "vitest";
import { compareTreatment, type TreatmentComparison } from "../../analyses/comparison/compare-treatment.ts";
import { observe, yieldPerGoodTray } from "../../analyses/comparison/tray-response.ts";
import { gainSequence } from "../../analyses/dose/gain-sequence.ts";
import { isTheGainRealYet } from "../../analyses/dose/is-the-gain-real-yet.ts";
import { batchFactor, doseFactor } from "../../src/design/factor.ts";
import { linearModel } from "../../src/statistics/linear-models/linear-model.ts";
import { seededRandom } from "../../src/statistics/random/seeded-random.ts";
import { RunningContrasts } from "../../src/statistics/sequential/running-contrasts.ts";
import { trayRecord, trialOfTrays } from "./demo-records.ts";
import { type SimulatedBook, simulateBook } from "./simulated-book.ts";

const plain = { cooks: 8, traysPerDose: 4, doses: [5, 10], cookSd: 2, traySd: 2 } as const;

const skeletons = new Map<number, TreatmentComparison>();

/** The sequence of a simulated book. The comparison of all trays, which it needs only for names, is made once per layout. */
function sequenceOf(book: SimulatedBook) {
  const trial = trialOfTrays(simulateBook(book));
  let skeleton = skeletons.get(book.doses.length);
  if (skeleton === undefined) {
    const compared = compareTreatment(trial, doseFactor, yieldPerGoodTray("dry"), "higher");
    if (compared.kind === "cannot-tell") throw new Error("expected a comparison");
    skeleton = compared;
    skeletons.set(book.doses.length, compared);
  }
  const { observations } = observe(trial.trays, doseFactor, yieldPerGoodTray("dry"), [batchFactor]);
  const gain = gainSequence(trial, { ...skeleton, observations });
  if (gain.kind === "none") throw new Error(gain.reason);
  return gain;
}

test("running contrasts agree with the linear model with cooks as blocks, however the values come in", () => {
  const random = seededRandom(4);
  const values = Array.from({ length: 40 }, (_, k) => ({
    arm: random.integer(3),
    block: `C${random.integer(5)}`,
    value: 1000 + random.normal() + k / 20,
  }));
  const model = linearModel({
    response: values.map(({ value }) => value),
    terms: [
      { kind: "factor", name: "block", values: values.map(({ block }) => block) },
      { kind: "factor", name: "arm", values: values.map(({ arm }) => String(arm)) },
    ],
  });
  const running = new RunningContrasts(3, 1000);
  for (let start = 0; start < values.length; start += 7) running.add(values.slice(start, start + 7));
  const contrasts = running.contrasts();
  for (const arm of [1, 2]) {
    const coefficient = model.coefficients.find(({ name }) => name === `arm: ${arm}`)!;
    expect(contrasts[arm]!.difference).toBeCloseTo(coefficient.estimate, 9);
    expect(contrasts[arm]!.standardError).toBeCloseTo(coefficient.standardError, 9);
    expect(contrasts[arm]!.degreesOfFreedom).toBe(model.residual.degreesOfFreedom);
  }
});

test("without any gain, eight looks raise no more false alarms than stated, a plain t test read at each far more", () => {
  const books = 300;
  let [alarms, plainAlarms, covered] = [0, 0, 0];
  for (let seed = 1; seed <= books; seed++) {
    const gain = sequenceOf({ ...plain, seed, mean: () => 20 });
    if (gain.realSince !== undefined) alarms++;
    if (gain.results.some(({ plainP }) => plainP < 0.05)) plainAlarms++;
    if (gain.results.every(({ low, high }) => low <= 0 && high >= 0)) covered++;
  }
  const allowance = 2 * Math.sqrt((0.05 * 0.95) / books);
  expect(alarms / books).toBeLessThanOrEqual(0.05 + allowance);
  expect(covered / books).toBeGreaterThanOrEqual(0.95 - allowance);
  expect(plainAlarms / books).toBeGreaterThan(0.1);
});

test("picking the highest of four doses is paid for, and a true gain is covered at every look", () => {
  const books = 300;
  let [alarms, covered] = [0, 0];
  for (let seed = 1; seed <= books; seed++) {
    const nothing = sequenceOf({ ...plain, doses: [3, 6, 9, 12], cooks: 6, seed, mean: () => 20 });
    if (nothing.realSince !== undefined) alarms++;
    const rising = sequenceOf({ ...plain, seed: seed + 1000, mean: (dose) => 10 + dose / 2 });
    if (rising.results.every(({ low, high }) => low <= 2.5 && high >= 2.5)) covered++;
  }
  const allowance = 2 * Math.sqrt((0.05 * 0.95) / books);
  expect(alarms / books).toBeLessThanOrEqual(0.05 + allowance);
  expect(covered / books).toBeGreaterThanOrEqual(0.95 - allowance);
});

test("a large gain is told as real, with the look since when", () => {
  const outcome = isTheGainRealYet.run(
    trialOfTrays(simulateBook({ ...plain, seed: 3, mean: (dose) => 10 + dose, loss: () => 0.1 })),
  );
  if (outcome.kind !== "answer") throw new Error(JSON.stringify(outcome));
  expect(outcome.certainty).toBe("settled");
  expect(outcome.sentence[0]).toMatch(/^The gain is real: shown since look \d of 8, and held at every look since/);
  expect(outcome.estimates[0]!.low).toBeLessThan(5);
  expect(outcome.estimates[0]!.high).toBeGreaterThan(5);
});

test("a few cooks without an effect stay open, and the looks are counted", () => {
  const outcome = isTheGainRealYet.run(trialOfTrays(simulateBook({ ...plain, cooks: 3, seed: 8, mean: () => 20 })));
  if (outcome.kind !== "answer") throw new Error(JSON.stringify(outcome));
  expect(outcome.certainty).not.toBe("settled");
  expect(outcome.sentence[0]).toContain("Still open after 3 looks");
});

test("without cooks each harvest date is a look; without dates each sheet", () => {
  const trays = (given: (k: number) => object) =>
    Array.from({ length: 24 }, (_, k) =>
      trayRecord({ trayId: `t${k}`, inoculumMillilitres: k % 2 ? 5 : 10, dryGrams: 20 + ((k * 7) % 5), ...given(k) }),
    );
  const dated = isTheGainRealYet.run(
    trialOfTrays(trays((k) => ({ harvestedOn: `2026-03-0${1 + Math.floor(k / 8)}` }))),
  );
  expect(dated.kind === "answer" && dated.sentence[0]).toContain("3 looks");
  const undated = isTheGainRealYet.run(trialOfTrays(trays(() => ({}))));
  expect(undated.kind === "answer" && undated.sentence[0]).toContain("1 look:");
});

test("one cook per dose, or one jar per dose: cannot tell, however many looks", () => {
  const trays = simulateBook({ ...plain, seed: 2, mean: (dose) => 10 + dose });
  const byCook = trays.map((tray) => ({ ...tray, batch: `B${tray.inoculumMillilitres}` }));
  const byJar = trays.map((tray) => ({ ...tray, batch: "C1", jar: `J${tray.inoculumMillilitres}` }));
  for (const tied of [byCook, byJar]) expect(isTheGainRealYet.run(trialOfTrays(tied)).kind).toBe("cannot-tell");
});

test("thin and odd books are told so", () => {
  const one = trayRecord({ trayId: "1", inoculumMillilitres: 5, dryGrams: 20 });
  const lost = [5, 10].flatMap((dose) =>
    Array.from({ length: 6 }, (_, k) =>
      trayRecord({ trayId: `${dose}-${k}`, inoculumMillilitres: dose, outcome: "contaminated" }),
    ),
  );
  const equal = lost.map((tray) => ({ ...tray, outcome: "good" as const, dryGrams: 20 }));
  for (const trays of [[], [one], lost, equal]) {
    expect(isTheGainRealYet.run(trialOfTrays(trays)).kind).toBe("cannot-tell");
  }
});

test("a hundred thousand trays over 2,500 cooks are followed", () => {
  const random = seededRandom(5);
  const trays = Array.from({ length: 100_000 }, (_, k) =>
    trayRecord({
      trayId: String(k),
      batch: `C${Math.floor(k / 40)}`,
      inoculumMillilitres: 3 + 3 * (k % 4),
      dryGrams: 20 + random.normal(),
    }),
  );
  const compared = compareTreatment(trialOfTrays(trays.slice(0, 400)), doseFactor, yieldPerGoodTray("dry"), "higher");
  if (compared.kind === "cannot-tell") throw new Error("expected a comparison");
  const observations = trays.map((source) => ({
    tray: source.trayId,
    arm: String(source.inoculumMillilitres),
    dose: source.inoculumMillilitres,
    value: source.dryGrams!,
    groups: [source.batch!],
    source,
  }));
  const gain = gainSequence(trialOfTrays([]), { ...compared, observations });
  expect(gain.kind).toBe("sequence");
});
