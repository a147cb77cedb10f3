import { doseTruths } from "../simulation/dose-truths.ts";
import { type MeasuredDose, measureDose, summariseDose } from "../simulation/measure-dose.ts";

const money = (value: number): string => value.toFixed(3).padStart(9);
const percent = (share: number): string => (Number.isNaN(share) ? "-" : `${(100 * share).toFixed(1)} %`).padStart(9);

function row({
  truth,
  givenUp,
  saidGivenUp,
  covered,
  width,
  settled,
  asGoodWrong,
  yieldShown,
  books,
}: MeasuredDose): string {
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
    percent(yieldShown / books),
  ].join(" ");
}

/**
 * The dose decision on books whose truth is known: money a tray given up against the best dose of the range, beside the best
 * mean and a plain quadratic on the same books, and how honest its ranges and chances are.
 * @param books per truth
 */
export function benchDoseDecision(books = 150, firstSeed = 1): void {
  console.log(`dose decision, ${books} books of each truth, seeds from ${firstSeed}`);
  const headings = [
    "decision",
    "tested",
    "quadratic",
    "best mean",
    "said",
    "covered",
    "width",
    "settled",
    "as good -",
    "yield +",
  ];
  console.log(["truth".padEnd(30), ...headings.map((name) => name.padStart(9))].join(" "));
  const all = doseTruths.map((truth) => {
    const measured = measureDose(truth, books, firstSeed);
    console.log(row(measured));
    return measured;
  });
  const mean = summariseDose(all);
  console.log(
    `means of ${all.filter(({ truth }) => truth.apart !== true).length}: given up ${money(mean.decision)}, tested only ${money(mean.tested)}, quadratic ${money(mean.quadratic)}, best mean ${money(mean.bestMean)}; told ${money(mean.said)}`,
  );
  console.log(
    "the specification's own books: this .121 (fresh .119), tested only .144, quadratic .125 (.123), best mean .174 (.163)",
  );
  console.log(
    `range holds the best dose ${percent(mean.covered)} at ${percent(mean.width)} of the range tried (specification: 96 to 97 % at the .90 cut); true loss above the 95th percentile told ${percent(mean.aboveHigh)}`,
  );
  console.log(
    `settled ${percent(mean.settled)} of books, right in ${percent(mean.settledRight)} (98.6 %); "as good" holds a worse dose ${percent(mean.asGoodWrong)} (1.2 %)`,
  );
  const chances = mean.chances.filter(({ count }) => count > 0);
  console.log(
    `chances said / true: ${chances.map((one) => `${one.said.toFixed(2)}/${one.true.toFixed(2)}`).join(" ")}`,
  );
  console.log(
    `next dose up leaves more, said / true: ${mean.beyond.said.toFixed(2)}/${mean.beyond.true.toFixed(2)} (fixed truths .31/.09)`,
  );
}
