import { expect, test } from "vitest";
import { doesTemperaturePay } from "../../analyses/temperature/does-temperature-pay.ts";
import { temperatureBetween, temperatureIndex } from "../../analyses/temperature/temperature-join.ts";
import { whatChangedTheYield } from "../../analyses/treatment/what-changed-the-yield.ts";
import type { Outcome } from "../../src/analysis.ts";
import type { TemperatureReading } from "../../src/records/sheet.ts";
import type { Tray } from "../../src/records/tray.ts";
import { type SeededRandom, seededRandom } from "../../src/statistics/random/seeded-random.ts";
import { line, product } from "../costing/sample-records.ts";
import { trayRecord, trialOfTrays } from "./demo-records.ts";

const day = (index: number) => new Date(Date.UTC(2026, 0, 5 + index)).toISOString().slice(0, 10);

/** Cooks split over two chambers; the chamber's temperature by cook; every chamber run has a draw of its own. */
function book(
  random: SeededRandom,
  cooks: number,
  celsius: (cook: number, chamber: number) => number,
  perDegree: number,
): Tray[] {
  return Array.from({ length: cooks }, (_, cook) => {
    const cookEffect = random.normal();
    return [0, 1].flatMap((chamber) => {
      const runEffect = 2 * random.normal();
      const fruitingCelsius = celsius(cook, chamber);
      return Array.from({ length: 10 }, (_, copy) =>
        trayRecord({
          trayId: `T${cook}-${chamber}-${copy}`,
          batch: `C${cook}`,
          chamber: `Tent ${chamber + 1}`,
          fruitingCelsius,
          inoculatedOn: day(21 * cook),
          fruitingOn: day(21 * cook + 16),
          harvestedOn: day(21 * cook + 36 + random.integer(5)),
          dryGrams: 20 + cookEffect + runEffect + perDegree * (fruitingCelsius - 18) + random.normal(),
        }),
      );
    });
  }).flat();
}

const text = (outcome: Outcome): string =>
  (outcome.kind === "answer" ? outcome.sentence : outcome.reason)
    .map((part) => (typeof part === "string" ? part : "#"))
    .join("");
const swapped = (cook: number, chamber: number) => ((cook + chamber) % 2 ? 22 : 18);
const fixed = (_: number, chamber: number) => (chamber ? 22 : 18);

test("one chamber per temperature: cannot tell, whatever the number of cooks and trays", () => {
  const outcome = doesTemperaturePay.run(trialOfTrays(book(seededRandom(41), 8, fixed, 3)));
  expect(outcome.kind).toBe("cannot-tell");
  expect(text(outcome)).toContain("had one shelf, jar or chamber of its own");
  expect(outcome.kind === "cannot-tell" && outcome.wouldSettle.join("")).toContain(
    "Swap the temperatures between the chambers",
  );
});

test("no effect, chambers swapped, runs with draws of their own: reported in no more than the nominal share of books", () => {
  const random = seededRandom(42);
  const books = 50;
  let [reported, held] = [0, 0];
  for (let run = 0; run < books; run++) {
    const outcome = doesTemperaturePay.run(trialOfTrays(book(random, 6, swapped, 0)));
    if (outcome.kind !== "answer") throw new Error(text(outcome));
    if (outcome.certainty === "settled") reported++;
    const [gain] = outcome.estimates;
    if (gain!.low! <= 0 && gain!.high! >= 0) held++;
  }
  const twoErrors = 2 * Math.sqrt((0.05 * 0.95) / books);
  expect(reported / books).toBeLessThanOrEqual(0.05 + twoErrors);
  expect(held / books).toBeGreaterThanOrEqual(0.95 - twoErrors);
});

test("a real effect is found over cooks, lies within its interval, and is the very figure of what changed the yield", () => {
  const trial = trialOfTrays(book(seededRandom(43), 10, swapped, 2));
  const outcome = doesTemperaturePay.run(trial);
  expect(outcome.kind === "answer" && outcome.certainty).toBe("settled");
  const [gain] = outcome.estimates;
  expect(gain!.low).toBeLessThan(8);
  expect(gain!.high).toBeGreaterThan(8);
  const main = whatChangedTheYield.run(trial);
  expect(main.estimates[0]).toEqual(gain);
  expect(main.kind === "answer" && main.sentence).toEqual(outcome.kind === "answer" && outcome.sentence);
});

