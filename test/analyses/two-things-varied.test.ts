import { describe, expect, test } from "vitest";
import { yieldPerGoodTray } from "../../analyses/comparison/tray-response.ts";
import { whichDoseEarnsMost } from "../../analyses/dose/which-dose-earns-most.ts";
import { isTheNextStepWorthTrying } from "../../analyses/planning/is-the-next-step-worth-trying.ts";
import { bookDoseDecision } from "../../analyses/treatment/book-dose-decision.ts";
import { gatherTrays } from "../../analyses/treatment/compared-trays.ts";
import { decideTreatment, thingsOf } from "../../analyses/treatment/treatment-decision.ts";
import { whatChangedTheYield } from "../../analyses/treatment/what-changed-the-yield.ts";
import { decideUnordered } from "../../src/decisions/verdict/index.ts";
import { chamberFactor, doseFactor, type Factor, jarFactor, shelfFactor } from "../../src/design/factor.ts";
import { Memo } from "../../src/records/memo.ts";
import type { Tray } from "../../src/records/tray.ts";
import { seededRandom } from "../../src/statistics/random/seeded-random.ts";
import { trayRecord, trialOfTrays } from "./demo-records.ts";
import { renderedSentence } from "./rendered-sentence.ts";

// layouts with a truth of their own; what each should say is common practice, no source

const on = { response: yieldPerGoodTray("dry"), better: "higher", withLost: true } as const;

/** Cooks of so many trays, each with what `of` gives it; fortnights apart. */
function book(cooks: number, trays: number, of: (place: number, cook: number) => Partial<Tray>, seed = 1): Tray[] {
  const random = seededRandom(seed);
  return Array.from({ length: cooks }, (_, cook) => {
    const base = 30 + 3 * random.normal();
    return Array.from({ length: trays }, (_tray, place) => {
      const facts = of(place, cook);
      return trayRecord({
        trayId: `T${cook}-${place}`,
        batch: `C${cook + 1}`,
        inoculatedOn: new Date(Date.UTC(2026, 0, 1 + 14 * cook)).toISOString().slice(0, 10),
        ...facts,
        dryGrams: base + (facts.dryGrams ?? 0) + random.normal(),
      });
    });
  }).flat();
}

function decided(trays: Tray[], key: string) {
  const trial = trialOfTrays(trays);
  return decideTreatment(trial, thingsOf(trial).find(({ factor }) => factor.key === key)!, on)!;
}

