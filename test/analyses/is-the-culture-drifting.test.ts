import { expect, test } from "vitest";
import { isTheCultureDrifting } from "../../analyses/culture/is-the-culture-drifting.ts";
import type { Outcome } from "../../src/analysis.ts";
import type { Tray } from "../../src/records/tray.ts";
import { type SeededRandom, seededRandom } from "../../src/statistics/random/seeded-random.ts";
import { trayRecord, trialOfTrays } from "./demo-records.ts";

const day = (index: number) => new Date(Date.UTC(2026, 0, 5 + index)).toISOString().slice(0, 10);

/** Cooks of four jars with three trays each; generations by cook and jar; jars and cooks differ by chance. */
function book(
  random: SeededRandom,
  cooks: number,
  generation: (cook: number, jar: number) => number,
  perGeneration: number,
): Tray[] {
  return Array.from({ length: cooks }, (_, cook) => {
    const cookEffect = 1.5 * random.normal() - cook * 0.3;
    return Array.from({ length: 4 }, (_, jar) => {
      const jarEffect = random.normal();
      const cultureGeneration = generation(cook, jar);
      return Array.from({ length: 3 }, (_, copy) =>
        trayRecord({
          trayId: `T${cook}-${jar}-${copy}`,
          batch: `C${cook}`,
          jar: `J${cook}-${jar}`,
          cultureGeneration,
          inoculatedOn: day(14 * cook),
          colonisedOn: day(14 * cook + 12 + random.integer(3)),
          dryGrams: 25 + cookEffect + jarEffect + perGeneration * cultureGeneration + random.normal(),
          outcome: random.uniform() < 0.1 ? "contaminated" : "good",
        }),
      );
    }).flat();
  }).flat();
}

const text = (outcome: Outcome): string =>
  (outcome.kind === "answer" ? outcome.sentence : outcome.reason)
    .map((part) => (typeof part === "string" ? part : "#"))
    .join("");
const sideBySide = (cook: number, jar: number) => (cook % 3) + 1 + (jar % 2) * 2;

test("no drift, jars side by side: reported in no more than the nominal share of books, and the interval holds 0", () => {
  const random = seededRandom(31);
  const books = 40;
  let [reported, held] = [0, 0];
  for (let run = 0; run < books; run++) {
    const outcome = isTheCultureDrifting.run(trialOfTrays(book(random, 5, sideBySide, 0)));
    if (outcome.kind !== "answer") throw new Error(text(outcome));
    if (outcome.certainty === "settled") reported++;
    const gain = outcome.estimates.find(({ label }) => label.startsWith("dry yield"))!;
    if (gain.low! <= 0 && gain.high! >= 0) held++;
  }
  const twoErrors = 2 * Math.sqrt((0.05 * 0.95) / books);
  expect(reported / books).toBeLessThanOrEqual(0.05 + twoErrors);
  expect(held / books).toBeGreaterThanOrEqual(0.95 - twoErrors);
});

test("a real loss of 2 g a generation is reported as drift, and the interval holds it", () => {
  const outcome = isTheCultureDrifting.run(trialOfTrays(book(seededRandom(32), 6, sideBySide, -2)));
  expect(outcome.kind === "answer" && outcome.certainty).toBe("settled");
  expect(outcome.kind === "answer" && outcome.lowered?.sentence[0]).toBe("The culture may be drifting: ");
  expect(text(outcome)).toContain("The culture is drifting: dry yield per good tray goes down");
  expect(outcome.kind === "answer" && outcome.short).toEqual(["The culture is getting worse: dry yield goes down."]);
  const slope = outcome.estimates.find(({ label }) => label.startsWith("dry yield"))!;
  expect(slope.low).toBeLessThan(-2);
  expect(slope.high).toBeGreaterThan(-2);
  expect(slope.n).toBe(24);
});

test("generation that goes up from cook to cook cannot be separated from time", () => {
  const outcome = isTheCultureDrifting.run(trialOfTrays(book(seededRandom(33), 8, (cook) => cook, -2)));
  expect(outcome.kind).toBe("cannot-tell");
  expect(text(outcome)).toContain("went up with time");
});

test("one jar a generation: a jar counts as one", () => {
  const trays = book(seededRandom(34), 5, (_, jar) => 1 + (jar % 2), -2).map((tray) => ({
    ...tray,
    jar: `J${tray.cultureGeneration}`,
  }));
  const outcome = isTheCultureDrifting.run(trialOfTrays(trays));
  expect(outcome.kind).toBe("cannot-tell");
  expect(text(outcome)).toContain("only 2 culture jars were used");
});

test("generation tied to dose cannot be separated from it", () => {
  const trays = book(seededRandom(35), 5, (_, jar) => 1 + (jar % 2), -2).map((tray) => ({
    ...tray,
    inoculumMillilitres: 5 * tray.cultureGeneration!,
  }));
  expect(text(isTheCultureDrifting.run(trialOfTrays(trays)))).toContain("changed together with inoculum");
});

test.each([
  ["no tray", []],
  ["one tray", [trayRecord({ trayId: "T1", cultureGeneration: 1 })]],
  ["no generation", book(seededRandom(1), 3, () => 1, 0).map(({ cultureGeneration: _, ...tray }) => tray)],
  ["one generation", book(seededRandom(1), 3, () => 2, 0)],
  [
    "all growing",
    book(seededRandom(1), 4, sideBySide, 0).map(({ colonisedOn: _, ...tray }) => ({
      ...tray,
      outcome: "growing" as const,
    })),
  ],
  ["no cook, no date", book(seededRandom(1), 4, sideBySide, 0).map(({ batch: _, inoculatedOn: __, ...tray }) => tray)],
])("%s: cannot tell", (_, trays) => {
  expect(text(isTheCultureDrifting.run(trialOfTrays(trays)))).toMatch(/^Cannot tell/);
});

test("jars used over several cooks, lost books and pools do not upset it", () => {
  const trays = book(seededRandom(2), 6, sideBySide, 0);
  const spanning = trays.map((tray, index) => ({ ...tray, jar: `J${tray.cultureGeneration}-${index % 2}` }));
  expect(isTheCultureDrifting.run(trialOfTrays(spanning)).kind).toBe("answer");
  const lost = trays.map((tray) => ({ ...tray, outcome: "failed" as const }));
  expect(["answer", "cannot-tell"]).toContain(isTheCultureDrifting.run(trialOfTrays(lost)).kind);
  const pools = trays.map((tray) => ({ ...tray, traysInPool: 4 }));
  expect(isTheCultureDrifting.run(trialOfTrays(pools)).kind).toBe("cannot-tell");
});