test("temperature that followed the season cannot be separated from it", () => {
  const season = (cook: number) => (cook < 4 ? 18 : 22);
  const trays = book(seededRandom(5), 8, season, 3).map(({ chamber: _, ...tray }) => tray);
  const outcome = doesTemperaturePay.run(trialOfTrays(trays));
  expect(outcome.kind).toBe("cannot-tell");
  expect(text(outcome)).toContain("followed the calendar");
});

test("doses inside swapped chambers: neither blurs the other", () => {
  const dosed = book(seededRandom(47), 8, swapped, 0).map((tray, i) => ({
    ...tray,
    inoculumMillilitres: i % 2 === 0 ? 3 : 9,
    dryGrams: tray.dryGrams! + (i % 2 === 0 ? 0 : 8),
  }));
  const plain = doesTemperaturePay.run(trialOfTrays(dosed.map(({ inoculumMillilitres: _, ...tray }) => tray)));
  const apart = doesTemperaturePay.run(trialOfTrays(dosed));
  expect(apart.estimates[0]!.value).toBeCloseTo(plain.estimates[0]!.value, 9);
  expect(apart.kind === "answer" && apart.method.flat().join(" ")).toContain("Inoculum varied in the same cooks");
});

test.each([
  ["no tray", []],
  ["one tray", [trayRecord({ trayId: "T1", fruitingCelsius: 18 })]],
  ["one temperature", book(seededRandom(1), 4, () => 18, 0)],
  ["one run each", book(seededRandom(1), 1, swapped, 0).map((tray) => ({ ...tray, chamber: "Tent 1" }))],
  [
    "all growing",
    book(seededRandom(1), 4, swapped, 0).map(({ dryGrams: _, harvestedOn: __, ...tray }) => ({
      ...tray,
      outcome: "growing" as const,
    })),
  ],
])("%s: cannot tell", (_, trays) => {
  expect(text(doesTemperaturePay.run(trialOfTrays(trays)))).toMatch(/^Cannot tell whether temperature pays/);
});

const hourly = (chamber: string | undefined, days: number, celsius: (hour: number) => number): TemperatureReading[] =>
  Array.from({ length: 24 * days }, (_, hour) => ({
    at: `${day(Math.floor(hour / 24))}T${String(hour % 24).padStart(2, "0")}:00`,
    celsius: celsius(hour),
    ...(chamber === undefined ? {} : { chamber }),
  }));

test("hours in band, degree-days and excursions by hand", () => {
  // three days of hourly readings: 18 °C, but 25 °C from 10:00 to 13:00 on the second day
  const log = hourly("A", 3, (hour) => (hour >= 34 && hour < 37 ? 25 : 18));
  const index = temperatureIndex([...log].reverse());
  const all = temperatureBetween(index, "a ", day(0), day(2), { low: 16, high: 20 })!;
  expect(all.hours).toBeCloseTo(72, 9);
  expect(all.covered).toBeCloseTo(1, 9);
  expect(all.hoursInBand).toBeCloseTo(69, 9);
  expect(all.degreeDays).toBeCloseTo((69 * 2 + 3 * 9) / 24, 9);
  expect(all.excursions).toBe(1);
  expect(all.meanCelsius).toBeCloseTo((69 * 18 + 3 * 25) / 72, 9);
  const first = temperatureBetween(index, "A", day(0), day(0), { low: 16, high: 20 })!;
  expect(first.hoursInBand).toBeCloseTo(24, 9);
  expect(first.excursions).toBe(0);
  expect(temperatureBetween(index, "B", day(0), day(2), { low: 16, high: 20 })).toBeUndefined();
  expect(temperatureBetween(index, "A", day(9), day(12), { low: 16, high: 20 })).toBeUndefined();
});