describe("another thing that varied is taken out", () => {
  test("a supplement is not held against its own grams: none is 0 g, bran is 40 g", () => {
    const trays = book(4, 6, (place) =>
      place % 2 === 0 ? { supplement: "none", supplementGrams: 0 } : { supplement: "bran", supplementGrams: 40 },
    );
    for (const key of ["supplement", "supplement_g"]) {
      const { decision, beside } = decided(trays, key);
      expect(beside.takenOut, key).toEqual([]);
      expect(decision.verdict, key).not.toBe("cannot-tell");
    }
  });

  test("grade and grams that vary apart are taken out of one another", () => {
    const trays = book(4, 8, (place) => ({
      supplementGrade: place % 2 === 0 ? "coarse" : "fine",
      supplementGrams: place % 4 < 2 ? 20 : 40,
      dryGrams: place % 4 < 2 ? 0 : 6,
    }));
    expect(decided(trays, "supplement_grade").beside.takenOut[0]?.factor.key).toBe("supplement_g");
    expect(decided(trays, "supplement_g").decision.verdict).toBe("settled");
  });

  test("everything crossed with a dose is taken out, columns of one's own among it; chance is left alone", () => {
    const crossed = (place: number): Partial<Tray> => ({
      inoculumMillilitres: place % 2 === 0 ? 3 : 9,
      supplementGrade: place % 4 < 2 ? "fine" : "coarse",
      factors: { "lamp side": place % 8 < 4 ? "left" : "right", label: `no ${place % 2}` },
      dryGrams: (place % 2 === 0 ? 0 : 2) + (place % 4 < 2 ? 8 : 0) + (place % 8 < 4 ? 8 : 0),
    });
    const { beside, decision } = decided(book(4, 8, crossed), "inoculum_ml");
    // what says the same as the dose cannot be taken out of it
    expect(beside.takenOut.map(({ factor }) => factor.key)).toEqual(["supplement_grade", "factor:lamp side"]);
    // trays differ by 1 g once grade and lamp, 8 g each, are out
    expect(Math.abs(decision.difference!.estimate - 2)).toBeLessThan(3 * decision.difference!.standardError);
    expect(decision.difference!.standardError).toBeLessThan(1);
  });

  test("the dose to use is told from doses with the same supplement alone", () => {
    // 9 mL stood with coarse alone, which is worth 12 g
    const trays = book(4, 6, (place) => ({
      inoculumMillilitres: [3, 6, 9][place % 3]!,
      supplementGrade: place % 3 === 2 ? "coarse" : "fine",
      dryGrams: place % 3 === 2 ? 12 : 0,
    }));
    const found = bookDoseDecision(trialOfTrays(trays));
    if (found.kind !== "dose") throw new Error(`no dose: ${found.why}`);
    expect(found.decision.doses).toEqual([3, 6]);
    expect(found.tied).toEqual([9]);
    expect(found.excluded).toContainEqual({
      trays: trays.filter((tray) => tray.supplementGrade === "coarse").map(({ trayId }) => trayId),
      reason: "it stands where two things changed together",
    });
    const texts = [whichDoseEarnsMost, isTheNextStepWorthTrying].map((one) => {
      const outcome = one.run(trialOfTrays(trays));
      return [outcome.short!, ...outcome.caveats].map(renderedSentence).join(" ").replaceAll("\u00a0", " ");
    });
    expect(texts[0]).toContain("9 mL came with another change only");
    expect(texts.join()).not.toMatch(/6 mL is the highest dose you tried|9 mL, which you have not tried/);
  });

  test("a column of one's own that went with the dose in part: taken out, else said", () => {
    const lamp = (place: number) => (place < 6 ? place % 2 === 0 : place % 2 === 1);
    const partly = (place: number): Partial<Tray> => ({
      inoculumMillilitres: place % 2 === 0 ? 3 : 9,
      factors: { lamp: lamp(place) ? "red" : "blue" },
      dryGrams: lamp(place) ? 8 : 0,
    });
    const apart = decided(book(5, 8, partly), "inoculum_ml");
    expect(apart.beside.takenOut.map(({ factor }) => factor.key)).toEqual(["factor:lamp"]);
    expect(apart.decision.verdict).not.toBe("settled");
    const bags = (place: number): Partial<Tray> => ({
      inoculumMillilitres: place % 2 === 0 ? 3 : 9,
      factors: { bag: place === 1 || place === 2 ? "shared" : `bag of ${place % 2 === 0 ? "low" : "high"}` },
    });
    const tied = decided(
      book(5, 8, (place) => (place < 6 ? bags(place) : { ...bags(place), factors: { bag: "third" } })),
      "inoculum_ml",
    );
    expect([...tied.beside.takenOut, ...tied.beside.tied].map(({ factor }) => factor.key)).toEqual(["factor:bag"]);
  });

  test("a dose and a grade given to whole cooks: each without the other, or named as one", () => {
    const doses = [3, 9, 9, 3, 9, 3, 3, 9];
    const grades = [0, 1, 1, 0, 0, 0, 1, 1];
    const facts = (cook: number, tied: boolean) => ({
      inoculumMillilitres: doses[cook]!,
      supplementGrade: (tied ? doses[cook] === 9 : grades[cook] === 1) ? "fine" : "coarse",
    });
    const { decision, beside } = decided(
      book(8, 4, (_, cook) => facts(cook, false)),
      "supplement_grade",
    );
    expect(beside.takenOut[0]?.factor.key).toBe("inoculum_ml");
    // eight cooks less a mean, a grade and a dose
    expect(decision.difference!.degreesOfFreedom).toBe(5);
    const tied = whatChangedTheYield.run(trialOfTrays(book(8, 4, (_, cook) => facts(cook, true))));
    expect(tied.kind === "cannot-tell" && renderedSentence(tied.reason)).toContain(
      "inoculum changed together with supplement grade",
    );
  });
});

describe("what trays share", () => {
  test("shelves are compared as shelves, not taken for what their trays share", () => {
    const trays = book(5, 6, (place) => ({
      shelf: `S${place % 3}`,
      chamber: "A",
      dryGrams: place % 3 === 2 ? 9 : 0,
    }));
    const gathered = gatherTrays(trays, shelfFactor, on.response);
    expect(gathered.trays.every(({ units }) => units !== undefined && !("shelf" in units))).toBe(true);
    const { verdict, best } = decideUnordered(gathered.trays);
    expect(verdict).toBe("settled");
    expect(best![0]!.level).toBe("S2");
  });

  test("a chamber is compared with its shelves as parts of it", () => {
    const trays = book(5, 6, (place) => ({ chamber: `A${place % 2}`, shelf: `A${place % 2}, ${place % 3}` }));
    const [tray] = gatherTrays(trays, chamberFactor, on.response).trays;
    expect(tray!.units).toEqual({});
  });

  test("what trays share beside one thing is not taken for what they share beside another of the same book", () => {
    const trays = book(5, 6, (place) => ({ shelf: `S${place % 3}`, jar: `J${place % 2}`, inoculumMillilitres: place }));
    const memo = new Memo();
    const units = (factor: Factor) => gatherTrays(trays, factor, on.response, true, memo).trays[4]!.units;
    expect(units(doseFactor)).toEqual({ jar: "J0", shelf: "S1" });
    expect(units(shelfFactor)).toEqual({ jar: "J0" });
    expect(units(jarFactor)).toEqual({ shelf: "S1" });
    expect(units(doseFactor)).toEqual({ jar: "J0", shelf: "S1" });
  });

  test("one cook split over two temperatures: two runs, however many trays", () => {
    const trays = book(1, 20, (place) => ({
      fruitingCelsius: place % 2 === 0 ? 18 : 22,
      dryGrams: place % 2 === 0 ? 0 : 20,
    }));
    const { decision } = decided(trays, "fruiting_c");
    expect(decision.verdict).toBe("cannot-tell");
    expect(decision.caps.map(({ reason }) => reason)).toContain("one-unit-per-level");
    expect(decision.levels.map(({ mean }) => Math.round(mean!))).toHaveLength(2);
  });
});
