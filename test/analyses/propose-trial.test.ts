import { expect, test } from "vitest";
import { observe, yieldPerGoodTray } from "../../analyses/comparison/tray-response.ts";
import { bookSpread } from "../../analyses/planning/book-spread.ts";
import { howManyMoreTrays } from "../../analyses/planning/how-many-more-trays.ts";
import { proposeDoses } from "../../analyses/planning/propose-doses.ts";
import { proposeTrial } from "../../analyses/planning/propose-trial.ts";
import { sizesWithin } from "../../analyses/planning/trial-sizes.ts";
import { startsPerYear, traysPerLoadOf } from "../../analyses/treatment/year-of-trays.ts";
import type { Answer } from "../../src/analysis.ts";
import { doseFactor } from "../../src/design/factor.ts";
import { counted } from "../../src/records/counted.ts";
import { trayRecord, trialOfTrays } from "./demo-records.ts";
import { simulateBook } from "./simulated-book.ts";

const text = (says: ReadonlyArray<ReadonlyArray<unknown>>): string =>
  says.map((one) => one.filter((part) => typeof part === "string").join("")).join("\n");
const saysOf = (found: ReturnType<typeof proposeTrial>) => (found.kind === "proposal" ? found.says : []);
const wishes = { layout: "blocks" as const, chambers: 0 };
const book = { cooks: 4, traysPerDose: 4, doses: [3, 6, 9], cookSd: 2, traySd: 2 } as const;

test("doses: the one to use, what is worth trying, its neighbours that may still be best, and a third as control", () => {
  const known = (use: number, low: number, high: number, worthTrying: number[] = []) => ({
    use,
    low,
    high,
    worthTrying,
  });
  expect(proposeDoses([3, 6, 9], known(9, 6, 9, [12]))!.levels).toEqual([6, 9, 12]);
  expect(proposeDoses([3, 6, 9], known(3, 3, 6, [1.5]))!.levels).toEqual([1.5, 3, 6]);
  expect(proposeDoses([3, 6, 9, 12], known(9, 3, 12))!.levels).toEqual([6, 9, 12]);
  expect(proposeDoses([3, 6, 9, 12], known(9, 9, 9))!.levels).toEqual([3, 9]);
  // each dose is given its own reason, and no reason is given that no dose has
  expect(proposeDoses([3, 6, 9], known(9, 6, 9, [12]))!.why).toBe(
    "the dose to use, what is worth trying beside it and what may still be best",
  );
  expect(proposeDoses([3, 6, 9], known(3, 3, 3, [1.5]))!.why).toBe(
    "the dose to use, what is worth trying beside it and an end of what was tried",
  );
  expect(proposeDoses([3, 6, 9, 12], known(9, 3, 12))!.why).toBe("the dose to use and what may still be best");
  expect(proposeDoses([10], undefined)!.levels).toEqual([5, 10, 20]);
  expect(proposeDoses([3, 6, 9], undefined)!.levels).toEqual([3, 6, 9]);
  expect(proposeDoses([], undefined)).toBeUndefined();
  // two trays of each in a cook of six, and in one of four
  expect(proposeDoses([3, 9], known(8, 5, 9, [15, 7]), 6)!.levels).toEqual([7, 8, 15]);
  expect(proposeDoses([3, 9], known(8, 5, 9, [15, 7]), 4)!.levels).toEqual([8, 15]);
  expect(proposeDoses([3, 9], undefined, 4)!.levels).toEqual([3, 9]);
});

test("whole loads: 6 trays a load make cooks of 6 or 12, never 8; the book's own loads come before the setting", () => {
  expect(sizesWithin(wishes, 4, 40, 6).map(({ traysPerDose }) => 4 * traysPerDose)).not.toContain(8);
  for (const doses of [2, 3, 4]) {
    for (const { traysPerDose } of sizesWithin(wishes, doses, 40, 6)) expect((traysPerDose * doses) % 6).toBe(0);
  }
  // where no full load fits the shelves there is a trial all the same
  expect(sizesWithin(wishes, 5, 20, 6).length).toBeGreaterThan(0);
  const loads = [1, 2, 3].flatMap((load) =>
    Array.from({ length: 8 }, (_, k) => trayRecord({ trayId: `${load}-${k}`, batch: "A", load: String(load) })),
  );
  expect(traysPerLoadOf(trialOfTrays(loads))).toBe(8);
  expect(traysPerLoadOf(trialOfTrays([], { traysPerLoad: 5 }))).toBe(5);
});