test("a gap in the log counts for six hours at most, and an excursion that reaches in is counted", () => {
  const log: TemperatureReading[] = [
    { at: `${day(0)}T23:00`, celsius: 30 },
    { at: `${day(1)}T02:00`, celsius: 18 },
    { at: `${day(2)}T00:00`, celsius: 18 },
  ];
  const exposure = temperatureBetween(temperatureIndex(log), "any", day(1), day(1), { low: 16, high: 20 })!;
  // 00:00 to 02:00 outside, then 18 °C for the longest hold
  expect(exposure.hours).toBeCloseTo(8, 9);
  expect(exposure.hoursInBand).toBeCloseTo(6, 9);
  expect(exposure.excursions).toBe(1);
});

test("readings by hand once a day hold for a day", () => {
  const log = Array.from({ length: 10 }, (_, at) => ({ at: `${day(at)}T08:00`, celsius: at < 5 ? 18 : 21 }));
  const exposure = temperatureBetween(temperatureIndex(log), "any", day(1), day(8), { low: 16, high: 20 })!;
  expect(exposure.covered).toBeCloseTo(1, 9);
  // from 00:00 of day 1 to 08:00 of day 5 inside, to the end of day 8 outside
  expect(exposure.hoursInBand).toBeCloseTo(4 * 24 + 8, 9);
});

test("the join agrees with adding readings up one by one, in any order", () => {
  const random = seededRandom(44);
  const log = hourly("A", 40, () => 14 + 10 * random.uniform());
  const index = temperatureIndex(random.shuffle(log));
  const band = { low: 16, high: 21 };
  for (let trial = 0; trial < 50; trial++) {
    const from = random.integer(35);
    const to = from + random.integer(40 - from);
    const own = log.slice(24 * from, 24 * (to + 1)).map(({ celsius }) => celsius);
    const outside = own.map((celsius) => celsius < band.low || celsius > band.high);
    const exposure = temperatureBetween(index, "A", day(from), day(to), band)!;
    expect(exposure.hoursInBand).toBeCloseTo(outside.filter((one) => !one).length, 6);
    expect(exposure.degreeDays).toBeCloseTo(
      own.reduce((sum, celsius) => sum + Math.max(0, celsius - band.low), 0) / 24,
      6,
    );
    const before =
      from === 0 ? false : log[24 * from - 1]!.celsius < band.low || log[24 * from - 1]!.celsius > band.high;
    const begun = outside.filter((one, hour) => one && !(hour === 0 ? before : outside[hour - 1])).length;
    expect(exposure.excursions).toBe(begun + (before && outside[0] ? 1 : 0));
  }
});

test("without two temperatures the log is set against yield, cook by cook, and never reported as settled", () => {
  const random = seededRandom(45);
  const cooks = 9;
  const warm = Array.from({ length: cooks }, (_, cook) => (cook * 2) % 3);
  const trays = book(random, cooks, () => 18, 0)
    .filter(({ chamber }) => chamber === "Tent 1")
    .map((tray) => ({ ...tray, dryGrams: 20 - 4 * warm[Number(tray.batch!.slice(1))]! + 0.3 * random.normal() }));
  const log = hourly("Tent 1", 21 * cooks + 45, (hour) => {
    const cook = Math.min(cooks - 1, Math.max(0, Math.floor((hour / 24 - 16) / 21)));
    return 18 + (hour % 24 < 4 * warm[cook]! ? 6 : 0);
  });
  const outcome = doesTemperaturePay.run({ ...trialOfTrays(trays), temperatureLog: log });
  expect(outcome.kind === "answer" && outcome.certainty).toBe("leaning");
  expect(text(outcome)).toContain("over 9 cooks");
  // what rises with the calendar may stand for anything else that changed
  const rising = hourly("Tent 1", 21 * cooks + 45, (hour) => 14 + hour / 700);
  const untold = doesTemperaturePay.run({ ...trialOfTrays(trays), temperatureLog: rising });
  expect(untold.estimates.filter(({ label }) => label.includes("degree-days"))).toEqual([]);
});

