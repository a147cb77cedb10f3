import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { compareTreatment, type TreatmentComparison } from "../../analyses/comparison/compare-treatment.ts";
import { leastPossibleP, permutationTest } from "../../analyses/comparison/permutation-test.ts";
import { growsInProportion, spreadExponent } from "../../analyses/comparison/spread-with-mean.ts";
import { type Observation, yieldPerGoodTray } from "../../analyses/comparison/tray-response.ts";
import { doseFactor } from "../../src/design/factor.ts";
import type { Settings } from "../../src/records/setting.ts";
import type { Tray } from "../../src/records/tray.ts";
import { type SeededRandom, seededRandom } from "../../src/statistics/random/seeded-random.ts";
import { trayRecord, trialOfTrays } from "./demo-records.ts";
import { renderedSentence } from "./rendered-sentence.ts";

const source = trayRecord({ trayId: "T" });
const cellsOf = (cells: Record<string, number[]>): Observation[] =>
  Object.entries(cells).flatMap(([arm, values]) =>
    values.map((value) => ({ tray: arm, arm, dose: undefined, value, groups: [], source })),
  );

// Survival times of 48 animals, 3 poisons by 4 treatments, unit 10 h: Box and Cox 1964, Journal of the Royal Statistical
// Society B 26:211-252, table 1 (from memory)
const survival = {
  A1: [0.31, 0.45, 0.46, 0.43],
  A2: [0.36, 0.29, 0.4, 0.23],
  A3: [0.22, 0.21, 0.18, 0.23],
  B1: [0.82, 1.1, 0.88, 0.72],
  B2: [0.92, 0.61, 0.49, 1.24],
  B3: [0.3, 0.37, 0.38, 0.29],
  C1: [0.43, 0.45, 0.63, 0.76],
  C2: [0.44, 0.35, 0.31, 0.4],
  C3: [0.23, 0.25, 0.24, 0.22],
  D1: [0.45, 0.71, 0.66, 0.62],
  D2: [0.56, 1.02, 0.71, 0.38],
  D3: [0.3, 0.36, 0.31, 0.33],
};

test("a published trial whose spread grows as the square of the mean is not taken for one that needs logarithms", () => {
  // Box, Hunter and Hunter 1978, Statistics for Experimenters, section 7.9: slope 1.97, so reciprocals (from memory)
  const found = spreadExponent(cellsOf(survival))!;
  expect(found.exponent).toBeCloseTo(1.97, 1);
  expect(found.cells).toBe(12);
  expect(growsInProportion(found)).toBe(false);
});

/** Cooks with every dose in each; a tray's scatter is a share of what its dose gives, or the same for all. */
function book(random: SeededRandom, gramsOf: (dose: number) => number, scatter: "share" | "same"): Tray[] {
  return Array.from({ length: 6 }, (_, cook) => {
    const cookEffect = 0.1 * random.normal();
    return [3, 9, 18].flatMap((dose) =>
      Array.from({ length: 5 }, (_, copy) => {
        const draw = random.normal();
        const grams =
          scatter === "share"
            ? gramsOf(dose) * Math.exp(cookEffect + 0.2 * draw)
            : gramsOf(dose) + 20 * cookEffect + 3 * draw;
        return trayRecord({
          trayId: `T${cook}-${dose}-${copy}`,
          batch: `C${cook}`,
          inoculumMillilitres: dose,
          dryGrams: grams,
        });
      }),
    );
  }).flat();
}

function compared(trays: Tray[], settings: Partial<Settings> = {}): TreatmentComparison {
  const outcome = compareTreatment(trialOfTrays(trays, settings), doseFactor, yieldPerGoodTray("dry"), "higher");
  if (outcome.kind !== "compared") throw new Error(JSON.stringify(outcome.reason));
  return outcome;
}

const books = 80;
const doubling = (dose: number) => 10 * (dose / 3) ** 0.6;

