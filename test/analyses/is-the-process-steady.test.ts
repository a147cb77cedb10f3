import { expect, test } from "vitest";
import { isTheProcessSteady } from "../../analyses/process/is-the-process-steady.ts";
import { steadiness } from "../../analyses/process/steadiness.ts";
import { whatChangedTheYield } from "../../analyses/treatment/what-changed-the-yield.ts";
import type { Outcome } from "../../src/analysis.ts";
import { Memo } from "../../src/records/memo.ts";
import type { Tray } from "../../src/records/tray.ts";
import { type SeededRandom, seededRandom } from "../../src/statistics/random/seeded-random.ts";
import { trayRecord, trialOfTrays } from "./demo-records.ts";

const day = (index: number) => new Date(Date.UTC(2026, 0, 5 + index)).toISOString().slice(0, 10);

/** Cooks of six trays at two doses, a week apart; `shift` moves the yield of a cook. */
function book(
  random: SeededRandom,
  cooks: number,
  shift: (cook: number) => number,
  given: (cook: number) => Partial<Tray> = () => ({}),
): Tray[] {
  return Array.from({ length: cooks }, (_, cook) => {
    const effect = random.normal();
    return Array.from({ length: 6 }, (_, place) => {
      const dryGrams = 20 + (place % 2) * 4 + effect + 2 * random.normal() + shift(cook);
      return trayRecord({
        trayId: `T${cook}-${place}`,
        batch: `C${cook + 1}`,
        jar: `J${cook + 1}`,
        inoculumMillilitres: place % 2 ? 10 : 5,
        inoculatedOn: day(7 * cook),
        colonisedOn: day(7 * cook + 11 + random.integer(4)),
        harvestedOn: day(7 * cook + 40 + random.integer(6)),
        dryGrams,
        freshGrams: dryGrams * (9 + 0.5 * random.normal()),
        outcome: random.uniform() < 0.08 ? "contaminated" : "good",
        ...given(cook),
      });
    });
  }).flat();
}

const text = (outcome: Outcome): string =>
  (outcome.kind === "answer" ? outcome.sentence : outcome.reason)
    .map((part) => (typeof part === "string" ? part : "#"))
    .join("");

test("steady books: a change is reported in no more than the nominal share", () => {
  const random = seededRandom(21);
  const books = 60;
  let reported = 0;
  for (let run = 0; run < books; run++) {
    const outcome = isTheProcessSteady.run(trialOfTrays(book(random, 8 + (run % 3) * 6, () => 0)));
    if (outcome.kind === "answer" && outcome.certainty === "settled") reported++;
  }
  expect(reported / books).toBeLessThanOrEqual(0.05 + 2 * Math.sqrt((0.05 * 0.95) / books));
});

test("a lasting drop is reported with the cook it began in, and what was new then", () => {
  const trays = book(
    seededRandom(22),
    20,
    (cook) => (cook >= 12 ? -7 : 0),
    (cook) => ({ operator: cook >= 12 ? "Ben" : "Ada", factors: { "husk lot": cook >= 12 ? "H2" : "H1" } }),
  );
  const outcome = isTheProcessSteady.run(trialOfTrays(trays));
  expect(outcome.kind === "answer" && outcome.certainty).toBe("settled");
  expect(text(outcome)).toContain("dry yield per good tray went down from cook C13 on");
  expect(text(outcome)).toContain("operator: Ben after Ada; husk lot: H2 after H1");
  expect(outcome.caveats.flat().join(" ")).toContain("New at most cooks, so no explanation by itself: culture jar");
  const steps = outcome.charts.find(({ title }) => title === "Dry yield per good tray: step from the cook before");
  if (steps?.kind !== "control-chart") throw new Error("no chart of moving ranges");
  const mean = steps.points.reduce((sum, { value }) => sum + value, 0) / steps.points.length;
  // limit of a moving range of two: 3.267 times its mean, NIST/SEMATECH e-Handbook, section 6.3.2.2 (from memory)
  expect(steps.points).toHaveLength(19);
  expect(steps.points[0]!.upper! / mean).toBeCloseTo(3.267, 3);
  expect(steps.points.filter(({ signal }) => signal !== undefined).map(({ label }) => label)).toEqual(
    steps.points.filter(({ value, upper }) => value > upper!).map(({ label }) => label),
  );
});

test("one bad cook stands out", () => {
  const trays = book(seededRandom(23), 16, (cook) => (cook === 7 ? -14 : 0));
  expect(text(isTheProcessSteady.run(trialOfTrays(trays)))).toContain("cook C8 stands out in dry yield per good tray");
});

