import type { Analysis, Chart, Estimate, Outcome, Sentence, Table, Trial } from "../../src/analysis.ts";
import { cultureAgeFactor, type Factor, generationFactor } from "../../src/design/factor.ts";
import { hasEnded, isLost } from "../../src/records/tray.ts";
import { yieldWeightOf } from "../../src/records/yield-weight.ts";
import { holmAdjustment } from "../../src/statistics/comparisons/p-value-adjustments.ts";
import { mean } from "../../src/statistics/descriptive/mean.ts";
import { inSentence } from "../comparison/level-text.ts";
import { noAnswer } from "../comparison/no-answer.ts";
import { colonisationDays } from "../comparison/tray-days.ts";
import { type TrayResponse, yieldPerGoodTray } from "../comparison/tray-response.ts";
import { cultureFront, cultureMissing, type Drift } from "./culture-front.ts";
import { type CultureLayout, cultureLayout } from "./culture-layout.ts";
import { cultureLossTrend, cultureTrend } from "./culture-trend.ts";

interface Finding {
  /** "generation" or "day of age" */
  step: string;
  label: string;
  estimate: Estimate;
  /** +1 when the measure goes up with age, -1 when down */
  direction: number;
  /** whether that is the bad way */
  worse: boolean;
  notes: Sentence[];
}

const settle: Sentence = [
  "Keep some of the oldest culture, and inoculate half of the trays of each of the next three cooks from it and half from a fresh transfer, two jars of each, drawn at random: then age is separated from everything else that changes with time.",
];

type JudgedLayout = Extract<CultureLayout, { kind: "judged" }>;

const stepOf = (factor: Factor): string => (factor.key === generationFactor.key ? "generation" : "day of age");

const jarsOf = ({ jars, jarsRecorded }: JudgedLayout) => ({
  n: jars,
  nUnit: jarsRecorded ? "jars" : "groups of trays",
});

/** How a measure changes; the reason where that could not be worked out. */
function trendFinding(
  factor: Factor,
  layout: JudgedLayout,
  level: number,
  { response, goodWay }: { response: TrayResponse; goodWay: 1 | -1 },
): Finding | string {
  const trend = cultureTrend(layout, response, level);
  if (trend.kind === "none")
    return `${response.label} by ${inSentence(factor.label)} could not be worked out: ${trend.reason}.`;
  const { slope: value, low, high, p, method, notes } = trend;
  const step = stepOf(factor);
  return {
    step,
    label: response.label,
    direction: Math.sign(value),
    worse: value * goodWay < 0,
    notes,
    estimate: {
      label: `${response.label}, per ${step}`,
      unit: `${response.unit}/${step}`,
      ...jarsOf(layout),
      ...{ value, low, high, level, p, method },
    },
  };
}

/** How the odds of losing a tray change; the reason where that could not be worked out. */
function lossFinding(factor: Factor, layout: JudgedLayout, level: number, seed: number): Finding | string {
  const losses = cultureLossTrend(layout, level, seed);
  if (losses.kind === "none") return `Losses by ${inSentence(factor.label)} could not be worked out: ${losses.reason}.`;
  const { oddsRatio: value, low, high, p, method } = losses;
  const step = stepOf(factor);
  return {
    step,
    label: "odds of losing a tray",
    direction: value > 1 ? 1 : -1,
    worse: value > 1,
    notes: [],
    estimate: {
      label: `odds of losing a tray, times per ${step}`,
      unit: "factor",
      ...jarsOf(layout),
      ...{ value, low, high, level, p, method },
    },
  };
}

/** Every change that could be worked out for one factor, and the reasons of the others. */
function findingsOf(trial: Trial, factor: Factor, layout: JudgedLayout): { findings: Finding[]; none: Sentence[] } {
  const { intervalLevel: level, seed } = trial.settings;
  const weight = yieldWeightOf(trial);
  const responses: { response: TrayResponse; goodWay: 1 | -1 }[] = [
    ...(weight === undefined ? [] : [{ response: yieldPerGoodTray(weight), goodWay: 1 as const }]),
    { response: colonisationDays, goodWay: -1 },
  ];
  const found = [
    ...responses.map((response) => trendFinding(factor, layout, level, response)),
    lossFinding(factor, layout, level, seed),
  ];
  return {
    findings: found.filter((one) => typeof one !== "string"),
    none: found.flatMap((one) => (typeof one === "string" ? [[one]] : [])),
  };
}

