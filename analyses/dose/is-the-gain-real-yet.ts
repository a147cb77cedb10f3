import type { Analysis, Chart, Estimate, Outcome, Sentence, Table, Trial } from "../../src/analysis.ts";
import { doseFactor } from "../../src/design/factor.ts";
import { compareTreatment, type TreatmentComparison } from "../comparison/compare-treatment.ts";
import { layoutSentence } from "../comparison/confounding.ts";
import { levelLabel, levelPart } from "../comparison/level-text.ts";
import { noAnswer } from "../comparison/no-answer.ts";
import { yieldPerGoodTray, yieldPerStartedTray, yieldWeightOf } from "../comparison/tray-response.ts";
import { type Counting, type GainSequence, gainSequence, tightestPerArm } from "./gain-sequence.ts";

/** A gain followed over the looks, with the comparison it comes from. */
interface Followed {
  compared: TreatmentComparison;
  gain: GainSequence;
  counting: Counting;
}

const lookWords = { cook: "cook harvested", "harvest date": "date of harvest", sheet: "sheet" } as const;

const times = (count: number): string => (count === 1 ? "1 look" : `${count} looks`);

/** "12 mL against 3 mL, dry yield per good tray: +6.2 g (3.9 to 8.5 g)". */
function gainParts({ compared, gain }: Followed): Sentence {
  const { treatment } = compared.layout;
  const dose = (level: string) => compared.comparison.arms.find(({ arm }) => arm === level)!.dose;
  const { unit, label } = compared.response;
  return [
    levelPart(treatment, gain.arm, dose(gain.arm)),
    " against ",
    levelPart(treatment, gain.reference, dose(gain.reference)),
    `, ${label}: `,
    { value: gain.difference, unit, signed: true },
    " (",
    { from: gain.low, to: gain.high, unit, signed: true },
    " however often one looks)",
  ];
}

function verdict(followed: Followed): Sentence {
  const { gain } = followed;
  const what = gain.difference >= 0 ? "gain" : "loss";
  const parts = gainParts(followed);
  if (gain.realSince === undefined) {
    return [
      `Still open after ${times(gain.lookCount)}: no ${what} from dose can be told from chance yet. `,
      ...parts,
      ".",
    ];
  }
  const held =
    gain.realSince === gain.lookCount
      ? "at the last look, for the first time"
      : gain.lapses === 0
        ? `since look ${gain.realSince} of ${gain.lookCount}, and held at every look since`
        : `since look ${gain.realSince} of ${gain.lookCount}, although ${times(gain.lapses)} after that would not have shown it alone`;
  return [`The ${what} is real: shown ${held}. `, ...parts, "."];
}

function estimate(trial: Trial, followed: Followed): Estimate {
  const { compared, gain } = followed;
  const { treatment } = compared.layout;
  return {
    label: `${levelLabel(treatment, gain.arm)} against ${levelLabel(treatment, gain.reference)}, ${compared.response.label}`,
    value: gain.difference,
    ...(Number.isFinite(gain.low) && Number.isFinite(gain.high) ? { low: gain.low, high: gain.high } : {}),
    level: trial.settings.intervalLevel,
    unit: compared.response.unit,
    n: gain.results.at(-1)!.units,
    nUnit: gain.unit,
    p: gain.p,
    method: "confidence sequence, valid at every look",
  };
}

/** Beyond this many looks only some are listed, the first and last among them. */
const mostRows = 24;

function listed<T>(rows: ReadonlyArray<T>): T[] {
  if (rows.length <= mostRows) return [...rows];
  return Array.from({ length: mostRows }, (_, k) => rows[Math.round((k * (rows.length - 1)) / (mostRows - 1))]!);
}

function lookTable({ compared, gain }: Followed): Table {
  const { unit } = compared.response;
  const finite = (value: number) => (Number.isFinite(value) ? value : null);
  return {
    caption: `What each look showed: ${compared.response.label}`,
    columns: [
      { label: "look", unit: "factor" },
      { label: gain.by },
      { label: `${gain.unit} so far`, unit: "factor" },
      { label: "gain", unit },
      { label: "from", unit },
      { label: "to", unit },
      { label: "p allowing for every look", unit: "p" },
      { label: "p if it were the only look", unit: "p" },
    ],
    rows: listed(gain.results).map((row) => [
      row.look,
      row.label,
      row.units,
      row.difference,
      finite(row.low),
      finite(row.high),
      row.p,
      row.plainP,
    ]),
    note: `Intervals and p stay valid however often, and whenever, one looks; an empty end means that too few trays were in to set a limit. The last column is what an ordinary test would say, and raises false alarms when it is read again and again.${gain.results.length > mostRows ? ` ${mostRows} of ${gain.results.length} looks are listed.` : ""}`,
  };
}

function lookChart({ compared, gain }: Followed): Chart | undefined {
  const rows = listed(gain.results.filter(({ low, high }) => Number.isFinite(low) && Number.isFinite(high)));
  if (rows.length === 0) return undefined;
  const end = rows.at(-1)!;
  return {
    kind: "intervals",
    title: `The gain in ${compared.response.label}, look by look`,
    description: `At the last look ${end.difference.toPrecision(3)} ${compared.response.unit}, interval ${end.low.toPrecision(3)} to ${end.high.toPrecision(3)}.`,
    unit: compared.response.unit,
    valueLabel: "gain",
    rows: rows.map(({ look, label, difference, low, high }) => ({
      label: `look ${look}: ${label}`,
      value: difference,
      low,
      high,
    })),
    reference: 0,
  };
}

