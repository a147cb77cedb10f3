import { expect, test } from "vitest";
import { moneyDoubts, saidWithDoubts } from "../../analyses/costs/money-doubts.ts";
import { whichDoseEarnsMost } from "../../analyses/dose/which-dose-earns-most.ts";
import { isTheNextStepWorthTrying } from "../../analyses/planning/is-the-next-step-worth-trying.ts";
import { whatChangedTheYield } from "../../analyses/treatment/what-changed-the-yield.ts";
import type { Sentence } from "../../src/analysis.ts";
import type { MoneyDoubt } from "../../src/costing/lines/money-doubt.ts";
import type { CostLine } from "../../src/records/cost-line.ts";
import type { Product } from "../../src/records/product.ts";
import { assertClose } from "../agreement.ts";
import { line, product, tray } from "../costing/sample-records.ts";
import { trayRecord, trialOfTrays } from "./demo-records.ts";
import { answerOf, cellOf, moneyTrial } from "./money-books.ts";
import { renderedSentence } from "./rendered-sentence.ts";
import { simulateBook } from "./simulated-book.ts";

/** y = 40 + 6x - 0.2x^2 g dry, trays 0.3 g to either side of it, in four cooks */
const trays = [5, 8, 11, 14, 17, 20].flatMap((inoculumMillilitres) =>
  [-0.3, 0.3, -0.3, 0.3].map((side, cook) =>
    tray({
      batch: `C${cook + 1}`,
      inoculumMillilitres,
      dryGrams: 40 + 6 * inoculumMillilitres - 0.2 * inoculumMillilitres ** 2 + side,
      inoculatedOn: `2026-03-0${cook + 1}`,
      harvestedOn: `2026-04-2${cook + 1}`,
    }),
  ),
);
const culture = line({ item: "culture", kind: "culture", per: "inoculum mL", packUnit: "mL", packPrice: 0.4 });

const plain = (sentence: Sentence): string => renderedSentence(sentence).replaceAll("\u00a0", " ");
const best = (costs: CostLine[], sold: Product) => answerOf(whichDoseEarnsMost.run(moneyTrial(trays, costs, [sold])));
const said = (outcome: ReturnType<typeof whichDoseEarnsMost.run>): string =>
  plain(outcome.kind === "answer" ? outcome.sentence : outcome.reason);

test("0.50 a gram, 0.40 a mL: the best dose is 13 mL and leaves 36.90; arithmetic, r = 0.8", () => {
  const outcome = best([culture], product({ grams: 100, currentPrice: 50 }));
  const [use, left] = outcome.estimates;
  expect(Math.abs(use!.value - 13)).toBeLessThanOrEqual(1);
  // expected is pulled in by what other shapes would say of these six means
  assertClose(left!.value, 36.9, 0.3);
  // seen at 11 mL: 0.5 x (40 + 66 - 24.2) - 4.4
  assertClose(Number(cellOf(outcome, "Seen and expected", 11, "seen, left of a started tray")), 36.5, 1e-9);
  expect(said(outcome)).toMatch(/^Use 1[34] mL/);
});

test("drying that costs as much a gram as a fee moves the choice as far: it is taken off the gram once", () => {
  const drying = line({ item: "drying", per: "kg dried", stage: "drying", packPrice: 64.5 });
  const sold = product({ grams: 100, currentPrice: 50 });
  const dried = best([culture, drying], sold);
  const fee = best([culture], { ...sold, feeFraction: 0.129 });
  dried.estimates.forEach(({ value }, at) => {
    assertClose(value, fee.estimates[at]!.value, 1e-9);
  });
  expect(said(dried)).toBe(said(fee));
});

