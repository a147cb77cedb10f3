import { expect, test } from "vitest";
import { doDoseAndSupplementInteract } from "../../analyses/supplement/do-dose-and-supplement-interact.ts";
import { springTrays, summerTrays } from "../../data-samples/demo-book.ts";
import { recordOfDemoTray, trayRecord, trialOfTrays } from "./demo-records.ts";
import { type SimulatedBook, simulateBook } from "./simulated-book.ts";

const text = (parts: ReadonlyArray<unknown>): string => parts.filter((part) => typeof part === "string").join("");
const grades = ["coarse", "fine"] as const;

/** Two grades crossed with the doses; the fine one adds `gain` for every mL above the lowest dose. */
const graded = (seed: number, gain: number, given: Partial<SimulatedBook> = {}) =>
  simulateBook({
    seed,
    cooks: 4,
    traysPerDose: 4,
    doses: [4, 8, 12],
    cookSd: 2,
    traySd: 2,
    mean: (dose) => 15 + dose / 2,
    extra: ({ copy }) => ({ supplementGrade: grades[copy % 2]! }),
    ...given,
  }).map((tray) =>
    tray.supplementGrade === "fine" && tray.dryGrams !== undefined
      ? { ...tray, dryGrams: tray.dryGrams + 1 + gain * (tray.inoculumMillilitres! - 4) }
      : tray,
  );

test("without an interplay few books show one, and the interval of the change covers 0", () => {
  const books = 60;
  let [alarms, covered] = [0, 0];
  for (let seed = 1; seed <= books; seed++) {
    const outcome = doDoseAndSupplementInteract.run(trialOfTrays(graded(seed, 0)));
    if (outcome.kind !== "answer") throw new Error(JSON.stringify(outcome));
    if (text(outcome.sentence).includes("judged together")) alarms++;
    if (outcome.estimates[0]!.low! <= 0 && outcome.estimates[0]!.high! >= 0) covered++;
  }
  const allowance = 2 * Math.sqrt((0.05 * 0.95) / books);
  expect(alarms / books).toBeLessThanOrEqual(0.05 + allowance);
  expect(covered / books).toBeGreaterThanOrEqual(0.95 - allowance);
});

test("a strong interplay is shown, its size is within the interval, and every grade has a verdict of its own", () => {
  const outcome = doDoseAndSupplementInteract.run(trialOfTrays(graded(5, 1, { cooks: 6 })));
  if (outcome.kind !== "answer") throw new Error(JSON.stringify(outcome));
  expect(text(outcome.sentence)).toContain("judged together");
  expect(outcome.certainty).toBe("settled");
  // 1 g a mL over 8 mL
  expect(outcome.estimates[0]!.low).toBeLessThan(8);
  expect(outcome.estimates[0]!.high).toBeGreaterThan(8);
  const apart = outcome.tables.find(({ caption }) => caption === "12 mL less 4 mL, by supplement grade")!;
  expect(apart.rows.map(([grade, , , , word]) => [grade, word])).toContainEqual(["fine", "settled"]);
  expect(outcome.lowered?.sentence.join("")).toContain("seem to depend on one another");
});

test("many trays without an interplay are to be judged apart; few report what is not ruled out", () => {
  const many = doDoseAndSupplementInteract.run(trialOfTrays(graded(4, 0, { cooks: 20, traysPerDose: 8, traySd: 1 })));
  expect(many.kind === "answer" && many.certainty).toBe("settled");
  expect(many.kind === "answer" && text(many.sentence)).toContain("can be judged apart");
  // no test of the report speaks against it, so none can lower it
  expect(many.kind === "answer" && many.test).toBeFalsy();
  const few = doDoseAndSupplementInteract.run(trialOfTrays(graded(3, 0, { cooks: 3 })));
  expect(few.kind === "answer" && text(few.sentence)).toContain("is not ruled out");
});

test("two cooks are too few to judge, but every combination has its mean", () => {
  const outcome = doDoseAndSupplementInteract.run(trialOfTrays(graded(3, 0, { cooks: 2 })));
  expect(outcome.kind).toBe("cannot-tell");
  expect(outcome.tables[0]!.rows).toHaveLength(6);
  expect(outcome.tables[0]!.rows.every(([, , , , mean]) => typeof mean === "number")).toBe(true);
});

