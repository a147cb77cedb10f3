import type { Analysis, Answer, Certainty, Chart, Outcome, Sentence, Table, Trial } from "../../src/analysis.ts";
import type { BestPer } from "../../src/decisions/dose/index.ts";
import { levelLabel, levelName } from "../comparison/level-text.ts";
import { noAnswer } from "../comparison/no-answer.ts";
import { bookPrices, pricesMissing } from "../costs/book-prices.ts";
import { type BookDose, bookDoseDecision } from "../treatment/book-dose-decision.ts";
import { doseCaveats } from "../treatment/dose-caveats.ts";
import { askedOf, dosePart, useSentence } from "../treatment/dose-words.ts";
import { noDoseAnswer } from "../treatment/no-dose-answer.ts";
import { chanceText } from "../treatment/verdict-words.ts";

const question = "Per tray, per shelf day or per hour of work: is it the same dose?";
const name = "Tray, shelf or hour";

type Yardstick = "started tray" | BestPer["per"];

const unitOf: Readonly<Record<Yardstick, string>> = {
  "started tray": "money/tray",
  "shelf day": "money/shelf day",
  "hour of work": "money/hour",
};

/** What the dose to use leaves by another yardstick. */
const leftAtUse = ({ left, more }: BestPer): number => left.mean - more;

/** "Per shelf day too: 9 mL", or another dose where that is as good as sure. */
function perSentence(of: BookDose, best: BestPer): Sentence {
  const { per, dose, more, chanceBetter, different } = best;
  const unit = unitOf[per];
  return different
    ? [
        `Per ${per} `,
        dosePart(of, dose),
        " leaves ",
        { value: more, unit },
        ` more than `,
        dosePart(of, of.decision.use.dose),
        `; the chance is ${chanceText(chanceBetter)}.`,
      ]
    : [
        `Per ${per} too: `,
        dosePart(of, of.decision.use.dose),
        leftAtUse(best) < 0 ? ", which loses about " : ", which leaves about ",
        { value: Math.abs(leftAtUse(best)), unit },
        per === "hour of work" ? ", before your time is paid." : ".",
      ];
}

function perTable(of: BookDose): Table {
  const { decision } = of;
  const { use } = decision;
  return {
    caption: "What is left at the dose to use, by what is short",
    columns: [
      { label: "per" },
      { label: "dose that leaves most", unit: of.thing.factor.unit || undefined },
      { label: "another dose than per tray" },
      { label: "chance that it leaves more than the dose to use", unit: "share" },
      { label: "expected, left at the dose to use", unit: "money" },
    ],
    rows: [
      ["started tray", use.dose, "", null, use.left.mean],
      ...decision.per.map((one) => [
        one.per,
        one.dose,
        one.dose === use.dose ? "no" : one.different ? "yes" : "not shown",
        one.dose === use.dose ? null : one.chanceBetter,
        leftAtUse(one),
      ]),
    ],
    note: "Expected from the same draws as the dose to use. Per hour of work: before your own time is paid, over all hours of work, packing among them.",
  };
}

function groupsChart(of: BookDose): Chart[] {
  const { decision, thing } = of;
  const rows = decision.expected
    .filter(({ tested }) => tested)
    .map(({ dose, left }) => ({
      label: levelLabel(thing.factor, String(Number(dose.toPrecision(4)))),
      value: left.mean,
      low: left.low,
      high: left.high,
    }));
  return [
    {
      kind: "intervals",
      title: "Expected, left of a started tray",
      description: rows.map(({ label, value }) => `${label}: ${value.toPrecision(3)}`).join("; "),
      unit: "money",
      valueLabel: "left of a started tray",
      rows,
      reference: 0,
    },
  ];
}

/** What could not be measured. */
function notMeasured({ decision }: BookDose): Sentence[] {
  const has = (per: BestPer["per"]): boolean => decision.per.some((one) => one.per === per);
  return [
    ...(has("shelf day")
      ? []
      : [["No dates tell how long trays stood, so there is nothing per shelf day."] satisfies Sentence]),
    ...(has("hour of work")
      ? []
      : [["No labour line in hours tells how long the work took, so there is nothing per hour."] satisfies Sentence]),
  ];
}

