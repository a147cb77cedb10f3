import { expect, test } from "vitest";
import { perTrayShelfDayOrHour } from "../../analyses/dose/per-tray-shelf-day-or-hour.ts";
import { whichDoseEarnsMost } from "../../analyses/dose/which-dose-earns-most.ts";
import { howManyMoreTrays } from "../../analyses/planning/how-many-more-trays.ts";
import { isTheNextStepWorthTrying } from "../../analyses/planning/is-the-next-step-worth-trying.ts";
import { proposeTrial } from "../../analyses/planning/propose-trial.ts";
import { bookDoseDecision } from "../../analyses/treatment/book-dose-decision.ts";
import { whatChangedTheYield } from "../../analyses/treatment/what-changed-the-yield.ts";
import type { Outcome, Sentence, Trial } from "../../src/analysis.ts";
import { seededRandom } from "../../src/statistics/random/seeded-random.ts";
import { line, product } from "../costing/sample-records.ts";
import { trialOfTrays } from "./demo-records.ts";
import { renderedSentence } from "./rendered-sentence.ts";
import { simulateBook } from "./simulated-book.ts";

const plain = (sentence: Sentence): string => renderedSentence(sentence).replaceAll("\u00a0", " ");

/** A book whose doses, size, losses, gaps and prices the seed decides; a third of them without money. */
function randomDoseBook(seed: number): Trial {
  const random = seededRandom(seed);
  const pick = <T>(values: ReadonlyArray<T>): T => values[random.integer(values.length)]!;
  const doses = pick([
    [3, 9],
    [3, 6, 9],
    [3, 6, 9, 12],
    [2.5, 5, 10],
    [5, 5.5, 6],
    [4, 8, 12, 16, 20],
  ]);
  const [top, bend, risk] = [pick([0, 0.4, 1.5]), pick([0, 0.15]), pick([0, 0.02, 0.04])];
  const isDated = random.uniform() < 0.8;
  const trays = simulateBook({
    seed,
    doses,
    cooks: 1 + random.integer(6),
    traysPerDose: 1 + random.integer(5),
    cookSd: 3 * random.uniform(),
    traySd: 1 + 5 * random.uniform(),
    mean: (dose) => 25 + top * dose - bend * (dose - doses[0]!) ** 2,
    loss: (dose) => risk * dose,
  }).map((tray) => {
    if (isDated) return tray;
    const { inoculatedOn: _, harvestedOn: __, ...rest } = tray;
    return rest;
  });
  const trial = trialOfTrays(trays, { seed, ownerLabourRate: pick([0, 12]) });
  if (random.uniform() < 1 / 3) return trial;
  return {
    ...trial,
    costLines: [
      line({ item: "culture", kind: "culture", per: "inoculum mL", packUnit: "mL", packPrice: pick([0.02, 0.1, 0.6]) }),
      line({ item: "grain", packPrice: pick([1, 3, 12]) }),
      line({ item: "shelf", kind: "overhead", per: "shelf day", packPrice: 0.02 }),
    ],
    products: [product({ grams: 50, currentPrice: pick([5, 15, 30]) })],
  };
}

const estimate = ({ estimates }: Outcome, label: string): number | undefined =>
  estimates.find((one) => one.label.endsWith(label))?.value;
const sentencesOf = (outcome: Outcome): string[] =>
  [outcome.kind === "answer" ? outcome.sentence : outcome.reason, ...outcome.caveats].map(plain);

/** Every answer about the dose of one book. */
function answersOf(trial: Trial) {
  return {
    which: whichDoseEarnsMost.run(trial),
    per: perTrayShelfDayOrHour.run(trial),
    step: isTheNextStepWorthTrying.run(trial),
    more: howManyMoreTrays.run(trial),
    changed: whatChangedTheYield.run(trial),
    plan: proposeTrial(trial, { layout: "blocks", chambers: 0 }),
  };
}

const books = Array.from({ length: 100 }, (_, at) => {
  const trial = randomDoseBook(at + 1);
  return { name: `book ${at + 1}`, trial, ...answersOf(trial) };
});