test("a budget in trays is kept to, and one that buys no trial is reported", () => {
  const trial = trialOfTrays(simulateBook({ ...book, seed: 1, mean: (dose) => 20 + dose }));
  const within = proposeTrial(trial, { ...wishes, mostTrays: 40 });
  if (within.kind === "cannot-tell") throw new Error(within.reason);
  expect(within.arms.length * within.traysPerArm * within.cooks).toBeLessThanOrEqual(40);
  const short = proposeTrial(trial, { ...wishes, mostTrays: 3 });
  if (short.kind !== "cannot-tell") throw new Error("proposed beyond the budget");
  const least = Number(/takes (\d+) trays/.exec(short.reason)?.[1]);
  expect(short.remedy).toContain(`--budget "${least} trays"`);
  expect(proposeTrial(trial, { ...wishes, mostTrays: least - 1 })).toMatchObject({ kind: "cannot-tell" });
  expect(proposeTrial(trial, { ...wishes, mostTrays: least })).toMatchObject({ kind: "proposal" });
  // a book without costs does not know what its trays cost
  expect(proposeTrial(trial, { ...wishes, mostMoney: 1e6 })).toMatchObject({
    remedy: expect.stringContaining("trays"),
  });
});

test("a plan is advised against just where what it brings in a year is less than what it takes", () => {
  const flat = proposeTrial(
    trialOfTrays(
      simulateBook({ ...book, seed: 2, cooks: 8, traysPerDose: 6, traySd: 0.5, mean: (dose) => 30 - (dose - 6) ** 2 }),
    ),
    wishes,
  );
  expect(flat.kind === "proposal" && flat.against).toBeTruthy();
  const climbing = proposeTrial(
    trialOfTrays(simulateBook({ ...book, seed: 2, mean: (dose) => 10 + 1.5 * dose })),
    wishes,
  );
  expect(climbing.kind === "proposal" && climbing.against).toBeUndefined();
  expect(climbing.kind === "proposal" && climbing.levels).toContain(12);
});

test("more spread never asks for fewer trays, and the shelves are a limit", () => {
  const sizeOf = (traySd: number, shelfPlaces = 40) => {
    const proposal = proposeTrial(
      trialOfTrays(simulateBook({ ...book, seed: 1, traySd, mean: () => 20 }), { shelfPlaces }),
      { ...wishes, doses: [3, 9] },
    );
    if (proposal.kind === "cannot-tell") throw new Error(proposal.reason);
    expect(proposal.traysPerArm * 2).toBeLessThanOrEqual(shelfPlaces);
    return proposal.traysPerArm * proposal.cooks;
  };
  expect(sizeOf(1)).toBeLessThanOrEqual(sizeOf(4));
  expect(sizeOf(6, 8)).toBeLessThanOrEqual(4 * 8);
});

test("what the grower asks for is kept; what cannot be laid out is reported", () => {
  const trial = trialOfTrays(simulateBook({ ...book, seed: 1, mean: (dose) => 20 + dose }));
  const asked = proposeTrial(trial, { ...wishes, doses: [12, 6], traysPerDose: 5, cooks: 2 });
  expect(asked).toMatchObject({ kind: "proposal", levels: [6, 12], traysPerArm: 5, cooks: 2 });
  expect(proposeTrial(trial, { ...wishes, doses: [6] })).toMatchObject({ kind: "cannot-tell" });
  const many = Array.from({ length: 60 }, (_, k) => k + 1);
  expect(proposeTrial(trial, { ...wishes, doses: many })).toMatchObject({ kind: "cannot-tell" });
  expect(proposeTrial(trialOfTrays([]), wishes)).toMatchObject({ kind: "cannot-tell" });
});

test("a book of one dose, or of growing trays only, still gets a trial", () => {
  const growing = Array.from({ length: 3 }, (_, k) =>
    trayRecord({ trayId: String(k), inoculumMillilitres: 10, outcome: "growing" }),
  );
  const proposal = proposeTrial(trialOfTrays(growing), wishes);
  if (proposal.kind === "cannot-tell") throw new Error(proposal.reason);
  expect(proposal.levels).toEqual([5, 10, 20]);
  expect(text(proposal.says)).toContain(" of their mean is supposed");
});

