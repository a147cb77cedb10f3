import { expect, test } from "vitest";
import { observe, yieldPerGoodTray } from "../../analyses/comparison/tray-response.ts";
import { whichDoseEarnsMost } from "../../analyses/dose/which-dose-earns-most.ts";
import { bookSpread } from "../../analyses/planning/book-spread.ts";
import { howManyMoreTrays } from "../../analyses/planning/how-many-more-trays.ts";
import { chanceToShow, cooksToShow, smallestShown } from "../../analyses/planning/trial-power.ts";
import { worthwhileDifference } from "../../analyses/planning/worthwhile-difference.ts";
import type { Trial } from "../../src/analysis.ts";
import { doseFactor } from "../../src/design/factor.ts";
import { line, product } from "../costing/sample-records.ts";
import { trayRecord, trialOfTrays } from "./demo-records.ts";
import { moneyTrial } from "./money-books.ts";
import { simulateBook } from "./simulated-book.ts";

test("with one block and no cook effects the power is the two-arm t test's: CV 20 %, difference 20 %, 17 trays an arm", () => {
  // made with the noncentral t: 17 trays per arm, the smallest number with a chance of 80 %
  const input = {
    spread: { traySd: 0.2, cookDoseSd: 0 },
    doses: 2,
    significance: 0.05,
    cooks: 1,
  };
  expect(chanceToShow(0.2, { ...input, traysPerDose: 17 })).toBeGreaterThan(0.8);
  expect(chanceToShow(0.2, { ...input, traysPerDose: 16 })).toBeLessThan(0.8);
  const found = smallestShown({ ...input, traysPerDose: 17 })!;
  expect(chanceToShow(found, { ...input, traysPerDose: 17 })).toBeCloseTo(0.8, 8);
});

test("the share of simulated trials that show a difference is the chance that was planned", () => {
  const spread = { traySd: 2, cookDoseSd: 0 };
  const planned = chanceToShow(1.6, {
    spread,
    doses: 2,
    significance: 0.05,
    cooks: 4,
    traysPerDose: 6,
  });
  const trials = 400;
  let shown = 0;
  for (let seed = 1; seed <= trials; seed++) {
    const trays = simulateBook({
      seed,
      cooks: 4,
      traysPerDose: 6,
      doses: [5, 10],
      cookSd: 2,
      traySd: 2,
      mean: (dose) => 20 + 1.6 * (dose === 10 ? 1 : 0),
    });
    // the paired form of the same comparison by hand: least squares with cooks as blocks
    const names = [...new Set(trays.map(({ batch }) => batch))];
    const cooks = names.map((name) => trays.filter(({ batch }) => batch === name));
    let [difference, squares] = [0, 0];
    for (const own of cooks) {
      const means = [5, 10].map((dose) => {
        const values = own.flatMap((tray) => (tray.inoculumMillilitres === dose ? [tray.dryGrams!] : []));
        return values.reduce((sum, value) => sum + value, 0) / values.length;
      });
      difference += (means[1]! - means[0]!) / cooks.length;
    }
    for (const own of cooks) {
      const mean = own.reduce((sum, { dryGrams }) => sum + dryGrams! / own.length, 0);
      for (const tray of own) {
        const side = tray.inoculumMillilitres === 10 ? 0.5 : -0.5;
        squares += (tray.dryGrams! - mean - side * difference) ** 2;
      }
    }
    const error = Math.sqrt((squares / 43) * (2 / 24));
    if (difference / error > 2.0166922) shown++; // t of 43 degrees of freedom, 97.5 %
  }
  expect(Math.abs(shown / trials - planned)).toBeLessThan(3 * Math.sqrt((planned * (1 - planned)) / trials));
});

test("where a dose differs from cook to cook, cooks help and trays in a cook soon stop helping", () => {
  const input = {
    spread: { traySd: 2, cookDoseSd: 1.5 },
    doses: 2,
    significance: 0.05,
  };
  const many = chanceToShow(2, { ...input, cooks: 4, traysPerDose: 1000 });
  expect(many).toBeLessThan(0.6);
  expect(chanceToShow(2, { ...input, cooks: 16, traysPerDose: 4 })).toBeGreaterThan(many);
  expect(cooksToShow(2, { ...input, traysPerDose: 4 })).toBeGreaterThan(4);
});

test("variance components of a long simulated book come out near the truth", () => {
  const trays = simulateBook({
    seed: 2,
    cooks: 60,
    traysPerDose: 4,
    doses: [3, 6, 9],
    cookSd: 2,
    traySd: 2.5,
    cookDoseSd: 1.2,
    mean: (dose) => 15 + dose,
  });
  const spread = bookSpread(observe(trays, doseFactor, yieldPerGoodTray("dry")))!;
  expect(Math.abs(spread.traySd - 2.5)).toBeLessThan(0.25);
  expect(Math.abs(spread.cookSd - 2)).toBeLessThan(0.8);
  expect(Math.abs(spread.cookDoseSd - 1.2)).toBeLessThan(0.5);
});

const small = { cooks: 2, traysPerDose: 4, doses: [5, 10], cookSd: 2, traySd: 3 } as const;

test("a small open trial learns how many trays and cooks more; a plain one is reported as decided", () => {
  const open = howManyMoreTrays.run(trialOfTrays(simulateBook({ ...small, seed: 1, mean: () => 20 })));
  if (open.kind !== "answer") throw new Error(JSON.stringify(open));
  const said = open.sentence.filter((part) => typeof part === "string").join("");
  expect(said).toMatch(/^Not decided yet: these trays could show .* more cooks? /);
  expect(said).toContain("For choosing the dose");
  const decided = howManyMoreTrays.run(
    trialOfTrays(simulateBook({ ...small, cooks: 6, seed: 1, mean: (dose) => 10 + 2 * dose })),
  );
  expect(decided.kind === "answer" && decided.sentence[0]).toContain("Already decided");
});