function levelTable(trial: Trial, factor: Factor, layout: JudgedLayout): Table {
  const weight = yieldWeightOf(trial);
  const responses = [...(weight === undefined ? [] : [yieldPerGoodTray(weight)]), colonisationDays];
  const amounts = [...new Set(layout.trays.map(({ amount }) => amount))].sort((a, b) => a - b);
  const byAmount = new Map(amounts.map((amount) => [amount, layout.trays.filter((row) => row.amount === amount)]));
  const shown = amounts.slice(0, 40);
  return {
    caption: `Trays by ${inSentence(factor.label)}`,
    columns: [
      { label: factor.label, ...(factor.unit === "" ? {} : { unit: factor.unit }) },
      { label: "jars", unit: "jars" },
      { label: "cooks", unit: "cooks" },
      { label: "trays", unit: "trays" },
      { label: "lost", unit: "trays" },
      ...responses.map(({ label, unit }) => ({ label: `mean ${label}`, unit })),
    ],
    rows: shown.map((amount) => {
      const own = byAmount.get(amount)!;
      return [
        amount,
        new Set(own.map(({ jar }) => jar)).size,
        new Set(own.map(({ cook }) => cook)).size,
        own.length,
        own.filter(({ tray }) => hasEnded(tray) && isLost(tray)).length,
        ...responses.map((response) => {
          const values = own.flatMap(({ tray }) => response.of(tray) ?? []);
          return values.length === 0 ? null : mean(values);
        }),
      ];
    }),
    note: `Means as they came, cooks not taken out.${amounts.length > shown.length ? ` The first ${shown.length} of ${amounts.length} levels.` : ""}`,
  };
}

const changeParts = ({ label, estimate, direction, step }: Finding): Sentence => [
  `${label} ${direction > 0 ? "goes up" : "goes down"} (`,
  estimate.unit === "factor" ? "times " : "",
  { value: estimate.value, unit: estimate.unit, ...(estimate.unit === "factor" ? {} : { signed: true }) },
  ", ",
  { from: estimate.low!, to: estimate.high!, unit: estimate.unit },
  estimate.unit === "factor" ? ` per ${step})` : ")",
];

interface JudgedFactor {
  factor: Factor;
  layout: JudgedLayout;
}

const certaintyOf = { clear: "settled", perhaps: "leaning", "not shown": "open" } as const;

/** Sentence and front of what is said to change, in the words of how sure it is. */
function driftWords(said: ReadonlyArray<Finding>, word: Drift) {
  const worse = said.some((one) => one.worse);
  const opening = {
    clear: worse ? "The culture is drifting: " : "The culture changes, and not for the worse: ",
    perhaps: worse ? "The culture may be drifting: " : "The culture may be changing, and not for the worse: ",
    "not shown": "No drift of the culture is shown; strongest is: ",
  }[word];
  const sentence: Sentence = [
    opening,
    ...said.flatMap((finding, index): Sentence => [...(index === 0 ? [] : ["; "]), ...changeParts(finding)]),
    ".",
  ];
  return { sentence, ...cultureFront(said[0]!, word) };
}

/** What the findings say, measures ranked and their number allowed for. */
function drift(findings: ReadonlyArray<Finding>, alpha: number) {
  const adjusted = holmAdjustment(findings.map(({ estimate }) => estimate.p!));
  const ranked = findings
    .map((finding, index) => ({ finding, adjustedP: adjusted[index]! }))
    .sort((a, b) => a.finding.estimate.p! - b.finding.estimate.p!);
  const strongest = ranked[0]!.finding;
  const clear = ranked.filter(({ adjustedP }) => adjustedP < alpha).map(({ finding }) => finding);
  const word: Drift = clear.length > 0 ? "clear" : strongest.estimate.p! < alpha ? "perhaps" : "not shown";
  const said = clear.length > 0 ? clear : [strongest];
  return {
    ...driftWords(said, word),
    certainty: certaintyOf[word],
    ...(word === "clear" ? { lowered: driftWords(said, "perhaps") } : {}),
    estimates: ranked.map(({ finding }) => finding.estimate),
  };
}

