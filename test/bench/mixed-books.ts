import { trialOf } from "../../src/engine/trial-of.ts";
import { answerQuestions } from "../engine/answer-questions.ts";
import { contradictionsOf } from "../simulation/contradictions.ts";
import { faults, layouts, mixedBook } from "../simulation/mixed-books.ts";
import { mixedRates, readMixed } from "../simulation/mixed-rates.ts";

const percent = (share: number): string => `${(100 * share).toFixed(1)} %`.padStart(8);

/** Answers of whole books against one another. */
async function benchOneVoice(books: number, firstSeed: number): Promise<void> {
  let contradicting = 0;
  for (let seed = firstSeed; seed < firstSeed + books; seed++) {
    const simulated = mixedBook(seed);
    const book = await readMixed(simulated);
    const found = contradictionsOf(trialOf(book), answerQuestions(book));
    if (found.length === 0) continue;
    contradicting++;
    console.log(`${simulated.name}: ${found.join("; ")}`);
  }
  console.log(`${contradicting} of ${books} mixed books have answers that speak against each other (asked: 0)`);
}

/**
 * Books read from their sheets through the whole cleaning: whether answers contradict one another, and how often the yield is
 * settled falsely and rightly where a sheet lacks cooks or dates or the dose was stepped up. Trays and cooks differ by 3.5 g.
 * @param books whole books scanned; a tenth of them for each arrangement and fault
 */
export async function benchMixedBooks(books = 1000, firstSeed = 10_001): Promise<void> {
  await benchOneVoice(books, firstSeed);
  console.log(["arrangement, fault of the sheet".padEnd(44), "   false", "   power", "  covers", "no means"].join(" "));
  for (const layout of layouts.keys()) {
    for (const fault of faults) {
      const rates = await mixedRates(layout, fault, Math.ceil(books / 10), firstSeed);
      console.log(
        [
          rates.name.padEnd(44),
          percent(rates.falseSettled),
          percent(rates.power),
          rates.intervals === 0 ? "       -" : percent(rates.coverage),
          String(rates.withoutMeans).padStart(8),
        ].join(" "),
      );
    }
  }
}
