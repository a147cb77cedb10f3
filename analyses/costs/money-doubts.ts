import type { Figure, NextStep, Outcome, Sentence, Trial } from "../../src/analysis.ts";
import { doubtOfUnread, type MoneyDoubt } from "../../src/costing/lines/money-doubt.ts";
import { counted, firstOf } from "../../src/records/counted.ts";
import { loweredAnswer } from "../../src/report-test.ts";
import { capital } from "../comparison/level-text.ts";
import { bookCosts } from "./book-prices.ts";

/** Everything that is missing from the book's money or doubtful in it, in the order of the sheets. */
export function moneyDoubts(trial: Trial): MoneyDoubt[] {
  const costs = bookCosts(trial);
  return costs.kind === "costs" ? costs.doubts : (trial.unread ?? []).map(doubtOfUnread);
}

/** names listed in a sentence; the notes have all */
const mostNamed = 3;

const listed = (names: ReadonlyArray<string>): string => firstOf([...new Set(names)], mostNamed);

/** "without: shed rent; in part: oven; doubtful: bags", without capital or full stop; "" where nothing is missing. */
export function withoutText(doubts: ReadonlyArray<MoneyDoubt>): string {
  const of = (effect: MoneyDoubt["effect"]) => doubts.filter((one) => one.effect === effect).map(({ name }) => name);
  const parts = [
    ["without", of("left out")],
    ["counted in part", of("in part")],
    ["doubtful", of("doubtful")],
  ] as const;
  return parts.flatMap(([word, names]) => (names.length === 0 ? [] : [`${word}: ${listed(names)}`])).join("; ");
}

const rowText = ({ file, row }: MoneyDoubt["source"]): string => (row > 0 ? `${file}, row ${row}` : file);

/** One line about what is missing, where, why and how much it could be. */
export function doubtSentence({ name, reason, source, effect, trays, guess, guessedFrom }: MoneyDoubt): Sentence {
  const word = effect === "left out" ? "Left out" : effect === "in part" ? "Counted in part" : "Doubtful";
  const count = trays === undefined ? "" : `, for ${counted(trays, "tray")} not`;
  return [
    `${word}${count}: ${name}${name === source.file ? "" : ` (${rowText(source)})`}: ${reason}`,
    ...(guess === undefined || effect !== "left out"
      ? ["."]
      : [
          "; it could cost ",
          { value: guess.packPrice, unit: "money" },
          ` a pack, by ${guessedFrom ?? "the rest of its row"}.`,
        ]),
  ];
}

/** Doubts that can move an answer. */
export const doubtsThatMove = (doubts: ReadonlyArray<MoneyDoubt>, what: "trays and grams" | "products"): MoneyDoubt[] =>
  doubts.filter(({ moves }) => what === "products" || moves === "every cost");

/** Which way what is left out moves what things cost, as the reader sees it now. */
const looksLike = (doubts: ReadonlyArray<MoneyDoubt>): "lower" | "higher" | "other" => {
  const ways = new Set(doubts.map(({ cameBack = "" }) => cameBack));
  return ways.size !== 1 || ways.has("perhaps") ? "other" : ways.has("sure") ? "higher" : "lower";
};

/** Which way what is left out moves what everything seems to cost, as a sentence; "" where nothing of costs is left out. */
export function looksText(doubts: ReadonlyArray<MoneyDoubt>): string {
  const missing = doubtsThatMove(doubts, "trays and grams").filter(({ effect }) => effect !== "doubtful");
  const looks = { lower: "cheaper than it is", higher: "dearer than it is", other: "other than it is" };
  return missing.length === 0
    ? ""
    : `Without ${missing.length === 1 ? missing[0]!.name : "them"} everything looks ${looks[looksLike(missing)]}.`;
}

/** What trays and grams cost is no less than shown where a line is left out or counted in part; no more where money came back. */
export function boundOfCosts(doubts: ReadonlyArray<MoneyDoubt>): "at least" | "at most" | "" {
  const missing = doubts.filter(({ effect, moves }) => effect !== "doubtful" && moves === "every cost");
  return missing.length === 0 ? "" : ({ lower: "at least", higher: "at most", other: "" } as const)[looksLike(missing)];
}

/** To type the first row or sheet that is missing again: until then every figure of money waits for it. */
function typeAgain(doubts: ReadonlyArray<MoneyDoubt>): NextStep[] {
  const every = doubts.filter(({ effect }) => effect === "left out");
  // what a product earns moves no cost
  const costs = doubtsThatMove(every, "trays and grams");
  const missing = costs.length > 0 ? costs : every;
  const first =
    missing.find(({ source, cameBack }) => source.file !== "" && cameBack === undefined) ??
    missing.find(({ source }) => source.file !== "");
  if (first === undefined) return [];
  const { record, name, source } = first;
  // what one thing written down brings back
  const count = record === undefined ? missing.length : missing.filter((one) => one.record === record).length;
  const are =
    record !== undefined
      ? `Until then ${count > 1 ? `${count} costs are` : "a cost is"} left out`
      : count > 1
        ? `It and ${count - 1} more are left out`
        : "It is left out";
  const so = costs.length > 0 ? `costs look ${looksLike(missing)} than they are` : "nothing is worked out for it";
  return [
    {
      rank: "unread",
      act: [
        record === undefined
          ? `Correct ${source.row > 0 ? `${name}: ${rowText(source)}` : source.file}.`
          : `Record ${record}.`,
      ],
      because: [`${are}, so ${count > 1 ? so.replace(/ it$/, " them") : so}.`],
    },
  ];
}

/** The large number with what stands in doubt behind it, as it is read by itself; a weight does not go by money. */
const doubtedFigure = (figure: Figure, doubts: ReadonlyArray<MoneyDoubt>): Figure =>
  / at (?:least|most)$/.test(figure.label) || ("unit" in figure && figure.unit === "g")
    ? figure
    : {
        ...figure,
        label: `${figure.label}, ${doubts.some(({ moves }) => moves === "every cost") ? "costs" : "sales"} in doubt`,
      };

/**
 * An answer about money that says what is missing from it: at its large number, in its sentences, under its tables, in its
 * notes and as the thing to do. It is leaning at most, because an unread line may turn it. An outcome without doubts comes back as it is.
 */
export function saidWithDoubts(outcome: Outcome, doubts: ReadonlyArray<MoneyDoubt>): Outcome {
  if (doubts.length === 0) return outcome;
  const without = `${capital(withoutText(doubts))}.`;
  const said = outcome.kind === "answer" ? loweredAnswer(outcome) : outcome;
  const caveats = [...doubts.map(doubtSentence), ...said.caveats];
  const next = [...typeAgain(doubts), ...(said.next ?? [])];
  const withNext = next.length === 0 ? {} : { next };
  if (said.kind === "cannot-tell") return { ...said, ...withNext, caveats };
  return {
    ...said,
    ...withNext,
    ...(said.figure === undefined ? {} : { figure: doubtedFigure(said.figure, doubts) }),
    withoutMoney: withoutText(doubts),
    ...(looksText(doubts) === "" ? {} : { moneyLooks: looksText(doubts) }),
    sentence: [...said.sentence, ` ${without}`],
    tables: said.tables.map((table) => ({
      ...table,
      note: table.note === undefined ? without : `${without} ${table.note}`,
    })),
    caveats,
  };
}