test("spread in proportion to the mean: logarithms decide, and their ratio holds the truth as often as promised", () => {
  const random = seededRandom(71);
  let [used, held] = [0, 0];
  for (let one = 0; one < books; one++) {
    const { decision, headline } = compared(book(random, doubling, "share"));
    if (decision.logged === undefined) continue;
    used++;
    const pair = decision.logged.pairs.find(
      ({ first, second }) => first === headline.from.arm && second === headline.to.arm,
    )!;
    const truth = Math.log(doubling(headline.to.dose!) / doubling(headline.from.dose!));
    if (pair.low <= truth && truth <= pair.high) held++;
  }
  expect(used).toBeGreaterThan(0.8 * books);
  expect(held / used).toBeGreaterThanOrEqual(0.95 - 2 * Math.sqrt((0.05 * 0.95) / used));
});

test("the same spread everywhere: logarithms are hardly ever chosen", () => {
  const random = seededRandom(72);
  let used = 0;
  for (let one = 0; one < books; one++) {
    if (compared(book(random, doubling, "same")).decision.by === "logarithms") used++;
  }
  expect(used / books).toBeLessThanOrEqual(0.025 + 2 * Math.sqrt((0.025 * 0.975) / books));
});

test("no effect and spread in proportion: no more false alarms than promised, whatever scale was chosen", () => {
  const random = seededRandom(73);
  let alarms = 0;
  for (let one = 0; one < books; one++) {
    if (compared(book(random, () => 20, "share")).certainty === "settled") alarms++;
  }
  expect(alarms / books).toBeLessThanOrEqual(0.05 + 2 * Math.sqrt((0.05 * 0.95) / books));
});

interface ExactReference {
  data: { plantA: number[]; plantB: number[] };
  expected: { plant: { permutations: number; pTwoSided: number } };
}

test("a tiny trial is decided by dealing its levels again in every way", () => {
  // R datasets PlantGrowth (Dobson 1983), counted in R: test/reference/permutation-exact.json
  const { data, expected } = JSON.parse(
    readFileSync("test/reference/permutation-exact.json", "utf8"),
  ) as ExactReference;
  const trays = [data.plantA, data.plantB].flatMap((values, arm) =>
    values.map((dryGrams, copy) =>
      trayRecord({ trayId: `T${arm}-${copy}`, inoculumMillilitres: 5 + 5 * arm, dryGrams }),
    ),
  );
  const { decision, method, certainty } = compared(trays);
  expect(decision.by).toBe("permutation");
  expect(decision.p).toBeCloseTo(expected.plant.pTwoSided, 12);
  expect(method.map(renderedSentence).join(" ")).toContain(`in all ${expected.plant.permutations} ways`);
  expect(certainty).toBe("leaning");
});

test("three trays against three cannot be clear, however far apart, and it is said", () => {
  const trays = [5, 10].flatMap((dose) =>
    [0, 1, 2].map((copy) =>
      trayRecord({ trayId: `T${dose}-${copy}`, inoculumMillilitres: dose, dryGrams: 10 * dose + copy }),
    ),
  );
  const { decision, certainty, caveats } = compared(trays);
  expect(decision.p).toBeCloseTo(2 / 20, 12); // 6 choose 3 ways, two of them this far apart
  expect(certainty).toBe("leaning");
  expect(caveats.map(renderedSentence).join(" ")).toContain("p could not be below 0.1");
});

test.each([
  ["two levels of 3", { a: 3, b: 3 }, 2 / 20],
  ["two levels, 2 and 4", { a: 2, b: 4 }, 1 / 15],
  ["three levels of 2", { a: 2, b: 2, c: 2 }, 6 / 90],
])("the least p that dealing again can give: %s", (_, sizes, least) => {
  const values = Object.entries(sizes).flatMap(([arm, size], level) =>
    Array.from({ length: size }, (_, copy) => ({ arm, block: undefined, value: 100 * level + copy })),
  );
  const { possible, p } = permutationTest(values, 1);
  expect(leastPossibleP(values, possible)).toBeCloseTo(least, 12);
  expect(p).toBeGreaterThanOrEqual(least - 1e-12);
});

test("no exponent without three groups of three trays, or without means that differ", () => {
  expect(spreadExponent(cellsOf({ a: [1, 2, 3], b: [4, 6, 8] }))).toBeUndefined();
  expect(spreadExponent(cellsOf({ a: [1, 2], b: [4, 6], c: [9, 11] }))).toBeUndefined();
  expect(spreadExponent(cellsOf({ a: [1, 2, 3], b: [1, 2, 3], c: [1, 2, 3] }))).toBeUndefined();
  expect(growsInProportion(undefined)).toBe(false);
});
