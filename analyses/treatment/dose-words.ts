import type { CannotTell, Sentence, SentencePart } from "../../src/analysis.ts";
import type { SeenDose } from "../../src/decisions/dose/index.ts";
import { doseFactor } from "../../src/design/factor.ts";
import type { Settings } from "../../src/records/setting.ts";
import { inRow, inSentence, levelName } from "../comparison/level-text.ts";
import type { BookDose } from "./book-dose-decision.ts";

/** What `left` of a decision is counted in. */
export const leftUnit = ({ decision }: BookDose): "money" | "g" => (decision.priced ? "money" : "g");

/** "left of a started tray", or grams where the book has no money. */
export const leftLabel = ({ decision, weight }: BookDose): string =>
  decision.priced ? "left of a started tray" : `${weight}, a started tray`;

/** "earns", or "yields" where the book has no money. */
export const earns = ({ decision }: BookDose): string => (decision.priced ? "earns" : "yields");

/** What an amount of the thing is called: "dose" of culture, else its own name. */
export const amountWord = ({ thing }: { thing?: Pick<BookDose["thing"], "factor"> | undefined }): string =>
  thing === undefined || thing.factor === doseFactor ? "dose" : inSentence(thing.factor.label);

/** A question and its name by the thing's own name in place of "dose"; nothing where a dose of culture was varied. */
export function askedOf(
  of: Parameters<typeof amountWord>[0],
  question: string,
  name: string,
): Pick<CannotTell, "asked"> {
  const what = amountWord(of);
  return what === "dose"
    ? {}
    : { asked: { question: question.replace("dose", what), name: name.replace("dose", what) } };
}

/** A dose inside a sentence. */
export const dosePart = ({ thing: { factor } }: Pick<BookDose, "thing">, dose: number): SentencePart =>
  factor.unit === "" ? levelName(factor, String(Number(dose.toPrecision(6)))) : { value: dose, unit: factor.unit };

/** A dose beside another of the same thing, whose name is said already. */
export const besideDose = (of: Pick<BookDose, "thing">, dose: number): SentencePart =>
  of.thing.factor.unit === "" ? String(Number(dose.toPrecision(6))) : dosePart(of, dose);

/** A stretch of doses behind a sentence that names the thing; one dose where both ends are the same. */
export const besideRange = (of: Pick<BookDose, "thing">, { low, high }: { low: number; high: number }): SentencePart =>
  of.thing.factor.unit === "" && low !== high
    ? [low, high].map((end) => besideDose(of, end)).join(" to ")
    : doseRange(of, { low, high });

/** A stretch of doses inside a sentence; one dose where both ends are the same. */
export const doseRange = (of: Pick<BookDose, "thing">, { low, high }: { low: number; high: number }): SentencePart =>
  low === high
    ? dosePart(of, low)
    : of.thing.factor.unit === ""
      ? levelName(of.thing.factor, [low, high].map((end) => besideDose(of, end)).join(" to "))
      : { from: low, to: high, unit: of.thing.factor.unit };

/** Doses in a row: "3 mL, 6 mL and 9 mL". */
export const doseList = (of: Pick<BookDose, "thing">, doses: ReadonlyArray<number>): Sentence =>
  doses.flatMap((dose, at): Sentence => [at === 0 ? "" : at === doses.length - 1 ? " and " : ", ", dosePart(of, dose)]);

/** An amount of what is left: never smaller than can be paid or weighed. */
export function leftPart(
  of: BookDose,
  amount: number,
  { currencyDecimals }: Pick<Settings, "currencyDecimals">,
): Sentence {
  const unit = leftUnit(of);
  const least = unit === "money" ? 1 / 10 ** currencyDecimals : 0.01;
  return Math.abs(amount) < least / 2
    ? ["less than ", { value: least, unit }]
    : ["about ", { value: amount, unit, ...(unit === "g" ? { digits: 2 } : {}) }];
}

export type CoinDigits = Pick<Settings, "currencyDecimals">;