test("a fruiting temperature beside the dose is looked at in the same way", () => {
  const trays = graded(9, 0, { cooks: 6 }).map(({ supplementGrade, ...tray }) => ({
    ...tray,
    fruitingCelsius: supplementGrade === "fine" ? 22 : 18,
  }));
  const outcome = doDoseAndSupplementInteract.run(trialOfTrays(trays));
  expect(outcome.kind).toBe("answer");
  expect(outcome.asked?.question).toBe("Do dose and fruiting temperature interact, or can they be judged apart?");
});

test("two amounts with a top inside: the surface says maximum and where", () => {
  const amounts = [20, 40, 60];
  const trays = simulateBook({
    seed: 7,
    cooks: 4,
    traysPerDose: 6,
    doses: [4, 8, 12],
    cookSd: 1,
    traySd: 0.5,
    mean: () => 0,
    extra: ({ copy }) => ({ supplementGrams: amounts[copy % 3]! }),
  }).map((tray) => {
    const [u, v] = [(tray.inoculumMillilitres! - 8) / 4, (tray.supplementGrams! - 40) / 20];
    return { ...tray, dryGrams: tray.dryGrams! + 30 + u + v - 4 * u * u - 3 * v * v + 2 * u * v };
  });
  const outcome = doDoseAndSupplementInteract.run(trialOfTrays(trays));
  if (outcome.kind !== "answer") throw new Error(JSON.stringify(outcome));
  expect(text(outcome.sentence)).toContain("judged together");
  // from end to end of both, 2uv changes by 8; from the least amount to the middle one by 4
  const change = outcome.estimates.find(({ label }) => label.includes("60 g against 20 g"))!;
  expect(change.low).toBeLessThan(8);
  expect(change.high).toBeGreaterThan(8);
  // gradient of the stated surface (1 - 8u + 2v, 1 - 6v + 2u) is 0 at u = 4/22, v = 5/22
  const chart = outcome.charts.find(({ kind }) => kind === "surface");
  if (chart?.kind !== "surface") throw new Error("no chart of the surface");
  expect(chart.description).toContain("a single top");
  expect(chart.marks![0]!.label).toBe("highest point");
  expect(chart.marks![0]!.x).toBeCloseTo(8 + 4 * (4 / 22), 0);
  expect(Math.abs(chart.marks![0]!.y - (40 + 20 * (5 / 22)))).toBeLessThan(1.5);
  expect(chart.tried).toHaveLength(9);
  expect(chart.values.flat().every((value) => value < chart.values[10]![10]! + 1)).toBe(true);
});

test("the demo book has no interplay and none is reported", () => {
  const outcome = doDoseAndSupplementInteract.run(
    trialOfTrays([...springTrays(), ...summerTrays()].map(recordOfDemoTray)),
  );
  expect(outcome.kind === "answer" && text(outcome.sentence)).not.toContain("judged together");
});

test("a grade tied to the dose, one grade alone, and odd books: cannot tell", () => {
  const tied = graded(1, 0).map((tray) => ({
    ...tray,
    supplementGrade: tray.inoculumMillilitres === 4 ? "coarse" : "fine",
  }));
  const single = graded(1, 0).map((tray) => ({ ...tray, supplementGrade: "fine" }));
  const one = trayRecord({ trayId: "1", inoculumMillilitres: 5, dryGrams: 20, supplementGrade: "fine" });
  const equal = graded(1, 0).map((tray) => ({ ...tray, dryGrams: 20 }));
  const lost = graded(1, 0).map(({ dryGrams: _, ...tray }) => ({ ...tray, outcome: "contaminated" as const }));
  const alike = doDoseAndSupplementInteract.run(trialOfTrays(equal));
  expect(alike.kind === "answer" && text(alike.sentence)).toContain("can be judged apart");
  for (const trays of [tied, single, [one], [], lost]) {
    expect(doDoseAndSupplementInteract.run(trialOfTrays(trays)).kind).toBe("cannot-tell");
  }
});