test("unasked, a cook of the trial is no larger than the book's cooks and loads were", () => {
  const six = Array.from({ length: 6 }, (_, k) =>
    trayRecord({ trayId: `T${k}`, batch: "A", inoculumMillilitres: k < 3 ? 3 : 9, outcome: "growing" }),
  );
  const proposal = proposeTrial(trialOfTrays(six, { traysPerLoad: 6, shelfPlaces: 40 }), wishes);
  if (proposal.kind === "cannot-tell") throw new Error(proposal.reason);
  expect(proposal.arms.length * proposal.traysPerArm).toBeLessThanOrEqual(6);
  expect(proposal.against).toBeUndefined();
});

test("one cook is not taken to show how cooks differ: what six trays promise of a trial is no more than is supposed of any", () => {
  const trays = simulateBook({
    ...book,
    cooks: 1,
    traysPerDose: 3,
    doses: [3, 9],
    traySd: 0.5,
    seed: 3,
    mean: () => 30,
  });
  const spread = bookSpread(observe(trays, doseFactor, yieldPerGoodTray("dry")))!;
  // variance with a prior: 4 degrees of freedom at a coefficient of variation of 18 % (the verdict rules, one cook)
  const own = spread.degreesOfFreedom;
  expect(spread.traySd ** 2).toBeGreaterThan((4 * (0.18 * spread.mean) ** 2) / (4 + own));
  expect(spread.cookDoseSd / spread.traySd).toBeCloseTo(Math.sqrt(0.28), 10);
});

const graded = simulateBook({ ...book, seed: 4, doses: [1, 2], mean: (grade) => 30 + grade }).map((tray) => ({
  ...tray,
  supplement: tray.inoculumMillilitres === 1 ? "none" : "hulls",
  supplementGrade: tray.inoculumMillilitres === 1 ? undefined : "rich",
  inoculumMillilitres: 6,
}));

test("a book that compares something else is proposed its levels, each with what stood beside it; doses where asked for", () => {
  const proposal = proposeTrial(trialOfTrays(graded), wishes);
  if (proposal.kind === "cannot-tell") throw new Error(proposal.reason);
  expect(proposal).toMatchObject({ column: "supplement", levels: ["hulls", "none"] });
  expect(proposal.arms).toEqual([
    { supplement: "hulls", supplement_grade: "rich", supplement_g: "" },
    { supplement: "none", supplement_grade: "none", supplement_g: "" },
  ]);
  expect(text(proposal.says)).toContain("of each supplement in one cook");
  expect(proposeTrial(trialOfTrays(graded), { ...wishes, doses: [3, 9] })).toMatchObject({ column: "inoculum_ml" });
});

test("amounts of a column of one's own are typed as the book has them, untried ones too", () => {
  const trays = simulateBook({ ...book, seed: 4, doses: [5, 10, 20], mean: (share) => 30 + share / 2 }).map((tray) => ({
    ...tray,
    factors: { Bran: `${tray.inoculumMillilitres} %` },
    inoculumMillilitres: undefined,
  }));
  const proposal = proposeTrial(trialOfTrays(trays), wishes);
  if (proposal.kind === "cannot-tell") throw new Error(proposal.reason);
  expect(proposal.column).toBe("Bran");
  for (const [at, { Bran }] of proposal.arms.entries()) expect(Bran).toBe(`${proposal.levels[at]} %`);
});

test("of many strains those that may still be the best are grown again", () => {
  const strains = ["Amber", "Birch", "Cedar", "Dune", "Elm", "Fir"];
  const trays = simulateBook({
    ...book,
    ...{ seed: 5, cooks: 5, traysPerDose: 2, doses: [1, 2, 3, 4, 5, 6], traySd: 1 },
    mean: (strain) => (strain <= 2 ? 34 : 24),
  }).map((tray) => ({ ...tray, strain: strains[tray.inoculumMillilitres! - 1]!, inoculumMillilitres: 6 }));
  const proposal = proposeTrial(trialOfTrays(trays), wishes);
  expect(proposal).toMatchObject({ column: "strain", levels: ["Amber", "Birch"] });
});