test("where a new dose is advised beside the dose to use, or no dose pays, the same levels again are no advice", () => {
  // two loads of six, a tray lost of each dose, 9 mL ahead by a tenth
  const dry = [21.5, 19.8, undefined, 23.9, 23, 20.5, 22, 20.1, 21, 24.4, 23.5, undefined];
  const trays = dry.map((dryGrams, at) =>
    trayRecord({
      trayId: `T${at}`,
      batch: at < 6 ? "L1" : "L2",
      inoculumMillilitres: at % 6 < 3 ? 6 : 9,
      inoculatedOn: at < 6 ? "2026-03-02" : "2026-03-09",
      outcome: dryGrams === undefined ? "discarded" : "good",
      dryGrams,
    }),
  );
  const actsOf = (trial: Trial) =>
    [whichDoseEarnsMost.run(trial), howManyMoreTrays.run(trial)].flatMap(({ next = [] }) =>
      next.map(({ act }) => act.filter((part) => typeof part === "string").join("")),
    );
  expect(actsOf(trialOfTrays(trays))).toEqual([expect.stringMatching(/^Meanwhile use .* and try .* beside it\.$/)]);
  const dear = line({ item: "bag", per: "tray", packPrice: 30 });
  const cheap = product({ form: "dried", grams: 50, currentPrice: 25 });
  expect(actsOf(moneyTrial(trays, [dear], [cheap]))).toEqual([]);
});

test("one cook per dose: no number of trays laid out so would decide, and the number for a fair trial is given", () => {
  const trays = simulateBook({ ...small, doses: [5, 10, 15], seed: 1, mean: () => 20 }).map((tray) => ({
    ...tray,
    batch: `B${tray.inoculumMillilitres}`,
  }));
  const outcome = howManyMoreTrays.run(trialOfTrays(trays));
  if (outcome.kind !== "cannot-tell") throw new Error("expected cannot tell");
  expect(outcome.reason.join("")).toContain("No number of trays laid out this way");
  expect(outcome.wouldSettle.filter((part) => typeof part === "string").join("")).toMatch(/\d+ trays per dose over/);
});

test("thin and odd books are reported so", () => {
  const one = trayRecord({ trayId: "1", inoculumMillilitres: 5, dryGrams: 20 });
  const lost = [5, 10].flatMap((dose) =>
    Array.from({ length: 6 }, (_, k) =>
      trayRecord({ trayId: `${dose}-${k}`, inoculumMillilitres: dose, outcome: "contaminated" }),
    ),
  );
  const equal = lost.map((tray) => ({ ...tray, outcome: "good" as const, dryGrams: 20 }));
  const pools = equal.map((tray, k) => ({ ...tray, traysInPool: 3, dryGrams: 60 + k }));
  for (const trays of [[], [one], lost]) {
    expect(howManyMoreTrays.run(trialOfTrays(trays)).kind).toBe("cannot-tell");
  }
  // however few, what two levels could show is said
  for (const trays of [[one, { ...one, trayId: "2", inoculumMillilitres: 8 }], equal, pools]) {
    const outcome = howManyMoreTrays.run(trialOfTrays(trays));
    expect(outcome.kind === "answer" && outcome.sentence[0]).toContain("Not decided yet");
  }
});

test("ten thousand trays are answered", () => {
  const trays = simulateBook({
    seed: 9,
    cooks: 250,
    traysPerDose: 10,
    doses: [3, 6, 9, 12],
    cookSd: 2,
    traySd: 2,
    mean: (dose) => 15 + dose / 10,
  });
  expect(howManyMoreTrays.run(trialOfTrays(trays)).kind).toBe("answer");
});

test("a difference worth finding can be stated", () => {
  const trays = simulateBook({
    seed: 3,
    cooks: 4,
    traysPerDose: 4,
    doses: [3, 6],
    cookSd: 1,
    traySd: 4,
    mean: () => 20,
  });
  const said = (worthwhileShare: number): string => {
    const { caveats, tables, ...outcome } = howManyMoreTrays.run(trialOfTrays(trays, { worthwhileShare }));
    return JSON.stringify([outcome, caveats, tables]);
  };
  expect(said(0.1)).toContain('{"value":0.1,"unit":"share"}," of a tray');
  expect(said(0.25)).toContain('{"value":0.25,"unit":"share"}," of a tray');
  const { grams } = worthwhileDifference(0.25, 20);
  expect(grams).toBe(5);
});

test("one cook of many names gets a second cook as its next step", () => {
  const trays = [..."abcdefgh"].map((name, at) =>
    trayRecord({ trayId: name, batch: "C1", strain: `strain ${name}`, dryGrams: 30 + ((at * 5) % 7) }),
  );
  expect(howManyMoreTrays.run(trialOfTrays(trays)).next).toEqual([
    {
      rank: "trial",
      act: ["Grow the same levels in a second cook."],
      because: ["One cook cannot show what the next one does."],
    },
  ]);
});

test("names that stay close are kept side by side while more cooks than are advised would tell", () => {
  const trays = [1, 2, 3].flatMap((cook) =>
    ["a", "b", "a", "b", "a", "b"].map((name, at) =>
      trayRecord({
        trayId: `${cook}${name}${at}`,
        batch: `C${cook}`,
        strain: name,
        dryGrams: 30 + 3 * Math.sin(5 * cook + 3 * at),
      }),
    ),
  );
  expect(howManyMoreTrays.run(trialOfTrays(trays)).next).toEqual([
    {
      rank: "trial",
      act: ["Keep the same levels side by side in each cook."],
      because: ["16 more cooks would show a gain worth having."],
    },
  ]);
});