/** "about 0.16 a tray on average, 1 time in 20 more than 0.59."; the second only where it shows. */
function riskPart(of: BookDose, settings: CoinDigits): Sentence {
  const { mean, high } = of.decision.risk;
  const tail: Sentence = high > mean ? [", 1 time in 20 more than ", { value: high, unit: leftUnit(of) }] : [];
  return [...leftPart(of, mean, settings), " a tray on average", ...tail, "."];
}

/** More doses than this that are ruled out are not named one by one. */
const mostNamed = 3;

/** "Anything from 5 to 12 mL could still be the best; 3 mL is ruled out." */
function rangeSentence(of: BookDose): Sentence {
  const { low, high, ruledOut } = of.decision.notRuledOut;
  if (low === high) return ["Only ", dosePart(of, low), " is left: every other is ruled out."];
  return [
    "Anything from ",
    besideRange(of, { low, high }),
    " could still be the best",
    ...(ruledOut.length === 0
      ? []
      : ruledOut.length > mostNamed
        ? ["; all else that you tried is ruled out"]
        : ["; ", ...doseList(of, ruledOut), ruledOut.length === 1 ? " is ruled out" : " are ruled out"]),
    ".",
  ];
}

/** That no dose leaves anything, as sure as the range of the one that leaves most is. */
export const nonePaysWords = (of: BookDose): string =>
  `${of.decision.use.left.high > 0 ? "Probably no" : "No"} ${amountWord(of)} pays at today's prices`;

/** No dose leaves anything: which loses least is said only where the trays tell. */
function nonePaysSentence(of: BookDose, settings: CoinDigits): Sentence {
  const { use, certainty } = of.decision;
  const loss: Sentence = [...leftPart(of, -use.left.mean, settings), " a started tray"];
  return certainty === "open"
    ? [
        `${nonePaysWords(of)}, and these trays cannot tell which loses least: at `,
        dosePart(of, use.dose),
        " a loss of ",
        ...loss,
        " is expected.",
      ]
    : [`${nonePaysWords(of)}; `, dosePart(of, use.dose), " loses least, ", ...loss, "."];
}

const losesTrays = ({ decision }: BookDose): boolean => decision.seen.some(({ lost }) => lost > 0);

/** That the doses cannot be told apart: by started trays, where good trays alone can. */
export const cannotTellDoses = (of: BookDose): string =>
  of.verdict.verdict === "settled" && losesTrays(of)
    ? `Lost ones counted, these trays cannot tell which ${amountWord(of)} ${earns(of)} most.`
    : `These trays cannot tell which ${amountWord(of)} ${earns(of)} most.`;

/** Dose decides nothing here, or nothing is known of it. */
function openSentence(of: BookDose, settings: CoinDigits): Sentence {
  const { decision, verdict } = of;
  const { use, risk } = decision;
  const even: Sentence =
    decision.priced && verdict.verdict === "settled" ? [" More yield and what it costs are about even."] : [];
  if (decision.hardlyMatters) {
    return [
      "It hardly matters: from ",
      doseRange(of, { low: decision.doses[0]!, high: decision.doses.at(-1)! }),
      ` every ${amountWord(of)} does as well as `,
      dosePart(of, use.dose),
      ", within ",
      { value: use.noDifference, unit: leftUnit(of) },
      " a started tray, 9 chances in 10.",
      ...even,
    ];
  }
  return [
    `${cannotTellDoses(of)} Meanwhile use `,
    dosePart(of, use.dose),
    ": it risks least, ",
    ...leftPart(of, risk.mean, settings),
    " a tray on average.",
    ...even,
  ];
}

/** The dose that gave more, where money or losses speak for another: the yield's verdict is not contradicted without a word. */
function againstYield(of: BookDose, settings: CoinDigits): Sentence {
  const { decision, verdict } = of;
  const { use, asGood, expected, priced } = decision;
  const { difference } = verdict;
  if (difference?.from === undefined || (verdict.verdict !== "settled" && verdict.verdict !== "leaning")) return [];
  const [more, less] = difference.estimate > 0 ? [difference.to, difference.from] : [difference.from, difference.to];
  const [better, worse] = [Number(more), Number(less)];
  const left = expected.find(({ dose }) => Math.abs(dose - better) < decision.settings.step / 2);
  const isNearer = Math.abs(use.dose - worse) < Math.abs(use.dose - better);
  const doesAsWell = asGood !== undefined && better >= asGood.low && better <= asGood.high;
  if (!isNearer || doesAsWell || left === undefined || !(left.givesUp > 0)) return [];
  return [
    " ",
    dosePart(of, better),
    ` gave more a good tray than `,
    dosePart(of, worse),
    `, but with ${priced ? "its cost and losses" : "its losses"} counted it is expected to leave `,
    ...leftPart(of, left.givesUp, settings),
    " less a started tray than ",
    dosePart(of, use.dose),
    ".",
  ];
}