test("without prices the same question is which dose yields most, in grams", () => {
  const outcome = answerOf(whichDoseEarnsMost.run(moneyTrial(trays, [], [])));
  // the top of the yield curve is at 15 mL, where the means of 14 and 17 mL differ by 0.6 g
  expect(Math.abs(outcome.estimates[0]!.value - 15)).toBeLessThanOrEqual(2);
  expect(outcome.estimates[1]!.unit).toBe("g");
  expect(outcome.caveats.map(plain).join(" ")).toContain("Money is not in it");
  expect(said(outcome)).not.toContain("€");
});

test("culture that costs more than it brings: the lowest dose, its end named, and less tried next only by the rule", () => {
  const dear = { ...culture, packPrice: 4 };
  const outcome = best([dear], product({ grams: 100, currentPrice: 50 }));
  expect(outcome.estimates[0]!.value).toBe(5);
  expect(outcome.caveats.map(plain).join(" ")).toContain("5 mL is the lowest dose you tried");
});

test("nothing sold pays for a tray: no dose pays, the loss is named and no dose is advised", () => {
  const outcome = best([line({ item: "rent", packPrice: 90 })], product({ grams: 100, currentPrice: 50 }));
  expect(said(outcome)).toMatch(/^No dose pays at today's prices/);
  expect(outcome.next).toEqual([]);
  // a loss whose range reaches above 0 is only probable: the range and the word stand for one thing
  const nearly = best([line({ item: "rent", packPrice: 42.45 })], product({ grams: 100, currentPrice: 50 }));
  const left = nearly.estimates.find(({ label }) => label.startsWith("left of a started tray"))!;
  expect([left.value < 0, left.high! > 0]).toEqual([true, true]);
  expect(said(nearly)).toMatch(/^Probably no dose pays at today's prices/);
});

test("doses that do nothing: no dose is named as settled, and what is advised is for the meanwhile", () => {
  for (let seed = 1; seed <= 10; seed++) {
    const book = simulateBook({
      seed,
      cooks: 4,
      traysPerDose: 3,
      doses: [3, 6, 9, 12],
      cookSd: 3,
      traySd: 5,
      mean: () => 30,
    });
    const outcome = answerOf(whichDoseEarnsMost.run(trialOfTrays(book)));
    expect(outcome.certainty, `book ${seed}`).not.toBe("settled");
    if (outcome.certainty === "open") expect(said(outcome)).toMatch(/cannot tell|hardly matters/);
  }
});

test("a dose stepped up from cook to cook cannot be separated from the calendar: its means are given, no dose is advised", () => {
  const stepped = [3, 6, 9].flatMap((dose, cook) =>
    simulateBook({
      seed: cook + 1,
      cooks: 1,
      traysPerDose: 6,
      doses: [dose],
      cookSd: 0,
      traySd: 2,
      mean: () => 20 + dose,
      prefix: `S${cook}`,
    }),
  );
  const outcome = whichDoseEarnsMost.run(trialOfTrays(stepped));
  expect(outcome.kind).toBe("cannot-tell");
  expect(outcome.tables[0]!.rows).toHaveLength(3);
  expect(said(outcome)).toContain("Seen so far: most at 9 mL");
});

test("grams of supplement are decided by the same rule, at what the supplement costs a gram", () => {
  const amounts = [0, 20, 40, 60].flatMap((supplementGrams) =>
    ["A", "B", "C", "D"].flatMap((batch, cook) =>
      [-1, 1].map((side) =>
        trayRecord({
          trayId: `${batch}${supplementGrams}${side}`,
          batch,
          inoculumMillilitres: 6,
          supplementGrams,
          inoculatedOn: `2026-03-0${cook + 1}`,
          harvestedOn: `2026-04-2${cook + 1}`,
          // 0.2 g dry more for each gram up to 40, then nothing
          dryGrams: 20 + 0.2 * Math.min(40, supplementGrams) + side,
        }),
      ),
    ),
  );
  const costs = [
    culture,
    line({ item: "bran", kind: "consumable", per: "supplement g", packUnit: "g", packPrice: 0.02 }),
  ];
  const outcome = answerOf(
    whichDoseEarnsMost.run(moneyTrial(amounts, costs, [product({ grams: 100, currentPrice: 50 })])),
  );
  // 0.10 a gram of bran against 0.02: all 40 g pay, the last 20 do not
  expect(Math.abs(outcome.estimates[0]!.value - 40)).toBeLessThanOrEqual(5);
  // 0.5 x 28 - 0.8 - 2.4 of culture
  assertClose(Number(cellOf(outcome, "Seen and expected", 40, "seen, left of a started tray")), 10.8, 1e-9);
  expect(said(outcome)).toContain("g");
});

test("strains instead of doses: what a started tray of each earned, its losses in it, decides which to use", () => {
  // the heavier strain loses every third tray; common practice, no source
  const strains = ["Amber", "Birch"].flatMap((strain, at) =>
    Array.from({ length: 36 }, (_, place) => {
      const lost = at === 0 && Math.floor(place / 6) % 3 === 0;
      return tray({
        trayId: `${strain}${place}`,
        batch: `C${1 + (place % 6)}`,
        inoculatedOn: `2026-0${1 + (place % 6)}-03`,
        inoculumMillilitres: 5,
        strain,
        outcome: lost ? "contaminated" : "good",
        dryGrams: lost ? undefined : 30 + (at === 0 ? 4 : 0) + ((7 * place) % 5),
      });
    }),
  );
  const answer = answerOf(
    whichDoseEarnsMost.run(moneyTrial(strains, [culture], [product({ form: "dried", grams: 50, currentPrice: 25 })])),
  );
  expect(answer.asked?.question).toBe("Which strain should I use?");
  expect(answer.certainty).toBe("settled");
  expect(plain(answer.sentence)).toMatch(/^Birch earned \S+ more a started tray than Amber/);
  expect(answer.next!.map(({ act }) => plain(act))).toEqual(["Use Birch."]);
  expect(answer.caveats.map(plain)).toContain("Lost, fewest first: Birch 0 of 36 and Amber 12 of 36.");
  expect(cellOf(answer, "Trays and results", "Amber", "lost")).toBe(12);
  // few trays: which is ahead is said, and nothing is to be done about it
  const few = answerOf(
    whichDoseEarnsMost.run(
      moneyTrial(
        strains.filter(({ batch }) => batch === "C2" || batch === "C3"),
        [culture],
        [product({ form: "dried", grams: 50, currentPrice: 25 })],
      ),
    ),
  );
  expect(few.certainty).toBe("open");
  expect(plain(few.short!)).toBe("Which strain earns most is not known yet: Birch against Amber.");
  expect(few.next).toEqual([]);
  const unread = moneyDoubts({
    ...moneyTrial(strains, [culture], [product({ form: "dried", grams: 50, currentPrice: 25 })]),
    unread: [{ sheet: "costs", name: "rent", reason: "6O", source: { file: "costs.csv", row: 3 }, inUse: false }],
  });
  const whole = moneyDoubts({
    ...moneyTrial(strains, [culture], [product({ form: "dried", grams: 50, currentPrice: 25 })]),
    unread: [{ sheet: "costs", name: "c.txt", reason: "no item", source: { file: "c.txt", row: 0 }, inUse: false }],
  });
  const next = saidWithDoubts(answer, whole).next!;
  expect(plain(next[0]!.act)).toBe("Correct c.txt.");
  // one thing written down brings back the costs that wait for it alone, and a product moves no cost
  const doubt = (name: string, more: Partial<MoneyDoubt>): MoneyDoubt => ({
    ...unread[0]!,
    ...{ name, reason: "not recorded", ...more },
  });
  const bran = doubt("bran", { record: "supplement_g, 0 for none" });
  const pouch = doubt("pouch", { moves: "products" });
  const said = (doubts: MoneyDoubt[]) => {
    const [first] = saidWithDoubts(answer, doubts).next!;
    return plain([...first!.act, " ", ...first!.because!]);
  };
  expect(said([bran, doubt("rent", {}), pouch])).toBe(
    "Record supplement_g, 0 for none. Until then a cost is left out, so costs look lower than they are.",
  );
  expect(said([doubt("rent", {}), doubt("bags", {}), pouch])).toMatch(
    /^Correct rent: .* It and 1 more are left out, so costs look/,
  );
  expect(said([pouch])).toMatch(/^Correct pouch: .* It is left out, so nothing is worked out for it\.$/);
  const lowered = answerOf(saidWithDoubts(answer, unread));
  expect(lowered.certainty).toBe("leaning");
  expect(plain(lowered.sentence)).toMatch(/^Leaning to Birch/);
  expect(lowered.next!.map(({ act }) => plain(act))).toContain("Meanwhile use Birch.");
});

test("strains without prices: a started tray of each gave what the question about the yield says it gave", () => {
  const strains = ["Amber", "Birch"].flatMap((strain, at) =>
    Array.from({ length: 24 }, (_, place) => {
      const lost = place === 5 || (at === 0 && place % 7 === 0);
      return trayRecord({
        trayId: `${strain}${place}`,
        batch: `C${1 + (place % 4)}`,
        strain,
        outcome: lost ? "contaminated" : "good",
        dryGrams: lost ? undefined : 30 + at + ((7 * place) % 5),
      });
    }),
  );
  const trial = trialOfTrays(strains);
  const use = answerOf(whichDoseEarnsMost.run(trial));
  const started = answerOf(whatChangedTheYield.run(trial)).estimates[1]!;
  expect(started.label).toBe("Birch against Amber, dry yield per started tray");
  expect(use.estimates[0]).toMatchObject({ label: started.label, value: started.value, low: started.low });
  expect(cellOf(use, "Trays and results", "Amber", "lost")).toBe(5);
});

test("a dose that no tray had is for a few trays first, in the answer and in what to do next", () => {
  // 8 mL gives a little more and loses every sixth tray; the dose to use is between the two. Common practice, no source
  const trays = Array.from({ length: 36 }, (_, place) => {
    const [cook, high] = [Math.floor(place / 6), place % 2];
    const lost = place % 12 === 11;
    return tray({
      trayId: `T${place}`,
      batch: `C${cook}`,
      inoculatedOn: `2026-03-${10 + cook}`,
      inoculumMillilitres: high ? 8 : 4,
      outcome: lost ? "contaminated" : "good",
      dryGrams: lost ? undefined : 20 + 0.8 * cook + 1.2 * high + 0.3 * (place % 6),
    });
  });
  const answer = answerOf(whichDoseEarnsMost.run(trialOfTrays(trays)));
  expect(plain(answer.sentence)).toMatch(/^Use 6 mL, between those you tried: .* Check it on a few trays\./);
  expect(answer.next!.map(({ act }) => plain(act))).toEqual(["Meanwhile use 6 mL, on a few trays first."]);
});

test("there is no half a generation, and no day longer than 24 hours, to try", () => {
  const grown = (of: (level: number) => object) =>
    trialOfTrays(
      [0, 1, 2, 3, 4].flatMap((cook) =>
        [0, 1, 2].flatMap((level) =>
          [0, 1].map((k) =>
            trayRecord({
              trayId: `${cook}${level}${k}`,
              batch: `C${cook}`,
              dryGrams: 20 + 3 * level + ((cook + k) % 3),
              outcome: "good",
              ...of(level),
            }),
          ),
        ),
      ),
    );
  const generations = whichDoseEarnsMost.run(grown((level) => ({ cultureGeneration: 3 - level })));
  expect(said(generations)).toContain("generation 1");
  expect(JSON.stringify(generations)).not.toMatch(/[Gg]eneration (?:0|1|2)\.5/);
  // nor is an older culture tried than there was
  const older = answerOf(whichDoseEarnsMost.run(grown((level) => ({ cultureGeneration: 1 + level }))));
  expect(older.caveats.map(plain).join(" ")).toContain(
    "is the highest culture generation you tried. There is none beyond",
  );
  const light = answerOf(whichDoseEarnsMost.run(grown((level) => ({ lightHours: 8 + 8 * level }))));
  expect(light.caveats.map(plain).join(" ")).toContain(
    "24 hours is the highest light you tried. There is none beyond it",
  );
});

test("supplements that no cost line tells apart: which to use is said by weight, and that their cost is not counted", () => {
  const supplements = [0, 1, 2, 3, 4, 5].flatMap((cook) =>
    [0, 1, 2, 3, 4, 5].map((k) =>
      tray({
        trayId: `${cook}${k}`,
        batch: `C${cook}`,
        supplement: k % 2 === 0 ? "none" : "bran",
        inoculumMillilitres: 6,
        dryGrams: 20 + 5 * (k % 2) + ((cook + k) % 3),
      }),
    ),
  );
  const sold = [product({ form: "dried", grams: 50, currentPrice: 25 })];
  for (const lines of [[], [culture]]) {
    const answer = answerOf(whichDoseEarnsMost.run(moneyTrial(supplements, lines, sold)));
    expect(answer.asked?.question).toBe("Which supplement should I use?");
    expect(plain(answer.sentence)).toMatch(/^bran gave \S+ g more a started tray than none/);
    expect(answer.next!.map(({ because }) => plain(because!))).toEqual([
      "It gave more a started tray; its cost is not counted.",
    ]);
    expect(answer.caveats.map(plain)).toContain("Money is not in it: no cost line tells what each supplement costs.");
  }
  const bran = line({ item: "bran", packPrice: 1, onlyWhereColumn: "supplement", onlyWhereValue: "bran" });
  expect(whichDoseEarnsMost.run(moneyTrial(supplements, [culture, bran], sold)).kind).toBe("cannot-tell");
});

test("where only the level to use is not ruled out, no range of one end is told", () => {
  const warm = [0, 1, 2, 3, 4, 5, 6, 7].flatMap((cook) =>
    [16, 18, 20].flatMap((fruitingCelsius, at) =>
      [0, 1].map((k) =>
        tray({
          trayId: `${cook}${at}${k}`,
          batch: `C${cook}`,
          chamber: `T${(at + cook) % 3}`,
          inoculatedOn: `2026-01-0${cook + 1}`,
          fruitingCelsius,
          dryGrams: 20 + 2.5 * at + ((cook * 5 + at * 3 + k * 2) % 4),
        }),
      ),
    ),
  );
  const answer = answerOf(whichDoseEarnsMost.run(trialOfTrays(warm)));
  expect(answer.figure).toMatchObject({ value: 20 });
  expect(answer.next!.map(({ because }) => plain(because!))).toEqual(["The others tried are ruled out."]);
});

test("one dose is to be tried next: an end of the range waits where a dose beside the one to use comes first", () => {
  const waiting = [1, 2, 3, 4, 5, 6].flatMap((seed) => {
    const form = { seed, cooks: 3, traysPerDose: 2, doses: [2, 4, 6], cookSd: 2, traySd: 3 };
    const trial = trialOfTrays(simulateBook({ ...form, mean: (dose) => 34 - 0.3 * (dose - 4) ** 2 }));
    const said = answerOf(whichDoseEarnsMost.run(trial)).caveats.map(plain);
    const next = answerOf(isTheNextStepWorthTrying.run(trial)).sentence;
    return said.flatMap((one) => {
      const after = / is worth a trial, but after (.+?):/.exec(one)?.[1];
      const now = /Try (.+?) next/.exec(one)?.[1];
      for (const dose of [after, now]) if (dose !== undefined) expect(plain(next)).toContain(`Try ${dose} next`);
      return after ?? [];
    });
  });
  expect(waiting.length).toBeGreaterThan(0);
});
