import { expect, test } from "vitest";
import { whatChangedTheYield } from "../../analyses/treatment/what-changed-the-yield.ts";
import { whatElseWasVaried } from "../../analyses/treatment/what-else-was-varied.ts";
import type { Tray } from "../../src/records/tray.ts";
import { seededRandom } from "../../src/statistics/random/seeded-random.ts";
import { trayRecord, trialOfTrays } from "./demo-records.ts";
import { renderedSentence } from "./rendered-sentence.ts";

// independent simulations, each with a truth of its own; what should be said is common practice, no source

/** Four cooks of three trays of 3 mL and three of 9 mL; a second flush gives a third of the first. */
function kept(gain: number, isKept: (dose: number, place: number) => boolean): Tray[] {
  const random = seededRandom(8);
  return ["A", "B", "C", "D"].flatMap((batch) => {
    const offset = 2 * random.normal();
    return [3, 9, 3, 9, 3, 9].map((dose, place) => {
      const first = 28 + offset + (dose === 9 ? gain : 0) + 2 * random.normal();
      const pickings = [first, ...(isKept(dose, place) ? [first / 3] : [])];
      return trayRecord({
        trayId: `${batch}${place}`,
        ...{ batch, inoculumMillilitres: dose, inoculatedOn: `2026-0${"ABCD".indexOf(batch) + 1}-05` },
        dryGrams: pickings.reduce((sum, grams) => sum + grams, 0),
        flushes: pickings.map((dryGrams, at) => ({ number: at + 1, dryGrams })),
      });
    });
  });
}

function said(trays: Tray[]) {
  const outcome = whatChangedTheYield.run(trialOfTrays(trays));
  if (outcome.kind !== "answer") throw new Error("no answer");
  const text = outcome.caveats.map(renderedSentence).join(" ").replaceAll("\u00a0", " ");
  return { certainty: outcome.certainty, text };
}

test("what a dose gave more by a second flush that the other was not kept for is not settled", () => {
  const { certainty, text } = said(kept(0, (dose) => dose === 9));
  expect(["open", "leaning"]).toContain(certainty);
  expect(text).toContain("A good tray of 9 mL was picked 2.0 times, one of 3 mL 1.0");
  expect(text).toContain("In the first flush alone 9 mL gave");
});

test("a gain of the first flush stays settled, and pickings that do not go with the dose are not spoken of", () => {
  expect(said(kept(12, (dose) => dose === 9))).toMatchObject({ certainty: "settled" });
  const { certainty, text } = said(kept(9, (_, place) => place < 2));
  expect(certainty).toBe("settled");
  expect(text).not.toContain("flush");
});

test("six things that do nothing seldom give a lead", () => {
  let leads = 0;
  for (let seed = 1; seed <= 30; seed++) {
    const random = seededRandom(seed);
    const trays = ["A", "B", "C", "D", "E"].flatMap((batch) => {
      const orders = [..."abcdef"].map((name) => [name, random.shuffle([0, 0, 0, 1, 1, 1])] as const);
      return [3, 3, 6, 6, 9, 9].map((dose, place) =>
        trayRecord({
          trayId: `${batch}${place}`,
          ...{ batch, inoculumMillilitres: dose, dryGrams: 30 + 4 * random.normal() },
          factors: Object.fromEntries(orders.map(([name, order]) => [name, order[place] === 0 ? "one" : "two"])),
        }),
      );
    });
    const outcome = whatElseWasVaried.run(trialOfTrays(trays));
    if (outcome.kind === "answer" && outcome.certainty === "leaning") leads++;
  }
  // one thing alone leads in a quarter of such books; six, each by itself, in four fifths
  expect(leads).toBeLessThanOrEqual(14);
  expect(leads).toBeGreaterThan(0);
});