/** What to use and how sure that is; every answer about a dose says it in these words. */
export function useSentence(of: BookDose, settings: CoinDigits): Sentence {
  const against = againstYield(of, settings);
  const { certainty, priced, nonePays, hardlyMatters } = of.decision;
  const isUnknown = certainty === "open" && !priced && !nonePays && !hardlyMatters;
  const gone: Sentence =
    isUnknown && against.length === 0 && of.verdict.verdict === "settled" && losesTrays(of)
      ? [" What good trays gave more may have gone with the lost ones."]
      : [];
  return [...chosenSentence(of, settings), ...against, ...gone];
}

/** ", which you have tried: "; of doses too near one another to tell apart, that they are taken as one. */
function triedWords({ decision: { use, seen } }: BookDose): string {
  const as = seen.find(({ dose }) => dose === use.dose)?.asTried ?? [];
  return as.length > 1
    ? `, as you have tried (${inRow(as.map((one) => String(Number(one.toPrecision(6)))))}): `
    : ", which you have tried: ";
}

function chosenSentence(of: BookDose, settings: CoinDigits): Sentence {
  const { decision } = of;
  const { use, certainty, doses, nonePays } = decision;
  if (nonePays) return nonePaysSentence(of, settings);
  if (certainty === "open") return openSentence(of, settings);
  const [low, high] = [doses[0]!, doses.at(-1)!];
  const what = decision.priced ? " left of a started tray" : ` ${of.weight} of a started tray`;
  if (certainty === "settled") {
    return [
      "Use ",
      dosePart(of, use.dose),
      ". Against the best from ",
      doseRange(of, { low, high }),
      " it gives up ",
      ...riskPart(of, settings),
      ...(use.dose === low || use.dose === high ? [" That is settled within what you tried."] : []),
    ];
  }
  const place: Sentence =
    use.over === undefined
      ? [triedWords(of), ...leftPart(of, use.left.mean, settings), what, ". "]
      : [
          ", between those you tried: ",
          ...leftPart(of, use.left.mean, settings),
          what,
          ", ",
          ...leftPart(of, use.over.difference, settings),
          " over ",
          dosePart(of, use.over.dose),
          ". Check it on a few trays. ",
        ];
  return [
    "Use ",
    dosePart(of, use.dose),
    ...place,
    ...rangeSentence(of),
    " Not knowing better costs ",
    ...riskPart(of, settings),
  ];
}

/** "8 mL would do as well: within 0.22, 9 chances in 10."; none where only the dose to use does, or all do. */
export function asGoodSentence(of: BookDose): Sentence[] {
  const { asGood, hardlyMatters, use, expected } = of.decision;
  if (asGood === undefined || hardlyMatters) return [];
  const others = expected.filter(({ dose }) => dose >= asGood.low && dose <= asGood.high && dose !== use.dose);
  return [
    [
      ...(others.length === 1 ? [dosePart(of, others[0]!.dose)] : ["Anything from ", doseRange(of, asGood)]),
      " would do as well: within ",
      { value: use.noDifference, unit: leftUnit(of) },
      " a started tray, 9 chances in 10.",
    ],
  ];
}

/** A dose as a cell: its number, or the doses that count as one. */
export const doseCell = ({ dose, asTried }: Pick<SeenDose, "dose" | "asTried">): number | string =>
  asTried.length > 1 ? asTried.map((one) => Number(one.toPrecision(6))).join(", ") : dose;

/** Whether a dose is advised at all: not where none pays, nor where all do as well. */
export const isAdvised = ({ decision: { nonePays, hardlyMatters } }: BookDose): boolean => !nonePays && !hardlyMatters;
