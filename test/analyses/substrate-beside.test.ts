import { expect, test } from "vitest";
import { whichDoseEarnsMost } from "../../analyses/dose/which-dose-earns-most.ts";
import { whatChangedTheYield } from "../../analyses/treatment/what-changed-the-yield.ts";
import type { Tray } from "../../src/records/tray.ts";
import { seededRandom } from "../../src/statistics/random/seeded-random.ts";
import { trayRecord, trialOfTrays } from "./demo-records.ts";
import { renderedSentence } from "./rendered-sentence.ts";

// independent simulations, each with a truth of its own; what should be said is common practice, no source

/** Four cooks of three trays of 3 mL and three of 9 mL; each kilogram of substrate gives 35 g, and 9 mL so much more of it. */
function filled(gain: number, kilograms: (dose: number, scatter: number) => number, seed = 5): Tray[] {
  const random = seededRandom(seed);
  return ["A", "B", "C", "D"].flatMap((batch) => {
    const offset = 2 * random.normal();
    return [3, 9, 3, 9, 3, 9].map((dose, place) => {
      const held = kilograms(dose, random.normal());
      return trayRecord({
        trayId: `${batch}${place}`,
        ...{ batch, inoculumMillilitres: dose, inoculatedOn: `2026-0${"ABCD".indexOf(batch) + 1}-05` },
        substrateWetGrams: Math.round(1000 * held),
        dryGrams: held * (35 + (dose === 9 ? gain : 0)) + offset + 2 * random.normal(),
      });
    });
  });
}

function said(trays: Tray[]) {
  const outcome = whatChangedTheYield.run(trialOfTrays(trays));
  if (outcome.kind !== "answer") throw new Error("no answer");
  const text = [outcome.sentence, ...outcome.caveats].map(renderedSentence).join(" ").replaceAll("\u00a0", " ");
  return { certainty: outcome.certainty, text };
}

const bigger = (dose: number, scatter: number): number => (dose === 9 ? 1.4 : 1) * (1 + 0.03 * scatter);

test("what a dose gave more in trays that held more substrate is not settled, and rules no dose out", () => {
  let settled = 0;
  for (let seed = 1; seed <= 20; seed++) if (said(filled(0, bigger, seed)).certainty === "settled") settled++;
  // nominal 5 %: one book of 20, and one more by chance; taken as they stand all 20 are settled
  expect(settled).toBeLessThanOrEqual(2);
  const { certainty, text } = said(filled(0, bigger));
  expect(["open", "leaning"]).toContain(certainty);
  expect(text).toMatch(/but its trays held 3\d% more wet substrate: for as much of it .* Give every tray as much\./);
  expect(text).not.toContain("changed together");
  const dose = whichDoseEarnsMost.run(trialOfTrays(filled(-1, bigger)));
  expect(dose).toMatchObject({ kind: "answer", certainty: "open", strip: { from: 3, to: 9 } });
});

test("a gain for as much substrate stays settled; trays filled alike are not spoken of", () => {
  const gained = said(filled(14, bigger));
  expect(gained.certainty).toBe("settled");
  expect(gained.text).toMatch(/Trays of 9 mL held 3\d% more wet substrate: for as much of it \+1\d/);
  expect(said(filled(10, (_, scatter) => 1 + 0.005 * scatter)).text).not.toContain("substrate");
  // where the substrate itself is what varied, there is nothing beside it
  const same = filled(0, bigger).map((tray) => ({ ...tray, inoculumMillilitres: 5 }));
  expect(said(same).text).not.toContain("for as much of it");
});
