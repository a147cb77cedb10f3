import { expect, test } from "vitest";
import { analyses } from "../../analyses/index.ts";
import { proposeTrial } from "../../analyses/planning/propose-trial.ts";
import type { Tray } from "../../src/records/tray.ts";
import { type SeededRandom, seededRandom } from "../../src/statistics/random/seeded-random.ts";
import { trayRecord, trialOfTrays } from "./demo-records.ts";
import { outcomeFaults } from "./outcome-faults.ts";
import { randomMoneyBook } from "./random-money-books.ts";
import { renderedSentence } from "./rendered-sentence.ts";

const day = (index: number) => new Date(Date.UTC(2026, 0, 5 + index)).toISOString().slice(0, 10);

/** A book with any cell missing by chance, few or tied groups, equal values, pools, zero weights and dates out of order. */
function oddBook(random: SeededRandom): Tray[] {
  const missing = random.uniform();
  const some = <T>(value: T, key: string): Record<string, T> => (random.uniform() < missing ? {} : { [key]: value });
  const pick = <T>(values: ReadonlyArray<T>): T => values[random.integer(values.length)]!;
  const spread = random.integer(3);
  const doses = [5, 10, 15].slice(0, 1 + random.integer(3));
  const isTied = random.integer(3) === 0;
  const outcomes = pick([
    ["good"],
    ["good", "good", "contaminated"],
    ["contaminated", "failed"],
    ["good", "growing", "discarded", "contaminated"],
  ] as const);
  return Array.from({ length: random.integer(60) }, (_, index) => {
    const start = random.integer(90);
    const dry = 10 + spread * random.integer(8);
    const dose = pick(doses);
    return trayRecord({
      trayId: `T${index}`,
      outcome: pick<Tray["outcome"]>(outcomes),
      traysInPool: random.integer(8) === 0 ? 3 : 1,
      flags: random.integer(10) === 0 ? ["odd"] : [],
      sources: [{ file: pick(["a.csv", "b.csv"]), row: index }],
      ...some(`C${isTied ? dose : random.integer(6)}`, "batch"),
      ...some(`L${random.integer(3)}`, "load"),
      ...some(`J${random.integer(5)}`, "jar"),
      ...some(`S${random.integer(2)}`, "shelf"),
      ...some(`A${random.integer(2)}`, "chamber"),
      ...some(String(random.integer(4)), "loadPosition"),
      ...some(random.integer(3), "cultureGeneration"),
      ...some(random.integer(40), "cultureAgeDays"),
      ...some(dose, "inoculumMillilitres"),
      ...some(pick(["fine", "coarse"]), "supplementGrade"),
      ...some(pick([20, 30, 40]), "supplementGrams"),
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

test("no book, however odd, makes a question fail, and each says only what can be written", () => {
  const random = seededRandom(71);
  for (let book = 0; book < 30; book++) {
    const { costLines, products, unread } = randomMoneyBook(book + 1);
    const log = Array.from({ length: book % 3 ? 0 : random.integer(500) }, (_, hour) => ({
      at: `${day(Math.floor(hour / 4))}T${String((hour % 4) * 6).padStart(2, "0")}:00`,
      celsius: 15 + random.integer(10),
      chamber: `A${hour % 2}`,
    }));
    const trial = { ...trialOfTrays(oddBook(random)), costLines, products, unread, temperatureLog: log };
    for (const analysis of analyses) expect(outcomeFaults(analysis.run(trial)), `${book}: ${analysis.id}`).toEqual([]);
    const proposal = proposeTrial(trial, { layout: "blocks", chambers: 0 });
    const says = proposal.kind === "proposal" ? proposal.says : [];
    expect(says.map(renderedSentence).join(" ")).not.toMatch(/NaN|Infinity/);
  }
});

test("the order of the rows changes no estimate where dates tell the order", () => {
  const random = seededRandom(72);
  for (let book = 0; book < 6; book++) {
    const trays = oddBook(random).map((tray, index) => ({
      ...tray,
      inoculatedOn: day(7 * (index % 9)),
      batch: `C${index % 9}`,
      inoculumMillilitres: index % 2 ? 5 : 10,
    }));
    for (const analysis of analyses) {
      const values = (rows: Tray[]) =>
        analysis
          .run(trialOfTrays(rows))
          .estimates.map(({ label, value }) => `${label} ${value.toPrecision(5)}`)
          .sort();
      expect(values(random.shuffle(trays)), analysis.id).toEqual(values(trays));
    }
  }
});