/** Whether another dose does better by what was measured. */
function shortOf(of: BookDose): Sentence {
  const { per, use } = of.decision;
  const dose = dosePart(of, use.dose);
  const [turn] = per.filter(({ different }) => different);
  if (turn !== undefined) return ["By ", turn.per, " ", dosePart(of, turn.dose), " does better than ", dose, "."];
  return per.length === 0
    ? [onlyTrays]
    : ["None is shown better than ", dose, ` by ${per.map((one) => one.per).join(" or ")}.`];
}

const onlyTrays = "Only the tray can be counted here.";

function answer(trial: Trial, of: BookDose): Answer {
  const { use, per, certainty } = of.decision;
  const { nonePays, hardlyMatters } = of.decision;
  const isPlain = !nonePays && !hardlyMatters && certainty !== "open" && per.length > 0;
  return {
    kind: "answer",
    sentence: [
      ...per.flatMap((best, index): Sentence => [index === 0 ? "" : " ", ...perSentence(of, best)]),
      ...(per.length === 0 ? [onlyTrays] : []),
      // a dose that is advised is named above with its money; that none is, is said here, too
      ...(isPlain ? [] : [" ", ...useSentence(of, trial.settings)]),
    ],
    short: shortOf(of),
    figure: {
      label: per.length === 0 ? "expected, left of a started tray" : `expected, left per ${per[0]!.per}`,
      value: per.length === 0 ? use.left.mean : leftAtUse(per[0]!),
      unit: per.length === 0 ? "money" : unitOf[per[0]!.per],
    },
    strip: {
      kind: "groups",
      unit: "money",
      groups: of.decision.expected
        .filter(({ tested }) => tested)
        .slice(0, 6)
        .map(({ dose: amount, left }) => ({
          name: levelName(of.thing.factor, String(Number(amount.toPrecision(4)))),
          dose: amount,
          value: left.mean,
          from: left.low,
          to: left.high,
        })),
    },
    certainty: certainty as Certainty,
    estimates: per.map((best) => ({
      label: `left per ${best.per} at the dose to use`,
      value: leftAtUse(best),
      level: 0.95,
      unit: unitOf[best.per],
      n: of.decision.seen.reduce((sum, { trays }) => sum + trays, 0),
      nUnit: "trays",
      method: "the draws of the dose decision, divided",
    })),
    tables: [perTable(of)],
    charts: groupsChart(of),
    excluded: of.excluded,
    method: [["The draws of the dose decision, divided by the days and the hours of a started tray at each dose."]],
    caveats: [
      [
        "Go by what runs out first: by the tray when culture, bags or cooker loads are short, by the shelf day when shelves are full, by the hour when your time is.",
      ],
      ...notMeasured(of),
      ...doseCaveats(of),
    ],
  };
}

function run(trial: Trial): Outcome {
  const of = bookDoseDecision(trial);
  const start = "Cannot tell whether the ranking changes";
  if (of.kind === "no-dose") return noDoseAnswer(of, start, askedOf(of, question, name));
  if (of.money === undefined) {
    const product = `a ${of.weight === "dry" ? "dried" : "fresh"} product with a price`;
    const isPriced = bookPrices(trial).kind === "prices";
    return noAnswer(
      [`${start}: ${of.noMoney}.`],
      [isPriced ? `Add ${product} to products.csv.` : "Fill in costs.csv and products.csv."],
      {
        ...askedOf(of, question, name),
        missing: isPriced ? { kind: "record", need: product } : pricesMissing(trial, "what you sell, in products.csv"),
      },
    );
  }
  return { ...answer(trial, of), ...askedOf(of, question, name) };
}

/** Whether the dose that earns most per tray also earns most per shelf day and per hour of work. */
export const perTrayShelfDayOrHour: Analysis = {
  id: "per-tray-shelf-day-or-hour",
  name,
  question,
  needs: ["tray_id"],
  assumes: ["everything made is sold at today's net price", "levels were given to trays at random within each cook"],
  topic: "money",
  headline: false,
  run,
};
