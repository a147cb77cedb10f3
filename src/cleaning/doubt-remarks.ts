import type { Remark, RemarksSay } from "../records/sheet.ts";
import { fold } from "../records/words/fold.ts";
import { phrasesOf } from "../records/words/languages.ts";
import { isVoid } from "../records/words/void-words.ts";
import { meaningOfColour } from "./colour-legend.ts";
import { remarkBeside } from "./remark-beside.ts";
import type { CellRemark } from "./rows/cell-fact.ts";
import { doubtsAmount, isDiluted, partsOf } from "./values/doubts.ts";

type Doubt = NonNullable<RemarksSay["doubt"]>;

// In the eight languages, from memory.
const only = "(?:only|nur|seulement|uniquement|solo|solamente|soltanto|alleen|enkel|slechts|tylko|apenas)";
const flush = `(?:${phrasesOf((words) => words.flushes).join("|")})`;
const oneFlush = new RegExp(`\\b${only} (?:\\S+ ){0,2}${flush}\\b|\\b${flush}(?: \\S+)? ${only}\\b`);
const daysOff =
  /\b(?:dates?|daten|datum\w*|fechas?|datas?|daty)(?: \S+){0,5} (?:late|early|off|wrong|shifted|approx\w*|guess\w*|spat|falsch|versetzt|verschoben|ungefahr|tard|faux|fausses|environ|tarde|mal|aprox\w*|tardi|sbagliat\w*|circa|laat|verkeerd|ongeveer|pozniej|zle|okolo|atras\w*|errad\w*)\b/;

function doubtOf(text: string): Doubt["says"] | undefined {
  const folded = fold(text);
  if (isVoid(meaningOfColour(text) ?? "")) return "colours";
  if (isDiluted(folded)) return "diluted";
  if (oneFlush.test(folded)) return "one flush";
  if (daysOff.test(folded)) return "days";
  return partsOf(text).some((part) => doubtsAmount(part, {})) ? "amounts" : undefined;
}

/** The first line beside a table that doubts something of all its rows. */
export const doubtRemark = (remarks?: ReadonlyArray<Remark>): Doubt | undefined => remarkBeside(remarks, doubtOf);

const meant: Readonly<Record<Doubt["says"], string>> = {
  amounts: "the amounts are not sure: used as typed",
  "one flush": "the weights are of one flush only: used, and what was picked besides is not counted",
  diluted: "the culture was diluted: its mL are used as typed, and hold less than those of other sheets",
  colours: "some of them do not count, by a colour that is not seen: used as typed",
  days: "the days are not right: used as typed",
};

/** What is said of each row below or above such a line. */
export const doubtBeside = ({ says, text }: Doubt): CellRemark => ({
  rule: "doubt-beside-rows",
  severity: "warning",
  reason: `a line beside the rows says that ${meant[says]}`,
  result: "used as typed",
  expected: "rows that need no such line",
  action: `Correct the rows and take out the line “${text}”; what cannot be known stays flagged`,
});