test("100 random books: every answer names the same dose, the same money and the same words", () => {
  let decided = 0;
  for (const { name, which, per, step, plan } of books) {
    expect(step.kind, name).toBe(which.kind);
    if (which.kind !== "answer" || step.kind !== "answer") continue;
    decided++;
    const said = plain(which.sentence);
    const use = estimate(which, "dose to use")!;
    expect(sentencesOf(step), name).toContain(said);
    if (plan.kind === "proposal") expect(plan.says.map(plain).join(" "), name).toContain(said);
    // the picture of a step has the untried dose it is about, else the one to use
    const asked = step.tables[0]?.rows.map((row) => row[0]) ?? [];
    expect([...asked, use], name).toContain((step.strip as { use: number }).use);
    if (per.kind !== "answer") continue;
    // a dose that is advised is named with its own money; that none is, is said in the same words
    if (/^Use /.test(said)) expect(plain(per.sentence), name).toContain(`${use} mL`);
    else expect(plain(per.sentence), name).toContain(said);
    expect(per.tables[0]!.rows[0], name).toEqual(["started tray", use, "", null, which.estimates[1]!.value]);
  }
  expect(decided).toBeGreaterThan(60);
});

test("100 random books: what is worth trying was not tried, and plan, step and edges agree on it", () => {
  let worth = 0;
  for (const { name, trial, which, step, plan } of books) {
    if (which.kind !== "answer" || step.kind !== "answer") continue;
    const tried = trial.trays.map(({ inoculumMillilitres }) => inoculumMillilitres!);
    const rows = new Map(step.tables[0]!.rows.map((row) => [row[0] as number, row.at(-1)]));
    for (const dose of rows.keys()) expect(tried, name).not.toContain(dose);
    const wanted = [...rows].flatMap(([dose, word]) => (word === "yes" ? [dose] : []));
    worth += wanted.length;
    for (const text of which.caveats.map(plain)) {
      const [, dose] = /Try ([\d.]+) mL next/.exec(text) ?? [];
      if (dose !== undefined) expect(wanted, `${name}: ${text}`).toContain(Number(dose));
    }
    if (plan.kind === "proposal") {
      const fresh = plan.levels
        .map(Number)
        .filter((dose) => !tried.includes(dose) && dose !== estimate(which, "dose to use"));
      for (const dose of fresh) expect(wanted, name).toContain(dose);
      if (wanted.length > 0 && trial.settings.shelfPlaces >= 24) expect(plan.against, name).toBeUndefined();
    }
  }
  expect(worth).toBeGreaterThan(10);
});

test("100 random books: nothing is settled about money that is not, and the yield's verdict has one word", () => {
  for (const { name, which, changed } of books) {
    if (which.kind !== "answer") continue;
    const said = plain(which.sentence);
    if (which.certainty === "open") expect(said, name).toMatch(/cannot tell|hardly matters/);
    if (which.certainty !== "settled") expect(which.next?.[0]?.act[0] ?? "Meanwhile use ", name).toBe("Meanwhile use ");
    const words = which.caveats.map(plain).join(" ");
    const isPriced = which.estimates[1]!.unit === "money";
    const certainty = changed.kind === "answer" ? changed.certainty : "open";
    const word = words.includes("changes the yield is likely, but not settled")
      ? "leaning"
      : words.includes("changes the yield is not shown")
        ? "open"
        : "settled";
    if (isPriced) expect(word, name).toBe(certainty);
  }
});

test("100 random books: every text has plain numbers, and money no more digits than its coin", () => {
  for (const { name, which, per, step, more, plan } of books) {
    const texts = [which, per, step, more].flatMap(sentencesOf);
    if (plan.kind === "proposal") texts.push(...plan.says.map(plain));
    for (const text of texts) {
      expect(text, name).not.toMatch(/NaN|undefined|Infinity|\[object/);
      expect(text, name).not.toMatch(/€\d+\.\d{3,}(?! per)/);
      expect(text, name).not.toMatch(/0\.0000/);
    }
  }
});

test("100 random books: the curve beside the yields is what the decision expects, whatever the prices", () => {
  let drawn = 0;
  for (const { name, trial, changed } of books) {
    const found = bookDoseDecision(trial);
    const chart = changed.charts.find(({ kind }) => kind === "doses");
    if (found.kind === "no-dose" || chart?.kind !== "doses" || chart.curve === undefined) continue;
    drawn++;
    expect(chart.curve.y, name).toEqual(found.decision.expected.map(({ grams }) => grams.mean));
    expect(chart.curve.x, name).toEqual(found.decision.expected.map(({ dose }) => dose));
  }
  expect(drawn).toBeGreaterThan(50);
});