test("a cook with more trays of the high dose is not a change", () => {
  const random = seededRandom(24);
  const trays = book(random, 14, () => 0).map((tray, index) =>
    tray.batch === "C9" && index % 3 > 0 ? { ...tray, inoculumMillilitres: 10, dryGrams: 24 + random.normal() } : tray,
  );
  const outcome = isTheProcessSteady.run(trialOfTrays(trays));
  expect(text(outcome)).not.toContain("C9");
});

test("limits are those of the published example", () => {
  // NIST/SEMATECH e-Handbook, section 6.3.2.2 (from memory): ten flow rates, limits mean ± 2.66 mean moving range
  const watch = steadiness([49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1], 1, new Memo());
  if (watch.kind !== "watched") throw new Error("expected limits");
  expect(watch.chart.centre).toBeCloseTo(50.81, 10);
  expect(watch.chart.upper).toBeCloseTo(55.8041, 3);
  expect(watch.chart.lower).toBeCloseTo(45.8159, 3);
  expect(watch.furthest.single).toBeCloseTo((50.81 - 47.6) / (55.8041 - 50.81), 4);
  const shares = watch.averages.map(({ average, upper }) => Math.abs(average - 50.81) / (upper - 50.81));
  expect(watch.furthest.average).toBeCloseTo(Math.max(...shares), 10);
});

test.each([
  ["no tray", []],
  ["one tray", [trayRecord({ trayId: "T1", batch: "C1", dryGrams: 12 })]],
  ["no cook and no date", Array.from({ length: 40 }, (_, i) => trayRecord({ trayId: `T${i}`, dryGrams: 10 + i }))],
  ["five cooks", book(seededRandom(1), 5, () => 0)],
])("%s: cannot tell", (_, trays) => {
  expect(text(isTheProcessSteady.run(trialOfTrays(trays)))).toMatch(/^Cannot tell/);
});

test("cooks that are all alike, cooks without dates and lost cooks do not upset it", () => {
  const alike = Array.from({ length: 40 }, (_, i) => trayRecord({ trayId: `T${i}`, batch: `C${i % 8}`, dryGrams: 10 }));
  expect(isTheProcessSteady.run(trialOfTrays(alike)).kind).toBe("answer");
  const lost = book(
    seededRandom(2),
    8,
    () => 0,
    () => ({ outcome: "contaminated" }),
  );
  expect(isTheProcessSteady.run(trialOfTrays(lost)).kind).toBe("answer");
});

test("6,000 trays over 1,000 cooks are answered", () => {
  const trays = book(seededRandom(3), 1000, () => 0);
  expect(isTheProcessSteady.run(trialOfTrays(trays)).kind).toBe("answer");
});

test("two seasons of four cooks, 42 against 50 g, are not called steady", () => {
  // cook means of 42 and 50 g that differ by 3.3 g within a season: t test with 6 degrees of freedom, p .014
  const means = [38, 41, 43, 46, 46, 49, 51, 54];
  const trays = means.flatMap((mean, cook) =>
    [-2, 0, 2].map((away, copy) =>
      trayRecord({
        trayId: `T${cook}-${copy}`,
        batch: `C${cook + 1}`,
        inoculatedOn: day((cook < 4 ? 0 : 160) + 10 * ((cook * 3) % 4)),
        dryGrams: mean + away,
      }),
    ),
  );
  const outcome = isTheProcessSteady.run(trialOfTrays(trays));
  expect(outcome.kind === "answer" && outcome.certainty).not.toBe("open");
  expect(text(outcome)).not.toContain("looks steady");
  expect(text(outcome)).toContain("dry yield per good tray");
});

test("a process whose yield leans to a season is not called steady", () => {
  // cooks of one size in two seasons, 45.5 and 49 g on average; no single cook stands out
  const spring = [42, 47, 44, 49];
  const autumn = [52, 46, 50, 48];
  const trays = [...spring, ...autumn].flatMap((grams, cook) =>
    Array.from({ length: 6 }, (_, place) =>
      trayRecord({
        trayId: `${cook}-${place}`,
        batch: `C${cook + 1}`,
        inoculatedOn: `2026-${cook < 4 ? "03" : "09"}-0${1 + (cook % 4) * 2}`,
        dryGrams: grams + (place % 3) - 1,
      }),
    ),
  );
  const trial = trialOfTrays(trays);
  expect(whatChangedTheYield.run(trial)).toMatchObject({ certainty: "leaning" });
  const steady = isTheProcessSteady.run(trial);
  expect(steady).toMatchObject({ certainty: "leaning" });
  expect(text(steady)).toContain("yield may go with the season, though no cook stands out");
});
