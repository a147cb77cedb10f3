import { expect, test } from "vitest";
import { cameTogether } from "../../analyses/treatment/came-together.ts";
import { thingsOf } from "../../analyses/treatment/treatment-decision.ts";
import { trayRecord, trialOfTrays } from "./demo-records.ts";

/** Six trays in each of four cooks, the dose of a tray and its supplement by cook and place. */
const book = (inoculum: (cook: number, k: number) => number, bran: (cook: number, k: number) => number | undefined) =>
  trialOfTrays(
    [0, 1, 2, 3].flatMap((cook) =>
      [0, 1, 2, 3, 4, 5].map((k) =>
        trayRecord({
          trayId: `${cook}${k}`,
          batch: `C${cook}`,
          inoculumMillilitres: inoculum(cook, k),
          supplementGrams: bran(cook, k),
          dryGrams: 20 + k,
          outcome: "good",
        }),
      ),
    ),
  );

test.each([
  [
    "one with the other in every tray",
    book(
      (_, k) => 4 + 4 * (k % 2),
      (_, k) => 20 + 40 * (k % 2),
    ),
    ["inoculum"],
  ],
  [
    "every level of one with every level of the other",
    book(
      (_, k) => 4 + 4 * (k % 2),
      (_, k) => 20 * (k % 3),
    ),
    [],
  ],
  [
    "each varied in cooks of its own, the other the same or not written",
    book(
      (cook, k) => (cook < 2 ? 4 + 4 * (k % 2) : 6),
      (cook, k) => (cook < 2 ? undefined : 20 * (k % 3)),
    ),
    [],
  ],
])("%s: what cannot be told from the supplement amount", (_, trial, together) => {
  const things = thingsOf(trial);
  const supplement = things.find(({ factor }) => factor.key === "supplement_g")!;
  expect(cameTogether(supplement, things, trial)).toEqual(together);
});
