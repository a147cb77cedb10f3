import { expect, test } from "vitest";
import { doTrialsAgree } from "../../analyses/dose/do-trials-agree.ts";
import { trialsOfBook } from "../../analyses/dose/trials-of-book.ts";
import { springTrays, summerTrays } from "../../data-samples/demo-book.ts";
import { seededRandom } from "../../src/statistics/random/seeded-random.ts";
import { recordOfDemoTray, trayRecord, trialOfTrays } from "./demo-records.ts";
import { simulateBook } from "./simulated-book.ts";

const text = (parts: ReadonlyArray<unknown>): string => parts.filter((part) => typeof part === "string").join("");

/** Several trials of one dose effect whose true size is drawn again for each. */
function trialsWith(seed: number, count: number, spread: number, gain = 3) {
  const random = seededRandom(seed);
  return Array.from({ length: count }, (_, k) => {
    const own = gain + spread * random.normal();
    return simulateBook({
      seed: 1000 * seed + k,
      cooks: 3,
      traysPerDose: 4,
      doses: [5, 10],
      cookSd: 1.5,
      traySd: 2,
      mean: (dose) => 20 + (own * (dose - 5)) / 5,
      file: `harvests/trial-${k + 1}.csv`,
      prefix: `T${k + 1}C`,
    });
  }).flat();
}

test("the summary covers the true mean effect, and agreeing trials are seldom reported to disagree", () => {
  const books = 60;
  let [covered, disagree] = [0, 0];
  for (let seed = 1; seed <= books; seed++) {
    const outcome = doTrialsAgree.run(trialOfTrays(trialsWith(seed, 4, 0)));
    if (outcome.kind !== "answer") throw new Error(JSON.stringify(outcome));
    const [mean] = outcome.estimates;
    if (mean!.low! <= 3 && mean!.high! >= 3) covered++;
    if (text(outcome.sentence).includes("do not agree")) disagree++;
  }
  const allowance = 2 * Math.sqrt((0.05 * 0.95) / books);
  expect(covered / books).toBeGreaterThanOrEqual(0.95 - allowance);
  expect(disagree / books).toBeLessThanOrEqual(0.05 + allowance + 0.02);
});

test("trials that truly differ are reported so", () => {
  const outcome = doTrialsAgree.run(trialOfTrays(trialsWith(2, 6, 6)));
  expect(outcome.kind === "answer" && text(outcome.sentence)).toContain("do not agree");
});

test("the demo's two trials combine over the doses they share", () => {
  const outcome = doTrialsAgree.run(
    trialOfTrays([
      ...springTrays().map((tray) => ({
        ...recordOfDemoTray(tray),
        sources: [{ file: "harvests/spring.csv", row: 2 }],
      })),
      ...summerTrays().map((tray) => ({
        ...recordOfDemoTray(tray),
        sources: [{ file: "harvests/summer.csv", row: 2 }],
      })),
    ]),
  );
  if (outcome.kind !== "answer") throw new Error(JSON.stringify(outcome));
  expect(outcome.tables[0]!.rows.map(([name]) => name)).toEqual([
    "spring",
    "summer",
    "if the true effect is the same in all",
    "if it differs from trial to trial",
  ]);
  expect(outcome.sentence).toContainEqual({ value: 12, unit: "mL" });
});

test("trials without two doses in common are compared by their slopes; a trial that cannot be judged is named", () => {
  const first = simulateBook({
    seed: 1,
    cooks: 3,
    traysPerDose: 5,
    doses: [2, 4],
    cookSd: 1,
    traySd: 1,
    mean: (dose) => dose,
    file: "a.csv",
  });
  const second = simulateBook({
    seed: 2,
    cooks: 3,
    traysPerDose: 5,
    doses: [6, 9],
    cookSd: 1,
    traySd: 1,
    mean: (dose) => dose,
    file: "b.csv",
    prefix: "D",
  });
  const stuck = [5, 10].map((dose) =>
    Array.from({ length: 5 }, (_, k) =>
      trayRecord({
        trayId: `s${dose}-${k}`,
        batch: `S${dose}`,
        inoculumMillilitres: dose,
        dryGrams: dose + (k % 3),
        sources: [{ file: "c.csv", row: 2 }],
      }),
    ),
  );
  const outcome = doTrialsAgree.run(trialOfTrays([...first, ...second, ...stuck.flat()]));
  if (outcome.kind !== "answer") throw new Error(JSON.stringify(outcome));
  expect(outcome.estimates[0]!.unit).toBe("g/mL");
  expect(outcome.estimates[0]!.low).toBeLessThan(1);
  expect(outcome.estimates[0]!.high).toBeGreaterThan(1);
  expect(outcome.caveats.map((one) => text(one)).join(" ")).toContain(
    "Trial c takes no part: each dose had cooks of its own",
  );
});

test("sheets that speak of the same trays are one trial", () => {
  const tray = trayRecord({
    trayId: "1",
    sources: [
      { file: "harvests/flush 1.csv", row: 2 },
      { file: "harvests/flush 2.csv", row: 2 },
    ],
  });
  const other = trayRecord({ trayId: "2", sources: [{ file: "harvests/flush 2.csv", row: 3 }] });
  expect(trialsOfBook([tray, other]).map(({ name, trays }) => [name, trays.length])).toEqual([
    ["flush 1 + flush 2", 2],
  ]);
});

test("one sheet, and odd books: cannot tell", () => {
  const equal = trialsWith(1, 2, 0).map((tray) => ({ ...tray, dryGrams: 20 }));
  const lost = trialsWith(1, 2, 0).map(({ dryGrams: _, freshGrams: __, ...tray }) => ({
    ...tray,
    outcome: "failed" as const,
  }));
  for (const trays of [[], trialsWith(1, 1, 0), equal, lost]) {
    expect(doTrialsAgree.run(trialOfTrays(trays)).kind).toBe("cannot-tell");
  }
});
