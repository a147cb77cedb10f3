import { yieldDecision } from "../../analyses/treatment/what-changed-the-yield.ts";
import { readBook } from "../../src/engine/read-book.ts";
import { trialOf } from "../../src/engine/trial-of.ts";
import type { Book } from "../../src/records/book.ts";
import { sourceOf } from "../csv/source-of.ts";
import { type faults, layouts, type MixedBook, mixedBook } from "./mixed-books.ts";

/** A simulated book as the program reads it. */
export const readMixed = ({ sheets }: MixedBook): Promise<Book> =>
  readBook(
    Object.entries(sheets).map(([path, text]) => sourceOf(text, path)),
    { name: "book" },
  );

/** What the books of one arrangement and one fault of the sheet were told. */
export interface MixedRates {
  name: string;
  books: number;
  /** settled though nothing makes a difference; settled of a gain of 9 g from end to end */
  falseSettled: number;
  power: number;
  /** intervals of both that hold the true difference, of those given */
  coverage: number;
  intervals: number;
  /** books with two levels picked that got no mean of a level */
  withoutMeans: number;
}

interface Told {
  settled: boolean;
  holds?: boolean;
  withoutMeans: boolean;
}

async function told(book: MixedBook): Promise<Told> {
  const of = yieldDecision(trialOf(await readMixed(book)));
  const interval = of?.decision.difference?.interval;
  const means = of?.decision.levels.filter(({ mean }) => mean !== undefined).length ?? 0;
  return {
    settled: of?.decision.verdict === "settled",
    ...(interval === undefined ? {} : { holds: interval.lower <= book.truth && book.truth <= interval.upper }),
    withoutMeans: book.picked.filter((one) => one > 0).length > 1 && means < 2,
  };
}

/** Reads books of one arrangement and one fault from their sheets, without a gain and with one. */
export async function mixedRates(
  layout: number,
  fault: (typeof faults)[number],
  books: number,
  firstSeed: number,
): Promise<MixedRates> {
  const [none, gained]: Told[][] = [[], []];
  for (let at = 0; at < books; at++) {
    none!.push(await told(mixedBook(firstSeed + at, { layout, fault, gain: 0, plain: true })));
    gained!.push(await told(mixedBook(firstSeed + at, { layout, fault, gain: 9, plain: true })));
  }
  const all = [...none!, ...gained!];
  const given = all.filter(({ holds }) => holds !== undefined);
  const settled = (some: Told[]) => some.filter((one) => one.settled).length / books;
  return {
    name: `${layouts[layout]!.name}, ${fault}`,
    books,
    falseSettled: settled(none!),
    power: settled(gained!),
    coverage: given.filter(({ holds }) => holds).length / Math.max(1, given.length),
    intervals: given.length,
    withoutMeans: all.filter(({ withoutMeans }) => withoutMeans).length,
  };
}