const methodSentence = ({ factor, layout }: JudgedFactor): Sentence => [
  `${factor.label}: ${layout.withinCooks ? "compared inside cooks that hold several levels" : "compared between cooks, as it did not simply go up with time"}; ${layout.jars} ${layout.jarsRecorded ? "jars" : "groups of one cook and level (jars are not recorded)"}, each counting as one, in ${layout.cooks} ${layout.cookName}s.`,
];

const betweenCooksCaveat = ({ factor, layout }: JudgedFactor): Sentence[] =>
  layout.withinCooks
    ? []
    : [
        [
          `${factor.label} was not tried side by side inside cooks, so something else that changed between cooks can look like drift.`,
        ],
      ];

function run(trial: Trial): Outcome {
  const { trays, settings } = trial;
  const layouts = [generationFactor, cultureAgeFactor].map((factor) => ({
    factor,
    layout: cultureLayout(trays, factor),
  }));
  const unknown = trays.filter((tray) => tray.cultureGeneration === undefined && tray.cultureAgeDays === undefined);
  const excluded =
    unknown.length === 0
      ? []
      : [{ trays: unknown.map(({ trayId }) => trayId), reason: "neither generation nor age of the culture recorded" }];
  const judged = layouts.flatMap(({ factor, layout }) =>
    layout.kind === "judged" ? [{ factor, layout, ...findingsOf(trial, factor, layout) }] : [],
  );
  const refused = layouts.flatMap(({ layout }) => (layout.kind === "not-judged" ? [layout.reason] : []));
  const findings = judged.flatMap((one) => one.findings);
  const none = judged.flatMap((one) => one.none);
  const tables = judged.map(({ factor, layout }) => levelTable(trial, factor, layout));
  if (findings.length === 0) {
    const reasons = [...new Set([...refused.flat().map(String), ...none.flat().map(String)])];
    return noAnswer(
      [`Cannot tell whether the culture is drifting: ${reasons.join("; ").replace(/\.$/, "")}.`],
      unknown.length === trays.length
        ? ["Write down for every jar how many transfers it is from the first culture and how old it was when used."]
        : settle,
      { excluded, tables, missing: cultureMissing(unknown.length < trays.length) },
    );
  }
  const chart = intervalsChart(findings);
  return {
    kind: "answer",
    ...drift(findings, settings.significanceLevel),
    tables,
    charts: chart === undefined ? [] : [chart],
    excluded,
    method: [
      ...judged.map(methodSentence),
      [`Holm's adjustment allows for the ${findings.length} measures looked at.`],
    ],
    caveats: [
      ...judged.flatMap(betweenCooksCaveat),
      ...refused.map((reason): Sentence => ["Not judged: ", ...reason, "."]),
      ...none,
      ...findings.flatMap(({ notes }) => notes),
    ],
  };
}

/** The measures in units as an intervals chart, where they share one unit. */
function intervalsChart(findings: ReadonlyArray<Finding>): Chart | undefined {
  const [first] = findings;
  const rows = findings.filter(({ estimate }) => estimate.unit === first!.estimate.unit);
  return {
    kind: "intervals",
    title: `Change per ${first!.step}`,
    description: rows
      .map(({ label, estimate }) => `${label}: ${estimate.value.toPrecision(3)} ${estimate.unit}`)
      .join("; "),
    unit: first!.estimate.unit,
    valueLabel: `change per ${first!.step}`,
    reference: first!.estimate.unit === "factor" ? 1 : 0,
    rows: rows.map(({ label, estimate }) => ({
      label,
      value: estimate.value,
      low: estimate.low!,
      high: estimate.high!,
    })),
  };
}

/** Whether yield, speed or losses change with the culture's generation or age. */
export const isTheCultureDrifting: Analysis = {
  id: "is-the-culture-drifting",
  name: "Is the culture drifting?",
  question: "Is the culture drifting with transfers or age?",
  needs: ["tray_id"],
  assumes: ["jars were given to trays at random within a cook", "generation and age were written down as they were"],
  topic: "growing",
  headline: false,
  run,
};
