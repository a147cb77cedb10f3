import { expect, test } from "vitest";
import { doesDoseChangeDaysToColonise } from "../../analyses/dose/does-dose-change-days-to-colonise.ts";
import { doesDoseChangeYield } from "../../analyses/dose/does-dose-change-yield.ts";
import { springTrays, summerTrays } from "../../data-samples/demo-book.ts";
import { trueYieldGrams, truth } from "../../data-samples/demo-trial.ts";
import { recordOfDemoTray, trayRecord, trialOfTrays } from "./demo-records.ts";

const demoTrial = trialOfTrays([...springTrays(), ...summerTrays()].map(recordOfDemoTray));

test("the demo book's true gain in yield lies within the interval, and is told as settled", () => {
  const outcome = doesDoseChangeYield.run(demoTrial);
  if (outcome.kind !== "answer") throw new Error(JSON.stringify(outcome));
  expect(outcome.certainty).toBe("settled");
  const [good] = outcome.estimates;
  const [low, high] = [Math.min(...truth.dosesMillilitres), Math.max(...truth.dosesMillilitres)];
  const trueGain = trueYieldGrams(high) - trueYieldGrams(low);
  expect(good!.low).toBeLessThan(trueGain);
  expect(good!.high).toBeGreaterThan(trueGain);
});

test("the demo book's true effect on days to colonise lies within the interval", () => {
  const outcome = doesDoseChangeDaysToColonise.run(demoTrial);
  if (outcome.kind !== "answer") throw new Error(JSON.stringify(outcome));
  expect(outcome.certainty).toBe("settled");
  const [estimate] = outcome.estimates;
  const { dosesMillilitres, colonisation } = truth;
  const trueChange = colonisation.daysPerMillilitre * (Math.max(...dosesMillilitres) - Math.min(...dosesMillilitres));
  expect(estimate!.low).toBeLessThan(trueChange);
  expect(estimate!.high).toBeGreaterThan(trueChange);
});

const tray = (id: string, inoculumMillilitres: number, dryGrams: number, given = {}) =>
  trayRecord({ trayId: id, inoculumMillilitres, dryGrams, ...given });

test("one cook per dose: cannot tell, and says what would settle it", () => {
  const trays = [5, 10, 15].flatMap((dose, cook) =>
    Array.from({ length: 8 }, (_, index) =>
      tray(`${cook}-${index}`, dose, 10 + dose + (index % 4), { batch: `C${cook}` }),
    ),
  );
  const outcome = doesDoseChangeYield.run(trialOfTrays(trays));
  expect(outcome.kind).toBe("cannot-tell");
  if (outcome.kind !== "cannot-tell") return;
  expect(outcome.reason.join("")).toContain("came from one cook alone");
  expect(outcome.wouldSettle.length).toBeGreaterThan(0);
});

test("one jar per dose inside one cook: cannot tell", () => {
  const trays = [5, 10].flatMap((dose, jar) =>
    Array.from({ length: 10 }, (_, index) =>
      tray(`${jar}-${index}`, dose, 10 + (index % 5), { batch: "C1", jar: `J${jar}` }),
    ),
  );
  const outcome = doesDoseChangeYield.run(trialOfTrays(trays));
  expect(outcome.kind === "cannot-tell" && outcome.reason.join("")).toContain("came from one culture jar alone");
});

test("two trays per dose: cannot tell, not no effect", () => {
  const trays = [5, 10].flatMap((dose) => [tray(`${dose}a`, dose, 10), tray(`${dose}b`, dose, 12)]);
  expect(doesDoseChangeYield.run(trialOfTrays(trays)).kind).toBe("cannot-tell");
});

test("lost trays count as nothing per started tray and are named as left out per good tray", () => {
  const trays = [5, 10].flatMap((dose) =>
    Array.from({ length: 12 }, (_, index) =>
      dose === 10 && index < 6
        ? trayRecord({ trayId: `${dose}-${index}`, inoculumMillilitres: dose, outcome: "contaminated" })
        : tray(`${dose}-${index}`, dose, 20 + (index % 3) + dose / 5),
    ),
  );
  const outcome = doesDoseChangeYield.run(trialOfTrays(trays));
  if (outcome.kind !== "answer") throw new Error("expected an answer");
  expect(outcome.estimates[0]!.value).toBeCloseTo(1, 10);
  expect(outcome.estimates[1]!.value).toBeLessThan(0);
  expect(outcome.excluded.flatMap(({ trays: names }) => names)).toHaveLength(6);
});
