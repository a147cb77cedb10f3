import type { AnsweredQuestion } from "../analysis.ts";
import { variedLevels } from "../design/varied-levels.ts";
import type { Book } from "../records/book.ts";
import { hasEnded } from "../records/tray.ts";
import { yieldWeightOf } from "../records/yield-weight.ts";
import { formatQuantity, formatRange, sentenceText } from "../report/format-quantity.ts";
import { bookLine, titleOf } from "../report/front/book-head.tsx";
import { frontAnswers, nextThings, waitingGroups } from "../report/front/choose-front.ts";
import { groupsOf } from "../report/front/few-trays.tsx";
import { mean } from "../report/front/few-trays-table.tsx";
import { figureText } from "../report/front/figure-text.ts";
import { certaintyOf } from "../report/front/verdict-mark.tsx";
import { hasFewTrays } from "../report/report-facts.ts";

/** letters of a line of the terminal */
const lineLength = 110;

/** Words in lines of at most so many letters, the later ones set in by the same margin. */
function wrapped(text: string, margin: number): string[] {
  const lines: string[] = [""];
  for (const word of text.split(" ")) {
    const line = lines.at(-1)!;
    if (line !== "" && margin + line.length + 1 + word.length > lineLength) lines.push(word);
    else lines[lines.length - 1] = line === "" ? word : `${line} ${word}`;
  }
  return lines.map((line, index) => (index === 0 ? line : " ".repeat(margin) + line));
}

/** One answer of the front: verdict, figure, sentence. */
function answerLines({ outcome, name }: AnsweredQuestion, { settings }: Book, width: number): string[] {
  const { large, small } = figureText(outcome.figure!, settings);
  const head = `  ${certaintyOf(outcome).padEnd(12)}${large.padEnd(width)}  `;
  const said = `${small}. ${name}: ${sentenceText(outcome.short!, settings)}`;
  return [...wrapped(said, head.length)].map((line, index) => (index === 0 ? head + line : line));
}

/** What a few trays gave, a line for each dose; nothing where there are enough to compare. */
function fewTraysLines(book: Book): string[] {
  if (!hasFewTrays(book)) return [];
  const { settings, trays } = book;
  const dried = yieldWeightOf(book) ?? "dry";
  const groups = groupsOf(book, variedLevels(trays, settings.varied), dried);
  const width = Math.max(...groups.map(({ name }) => name.length));
  return groups.map(({ name, trays: own, weights }) => {
    const ended = own.filter(hasEnded);
    const good = ended.filter(({ outcome }) => outcome === "good").length;
    const grams = weights.map((weight) => weight.grams);
    const range = formatRange({ from: Math.min(...grams), to: Math.max(...grams), unit: "g", digits: 3 }, settings);
    const gave =
      grams.length === 0
        ? ""
        : `, mean of a good tray ${formatQuantity({ value: mean(grams), unit: "g", digits: 3 }, settings)} ${dried}${grams.length > 1 ? ` (the trays ${range})` : ""}`;
    const grow = own.length - ended.length;
    const known = ended.length === 0 ? [] : [`${good} of ${ended.length} finished trays good${gave}`];
    return `  ${name.padEnd(width)}  ${[...known, ...(grow === 0 ? [] : [`${grow} not finished`])].join("; ")}`;
  });
}

/**
 * The front of the report in text: at most eight answers with verdict, figure and sentence, what to do next, and what waits.
 */
export function headlineLines(book: Book, answers: ReadonlyArray<AnsweredQuestion>): string[] {
  const few = fewTraysLines(book);
  // what a few trays gave stands above already
  const front = frontAnswers(answers).filter(({ outcome }) => few.length === 0 || outcome.kind === "answer");
  const width = Math.max(0, ...front.map(({ outcome }) => figureText(outcome.figure!, book.settings).large.length));
  const next = nextThings(answers).map(({ act, because }, index) => {
    const why = because === undefined ? "" : ` ${sentenceText(because, book.settings)}`;
    return wrapped(`${index + 1}. ${sentenceText(act, book.settings)}${why}`, 5).map((line, at) =>
      at === 0 ? `  ${line}` : line,
    );
  });
  const waiting = waitingGroups(answers).flatMap((group) => group.answers);
  return [
    `${titleOf(book)}: ${bookLine(book)}`,
    "",
    ...few,
    ...(few.length > 0 ? [""] : []),
    ...front.flatMap((answer) => answerLines(answer, book, width)),
    ...(next.length > 0 ? ["", "Do this next", ...next.flat()] : []),
    ...(waiting.length > 0
      ? ["", ...wrapped(`  ${waiting.length} waiting: ${waiting.map(({ name }) => name).join(", ")}`, 2)]
      : []),
  ];
}