/** How often an ordinary test would have called an effect before, or against, the sequence. */
function plainTestCaveat({ gain }: Followed, alpha: number): Sentence[] {
  const calls = gain.results.filter(({ plainP }) => plainP < alpha);
  if (calls.length === 0 || (gain.realSince !== undefined && calls[0]!.look >= gain.realSince)) return [];
  return [
    [
      `An ordinary test would have called it real at ${times(calls.length)}, first at look ${calls[0]!.look}; it does not allow for looking ${times(gain.lookCount)} long or for picking among the doses.`,
    ],
  ];
}

/** Whether cooks show a gain of their own, so that trays of one cook do not stand for other cooks. */
const differsByCook = ({ comparison, layout }: TreatmentComparison): boolean =>
  layout.unit === "tray" && layout.block !== undefined && (comparison.armInGroupSd ?? 0) > 0;

/** The same with every cook's mean of a dose as one value, which holds even if the gain differs from cook to cook. */
function byCookCaveat(trial: Trial, { compared, gain, counting }: Followed): Sentence[] {
  if (counting === "cooks") {
    return [
      [
        "The gain differs from cook to cook in this book, so every cook's mean of a dose counts as one value: more cooks would tell sooner, more trays in a cook would not.",
      ],
    ];
  }
  const grouped = compared.layout.block !== undefined && compared.layout.unit === "tray";
  const careful = grouped ? follow(trial, compared, "cooks") : undefined;
  const real = careful !== undefined && "gain" in careful && careful.gain.realSince !== undefined;
  if (gain.realSince === undefined) return [];
  if (real)
    return [["It is also real when every cook counts as one, so it does not hang on the trays of a few cooks."]];
  return [
    [
      "This takes the gain to be the same in every cook. With every cook counted as one, which allows for a gain that differs from cook to cook, it is still open: more cooks would tell, more trays in a cook would not.",
    ],
  ];
}

function follow(
  trial: Trial,
  compared: TreatmentComparison,
  counting: Counting = differsByCook(compared) ? "cooks" : "trays",
): Followed | { reason: string } {
  try {
    const gain = gainSequence(trial, compared, counting);
    return gain.kind === "none" ? { reason: gain.reason } : { compared, gain, counting };
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    return { reason: error.message };
  }
}

function run(trial: Trial): Outcome {
  const weight = yieldWeightOf(trial.trays);
  if (weight === undefined) {
    return noAnswer(
      ["Cannot tell whether a gain is real yet: no good tray has a weight."],
      ["Weigh each tray at harvest, fresh and dry, and type the weights in."],
    );
  }
  const compared = compareTreatment(trial, doseFactor, yieldPerGoodTray(weight), "higher");
  if (compared.kind === "cannot-tell") return compared;
  const followed = follow(trial, compared);
  if ("reason" in followed) {
    return noAnswer(
      [`Cannot tell whether the gain is real yet: ${followed.reason}.`],
      ["Put the lowest dose into every cook, beside the others."],
      { excluded: compared.excluded, method: compared.method, caveats: compared.caveats },
    );
  }
  const startedOutcome = compareTreatment(trial, doseFactor, yieldPerStartedTray(weight), "higher");
  const started = startedOutcome.kind === "compared" ? follow(trial, startedOutcome) : undefined;
  const beside = started !== undefined && "gain" in started ? started : undefined;
  const { gain } = followed;
  const { significanceLevel: alpha } = trial.settings;
  const chart = lookChart(followed);
  const real = gain.realSince !== undefined;
  return {
    kind: "answer",
    sentence: verdict(followed),
    certainty: real ? (gain.contradicts ? "leaning" : "settled") : gain.p < Math.max(0.2, alpha) ? "leaning" : "open",
    estimates: [estimate(trial, followed), ...(beside === undefined ? [] : [estimate(trial, beside)])],
    tables: [lookTable(followed)],
    charts: chart === undefined ? [] : [chart],
    excluded: compared.excluded,
    method: [
      layoutSentence(compared.layout),
      [
        `The book counts as looked at once for every ${lookWords[gain.by]}: ${times(gain.lookCount)}${gain.dated ? " in order of harvest" : ", in the order of the sheets because dates are missing"}.`,
      ],
      [
        `At each look every dose is compared with the lowest inside the cooks that hold both (two-way least squares, cooks as blocks), and gets an interval from a confidence sequence (mixture of t statistics), tightest at ${tightestPerArm[followed.counting]} ${gain.unit} a dose whatever the data; the chance of a false alarm is shared over ${compared.comparison.arms.length - 1} dose${compared.comparison.arms.length > 2 ? "s" : ""}.`,
      ],
    ],
    caveats: [
      ...plainTestCaveat(followed, alpha),
      ...(gain.contradicts
        ? [["Later looks fall outside what earlier looks left possible: something besides dose has changed."]]
        : []),
      ...(beside === undefined
        ? []
        : [["With lost trays counted as nothing: ", ...verdict(beside)] satisfies Sentence]),
      ...byCookCaveat(trial, followed),
      ["This holds as long as every tray is kept in the book, whatever it gave."],
      ...compared.caveats,
    ],
  };
}

/** Whether the gain from dose has been shown, given how often the book was looked at. */
export const isTheGainRealYet: Analysis = {
  id: "is-the-gain-real-yet",
  name: "Is the gain real?",
  question: "Is the gain real yet, given how often it was looked at?",
  needs: ["tray_id", "inoculum_ml"],
  experimentalUnit: "tray",
  assumes: [
    "doses were given to trays at random within each cook",
    "trays are only ever added to the book, never dropped",
    "trays vary about equally at every dose",
  ],
  topic: "growing",
  headline: true,
  run,
};
