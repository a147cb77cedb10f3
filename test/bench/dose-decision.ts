import { doseDecision } from "../../src/decisions/dose/index.ts";
import { type ComparedTray, decideComparison, decideStartedTrays } from "../../src/decisions/verdict/index.ts";
import { fitMixedModel } from "../../src/statistics/mixed-models/fit-mixed-model.ts";
import { doseBook, doseTruths } from "../simulation/dose-truths.ts";
import { type MeasuredDose, measureDose, summariseDose } from "../simulation/measure-dose.ts";
import { measureMoreTrays } from "../simulation/measure-more-trays.ts";
import { randomDoseTruths } from "../simulation/random-dose-truths.ts";
import { medianMilliseconds, printRatio } from "./ratio.ts";

const money = (value: number): string => value.toFixed(3).padStart(9);
const percent = (share: number): string => (Number.isNaN(share) ? "-" : `${(100 * share).toFixed(1)} %`).padStart(9);

function row({ truth, givenUp, saidGivenUp, covered, width, settled, asGoodWrong, books }: MeasuredDose): string {
  return [
    truth.name.padEnd(30),
    money(givenUp.decision),
    money(givenUp.tested),
    money(givenUp.quadratic),
    money(givenUp.bestMean),
    money(saidGivenUp),
    percent(covered),
    percent(width),
    percent(settled / books),
    percent(asGoodWrong / books),
  ].join(" ");
}

function printMeans(all: ReadonlyArray<MeasuredDose>): void {
  const mean = summariseDose(all);
  console.log(
    `means: given up ${money(mean.decision)}, tested only ${money(mean.tested)}, quadratic ${money(mean.quadratic)}, best mean ${money(mean.bestMean)}; expected ${money(mean.said)}`,
  );
  console.log(
    `range holds the best dose ${percent(mean.covered)} at ${percent(mean.width)} of the range tried; true loss above the 95th percentile given ${percent(mean.aboveHigh)}`,
  );
  console.log(
    `settled ${percent(mean.settled)} of books, right in ${percent(mean.settledRight)}; "as good" holds a worse dose ${percent(mean.asGoodWrong)}`,
  );
  const chances = mean.chances.filter(({ count }) => count > 0);
  console.log(
    `chances said / true: ${chances.map((one) => `${one.said.toFixed(2)}/${one.true.toFixed(2)}`).join(" ")}`,
  );
  console.log(`next dose up leaves more, said / true: ${mean.beyond.said.toFixed(2)}/${mean.beyond.true.toFixed(2)}`);
}

/** Time of the verdicts and the dose decision beside a mixed model of the same trays. */
async function benchSpeed(): Promise<void> {
  const truth = doseTruths.find(({ name }) => name === "quadratic")!;
  for (const [cooks, goal] of [
    [8, 60],
    [1667, 1000],
  ] as const) {
    const trays = doseBook({ ...truth, cooks }, 1);
    const good = trays.filter(({ lost }) => !lost);
    const compared = trays.map(({ dose, cook, lost, grams }, row): ComparedTray => {
      return { level: dose, row, cook: cook!, value: lost ? "lost" : grams! };
    });
    const decision = await medianMilliseconds(() => {
      decideStartedTrays(compared, {}, decideComparison(compared));
      doseDecision({ trays, prices: truth.prices });
    }, 9);
    const model = await medianMilliseconds(
      () =>
        fitMixedModel({
          response: good.map(({ grams }) => grams!),
          terms: [{ kind: "factor", name: "dose", values: good.map(({ dose }) => String(dose)) }],
          random: [{ name: "cook", groups: good.map(({ cook }) => cook!) }],
        }),
      9,
    );
    printRatio({
      work: `verdicts and dose decision from ${trays.length} trays (asked: ${goal} ms)`,
      baseline: "mixed model of their yields",
      milliseconds: decision,
      baselineMilliseconds: model,
    });
  }
}

/**
 * The dose decision on books whose truth is known: money a tray given up against the best dose of the range, beside the best
 * mean and a plain quadratic on the same books, and how honest its ranges and chances are. First the fixed truths, then one
 * book each of random ones.
 * @param books per fixed truth
 */
export async function benchDoseDecision(books = 150, firstSeed = 1, randomTruths = 960): Promise<void> {
  await benchSpeed();
  console.log(`fixed truths, ${books} books of each, seeds from ${firstSeed}`);
  const headings = [
    "decision",
    "tested",
    "quadratic",
    "best mean",
    "expected",
    "covered",
    "width",
    "settled",
    "as good -",
  ];
  console.log(["truth".padEnd(30), ...headings.map((name) => name.padStart(9))].join(" "));
  const all = doseTruths.map((truth) => {
    const measured = measureDose(truth, books, firstSeed);
    console.log(row(measured));
    return measured;
  });
  printMeans(all);
  console.log(
    "the specification on its own books: this .121 (fresh .119), tested only .144, quadratic .125 (.123), best mean .174 (.163); range 96 to 97 % at the .90 cut; settled right 98.6 %, as good wrong 1.2 %",
  );
  console.log(`random truths of other families, ${randomTruths} books, seeds from ${firstSeed}`);
  // books of too few weighed trays are refused, which is right
  const decided = randomDoseTruths(randomTruths, firstSeed).flatMap((truth, at) => {
    const seed = firstSeed + at;
    const { kind } = doseDecision({ trays: doseBook(truth, seed), prices: truth.prices });
    return kind === "decision" ? [{ truth, seed }] : [];
  });
  console.log(`${decided.length} of them decided`);
  printMeans(decided.map(({ truth, seed }) => measureDose(truth, 1, seed)));
  const others = decided.map(({ truth }) => truth);
  console.log(
    "the specification on its own random truths: this .150, quadratic .167, best mean .203; range 99.5 % at 73 % (.95 cut)",
  );
  const more = measureMoreTrays(others.slice(0, Math.ceil(randomTruths / 3)), firstSeed + 100_000);
  console.log(
    `doubling the cooks: expected to save ${money(more.expected)}, saved ${money(more.saved)} (specification: .068 expected, .052 saved)`,
  );
}