test("a trial of the same names takes as many cooks as the answer says would show it; one that is settled takes none", () => {
  const of = (gain: number, cooks: number) =>
    trialOfTrays(
      simulateBook({
        ...book,
        seed: 8,
        cooks,
        traysPerDose: 3,
        doses: [1, 2],
        traySd: 3,
        mean: (k) => 34 + gain * k,
      }).map((tray) => ({
        ...tray,
        strain: tray.inoculumMillilitres === 1 ? "Amber" : "Birch",
        inoculumMillilitres: 6,
      })),
    );
  const open = of(1, 7);
  const { short } = howManyMoreTrays.run(open) as Answer;
  const proposal = proposeTrial(open, wishes);
  if (proposal.kind === "cannot-tell") throw new Error(proposal.reason);
  expect(short![0]).toBe(`${counted(proposal.cooks, "more cook")} would show a gain of `);
  expect(proposal.against).toBeUndefined();
  expect(proposeTrial(of(14, 5), wishes)).toMatchObject({
    against: [
      "It would show nothing new: that strain changes the yield is settled. Try another strain beside the best.",
    ],
  });
});

test("names that had whole cooks each are laid out side by side anew", () => {
  const trays = simulateBook({ ...book, seed: 9, cooks: 8, doses: [1], mean: () => 30 }).map((tray) => ({
    ...tray,
    strain: Number(tray.batch!.replace(/\D/g, "")) % 2 === 0 ? "Amber" : "Birch",
  }));
  const said = text(saysOf(proposeTrial(trialOfTrays(trays), wishes)));
  expect(said).toContain("of each strain");
  expect(said).not.toContain("with the trays so far");
});

test("a dose that went with a supplement is grown with every supplement", () => {
  const trays = simulateBook({ ...book, seed: 6, doses: [3, 9], mean: (dose) => 25 + dose }).map((tray) => ({
    ...tray,
    supplementGrade: tray.inoculumMillilitres === 3 ? "plain" : "rich",
  }));
  const proposal = proposeTrial(trialOfTrays(trays), wishes);
  if (proposal.kind === "cannot-tell") throw new Error(proposal.reason);
  expect(proposal.arms.map(({ inoculum_ml, supplement_grade }) => `${inoculum_ml} ${supplement_grade}`)).toEqual([
    "3 plain",
    "3 rich",
    "9 plain",
    "9 rich",
  ]);
  expect(text(proposal.says)).toContain("the two changed together so far");
  // the same trays, all of one grade
  const alike = trays.map((tray) => ({ ...tray, supplementGrade: "rich" }));
  expect(text(saysOf(proposeTrial(trialOfTrays(alike), wishes)))).not.toContain("together");
});

test("what is set for a whole room, and a book of lost trays, are proposed nothing unasked", () => {
  const warm = simulateBook({ ...book, seed: 4, doses: [16, 20], mean: () => 30 }).map((tray) => ({
    ...tray,
    fruitingCelsius: tray.inoculumMillilitres!,
    inoculumMillilitres: 6,
  }));
  expect(proposeTrial(trialOfTrays(warm), wishes)).toMatchObject({
    kind: "cannot-tell",
    reason: expect.stringContaining("set for a whole chamber"),
  });
  const split = proposeTrial(trialOfTrays(warm), { layout: "split", chambers: 2, celsius: [16, 20] });
  expect(split).toMatchObject({ kind: "proposal", column: "fruiting_c", levels: [16, 20], arms: [{}] });
  const lost = [3, 9].map((dose) =>
    trayRecord({ trayId: `L${dose}`, batch: "A", inoculumMillilitres: dose, outcome: "contaminated" }),
  );
  expect(proposeTrial(trialOfTrays(lost), wishes)).toMatchObject({ reason: "every finished tray was lost" });
});

test("trays a year follow the dates, or the shelves without them", () => {
  const trays = simulateBook({ ...book, seed: 1, cooks: 26, doses: [5], traysPerDose: 10, mean: () => 20 });
  // a cook of ten trays every fortnight
  expect(startsPerYear(trialOfTrays(trays))).toBeCloseTo((10 * 365.25) / 14, 6);
  expect(startsPerYear(trialOfTrays([], { shelfPlaces: 30 }))).toBe(180);
});