test("what a temperature costs in energy and what it earns", () => {
  // 10 days less on the shelf at 0.10 a shelf day, every cook of a temperature alike but for a day: the energy of a tray
  // differs by 1.00 and the profit by 1.00 less 2 g at 0.50
  const trays = Array.from({ length: 8 }, (_, cook) =>
    [18, 22].flatMap((fruitingCelsius, half) =>
      Array.from({ length: 3 }, (_, copy) =>
        trayRecord({
          trayId: `T${cook}-${half}-${copy}`,
          batch: `C${cook}`,
          chamber: `Tent ${((cook + half) % 2) + 1}`,
          fruitingCelsius,
          inoculatedOn: day(30 * cook),
          fruitingOn: day(30 * cook),
          harvestedOn: day(30 * cook + (fruitingCelsius === 22 ? 20 : 30) + ((cook >> 1) % 2)),
          dryGrams: 20 - (fruitingCelsius === 22 ? 2 : 0) + (((cook >> 1) + half) % 2) * 0.2,
        }),
      ),
    ),
  ).flat();
  const shelf = line({ item: "heating", kind: "energy", packPrice: 0.1, per: "shelf day", stage: "fruiting" });
  const sold = product({ product: "dried", grams: 10, currentPrice: 5 });
  const trial = { ...trialOfTrays(trays), costLines: [shelf], products: [sold] };
  const outcome = doesTemperaturePay.run(trial);
  if (outcome.kind !== "answer") throw new Error(text(outcome));
  const estimate = (label: string) => outcome.estimates.find((one) => one.label.endsWith(label))!;
  expect(estimate("energy of a started tray").value).toBeCloseTo(-1, 9);
  expect(estimate("profit per started tray").value).toBeCloseTo(1 - 2 * 0.5, 9);
  expect(outcome.certainty).toBe("open");
  expect(text(outcome)).toMatch(/ Energy: 22|Energy: # took # less a started tray than #\.$/);
  const dearer = doesTemperaturePay.run({ ...trial, products: [{ ...sold, currentPrice: 20 }] });
  // 1.00 of energy saved, 2 g at 2.00 lost
  expect(dearer.estimates[0]!.value).toBeCloseTo(1 - 2 * 2, 9);
  expect(dearer.kind === "answer" && dearer.certainty).toBe("settled");
  expect(text(dearer)).toMatch(/^# earned # more a started tray than #/);
  // what varied is the temperature alone, so the answer about the dose to use is of temperatures and says what to do
  expect(dearer.next).toEqual([]);
  const beside = { ...trial, trays: trays.map((tray, i) => ({ ...tray, inoculumMillilitres: i % 2 === 0 ? 5 : 10 })) };
  const second = doesTemperaturePay.run({ ...beside, products: [{ ...sold, currentPrice: 20 }] });
  // the whole report may lower the word: the chart stays one of chamber runs
  expect(second).toMatchObject({ lowered: { charts: second.charts } });
  expect(second.next?.map(({ act }) => act)).toEqual([["Fruit at ", { value: 18, unit: "°C", isSet: true }, "."]]);
});

test("60,000 readings and ten thousand trays are joined to an answer", () => {
  const log: TemperatureReading[] = [];
  for (let at = 0; at < 60_000; at++) {
    const minute = at * 5;
    const date = day(Math.floor(minute / 1440));
    log.push({
      at: `${date}T${String(Math.floor(minute / 60) % 24).padStart(2, "0")}:${String(minute % 60).padStart(2, "0")}`,
      celsius: 18 + (at % 7),
    });
  }
  const trays = Array.from({ length: 10_000 }, (_, index) =>
    trayRecord({
      trayId: `T${index}`,
      batch: `C${index % 500}`,
      chamber: "A",
      fruitingCelsius: 18 + 2 * (index % 2),
      fruitingOn: day(index % 1000),
      harvestedOn: day((index % 1000) + 20),
      dryGrams: 20 + (index % 5),
    }),
  );
  expect(doesTemperaturePay.run({ ...trialOfTrays(trays), temperatureLog: log }).kind).toBe("answer");
});
