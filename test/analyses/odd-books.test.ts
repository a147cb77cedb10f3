import { expect, test } from "vitest";
import { isTheCultureDrifting } from "../../analyses/culture/is-the-culture-drifting.ts";
import { isContaminationASignal } from "../../analyses/losses/is-contamination-a-signal.ts";
import { areLaterFlushesWorthIt } from "../../analyses/process/are-later-flushes-worth-it.ts";
import { howMuchDidTheSubstrateGive } from "../../analyses/process/how-much-did-the-substrate-give.ts";
import { isTheProcessSteady } from "../../analyses/process/is-the-process-steady.ts";
import { whichRowsCannotBeTrusted } from "../../analyses/rows/which-rows-cannot-be-trusted.ts";
import { doesTemperaturePay } from "../../analyses/temperature/does-temperature-pay.ts";
import type { Outcome } from "../../src/analysis.ts";
import type { Tray } from "../../src/records/tray.ts";
import { sentenceText } from "../../src/report/format-quantity.ts";
import { type SeededRandom, seededRandom } from "../../src/statistics/random/seeded-random.ts";
import { trayRecord, trialOfTrays } from "./demo-records.ts";

const asked = [
  isContaminationASignal,
  doesTemperaturePay,
  isTheCultureDrifting,
  areLaterFlushesWorthIt,
  isTheProcessSteady,
  howMuchDidTheSubstrateGive,
  whichRowsCannotBeTrusted,
];
const day = (index: number) => new Date(Date.UTC(2026, 0, 5 + index)).toISOString().slice(0, 10);

/** A book with any cell missing by chance, few groups, equal values, pools, zero weights and dates out of order. */
function oddBook(random: SeededRandom): Tray[] {
  const missing = random.uniform();
  const some = <T>(value: T, key: string): Record<string, T> => (random.uniform() < missing ? {} : { [key]: value });
  const pick = <T>(values: ReadonlyArray<T>): T => values[random.integer(values.length)]!;
  const spread = random.integer(3);
  const outcomes = pick([
    ["good"],
    ["good", "good", "contaminated"],
    ["contaminated", "failed"],
    ["good", "growing", "discarded", "contaminated"],
  ] as const);
  return Array.from({ length: random.integer(60) }, (_, index) => {
    const start = random.integer(90);
    const dry = 10 + spread * random.integer(8);
    return trayRecord({
      trayId: `T${index}`,
      outcome: pick<Tray["outcome"]>(outcomes),
      traysInPool: random.integer(8) === 0 ? 3 : 1,
      flags: random.integer(10) === 0 ? ["odd"] : [],
      ...some(`C${random.integer(6)}`, "batch"),
      ...some(`L${random.integer(3)}`, "load"),
      ...some(`J${random.integer(5)}`, "jar"),
      ...some(`S${random.integer(2)}`, "shelf"),
      ...some(`A${random.integer(2)}`, "chamber"),
      ...some(String(random.integer(4)), "loadPosition"),
      ...some(random.integer(3), "cultureGeneration"),
      ...some(random.integer(40), "cultureAgeDays"),
      ...some(pick([5, 10, 15]), "inoculumMillilitres"),
      ...some(pick([18, 22]), "fruitingCelsius"),
      ...some(day(start), "inoculatedOn"),
      ...some(day(start + random.integer(20) - 2), "colonisedOn"),
      ...some(day(start + 20), "fruitingOn"),
      ...some(day(start + 30 + random.integer(20)), "harvestedOn"),
      ...some(random.integer(9) === 0 ? 0 : dry, "dryGrams"),
      ...some(9 * dry, "freshGrams"),
      flushes: Array.from({ length: random.integer(4) }, (__, number) => ({
        number: number + 1,
        ...some(dry / 2, "dryGrams"),
        ...some(day(start + 40 + random.integer(30)), "harvestedOn"),
      })),
    });
  });
}

/** Every sentence, number and chart of an outcome can be written; nothing is NaN, and intervals hold their estimate. */
function checkOutcome(outcome: Outcome, settings: Parameters<typeof sentenceText>[1]): void {
  const sentences = [
    outcome.kind === "answer" ? outcome.sentence : outcome.reason,
    ...(outcome.kind === "answer" ? [] : [outcome.wouldSettle]),
    ...outcome.method,
    ...outcome.caveats,
  ];
  for (const sentence of sentences) expect(sentenceText(sentence, settings)).not.toMatch(/NaN|undefined|null/);
  for (const { value, low, high, p, label } of outcome.estimates) {
    expect(Number.isFinite(value), label).toBe(true);
    if (low !== undefined && high !== undefined) {
      expect(low, label).toBeLessThanOrEqual(value);
      expect(high, label).toBeGreaterThanOrEqual(value);
    }
    if (p !== undefined) expect(p >= 0 && p <= 1, label).toBe(true);
  }
  for (const { columns, rows } of outcome.tables) {
    for (const row of rows) {
      expect(row).toHaveLength(columns.length);
      for (const cell of row) expect(Number.isNaN(cell)).toBe(false);
    }
  }
}

test.each(asked.map((analysis) => [analysis.id, analysis] as const))(
  "%s never throws and says only what can be written",
  (_, analysis) => {
    const random = seededRandom(71);
    for (let book = 0; book < 40; book++) {
      const trial = trialOfTrays(oddBook(random), { significanceLevel: 0.2 });
      const log =
        book % 3
          ? []
          : Array.from({ length: random.integer(500) }, (__, hour) => ({
              at: `${day(Math.floor(hour / 4))}T${String((hour % 4) * 6).padStart(2, "0")}:00`,
              celsius: 15 + random.integer(10),
              chamber: `A${hour % 2}`,
            }));
      checkOutcome(analysis.run({ ...trial, temperatureLog: log }), trial.settings);
    }
  },
);

test("the order of the rows changes no estimate where dates tell the order", () => {
  const random = seededRandom(72);
  for (let book = 0; book < 6; book++) {
    const trays = oddBook(random).map((tray, index) => ({
      ...tray,
      inoculatedOn: day(7 * (index % 9)),
      batch: `C${index % 9}`,
      inoculumMillilitres: index % 2 ? 5 : 10,
    }));
    for (const analysis of asked) {
      const values = (rows: Tray[]) =>
        analysis
          .run(trialOfTrays(rows))
          .estimates.map(({ label, value }) => `${label} ${value.toPrecision(5)}`)
          .sort();
      expect(values(random.shuffle(trays)), analysis.id).toEqual(values(trays));
    }
  }
});
