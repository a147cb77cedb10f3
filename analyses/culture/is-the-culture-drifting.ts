import type { Analysis, Chart, Estimate, Outcome, Sentence, Table, Trial } from "../../src/analysis.ts";
import { cultureAgeFactor, type Factor, generationFactor } from "../../src/design/factor.ts";
import { holmAdjustment } from "../../src/statistics/comparisons/p-value-adjustments.ts";
import { inSentence } from "../comparison/level-text.ts";
import { noAnswer } from "../comparison/no-answer.ts";
import { colonisationDays } from "../comparison/tray-days.ts";
import { isFinished, isLost, type TrayResponse, yieldPerGoodTray, yieldWeightOf } from "../comparison/tray-response.ts";
import { cultureFront, cultureMissing } from "./culture-front.ts";
import { type CultureLayout, cultureLayout } from "./culture-layout.ts";
import { cultureLossTrend, cultureTrend } from "./culture-trend.ts";

interface Finding {
  factor: Factor;
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
  "Keep some of the oldest culture, and inoculate half of the trays of each of the next three cooks from it and half from a fresh transfer, two jars of each, drawn at random: then age is told from everything else that changes with time.",
];

/** Every change that could be worked out for one factor. */
function findingsOf(
  trial: Trial,
  factor: Factor,
  layout: Extract<CultureLayout, { kind: "judged" }>,
): { findings: Finding[]; none: Sentence[] } {
  const { intervalLevel: level, seed } = trial.settings;
  const weight = yieldWeightOf(trial.trays);
  const step = factor.key === generationFactor.key ? "generation" : "day of age";
  const responses: { response: TrayResponse; goodWay: 1 | -1 }[] = [
    ...(weight === undefined ? [] : [{ response: yieldPerGoodTray(weight), goodWay: 1 as const }]),
    { response: colonisationDays, goodWay: -1 },
  ];
  const findings: Finding[] = [];
  const none: Sentence[] = [];
  for (const { response, goodWay } of responses) {
    const trend = cultureTrend(layout, response, level);
    if (trend.kind === "none") {
      none.push([`${response.label} by ${inSentence(factor.label)} could not be worked out: ${trend.reason}.`]);
      continue;
    }
    findings.push({
      factor,
      step,
      label: response.label,
      direction: Math.sign(trend.slope),
      worse: trend.slope * goodWay < 0,
      notes: trend.notes,
      estimate: {
        label: `${response.label}, per ${step}`,
        value: trend.slope,
        low: trend.low,
        high: trend.high,
        level,
        unit: `${response.unit}/${step}`,
        n: layout.jars,
        nUnit: layout.jarsRecorded ? "jars" : "groups of trays",
        p: trend.p,
        method: trend.method,
      },
    });
  }
  const losses = cultureLossTrend(layout, level, seed);
  if (losses.kind === "none")
    none.push([`Losses by ${inSentence(factor.label)} could not be worked out: ${losses.reason}.`]);
  else {
    findings.push({
      factor,
      step,
      label: "odds of losing a tray",
      direction: losses.oddsRatio > 1 ? 1 : -1,
      worse: losses.oddsRatio > 1,
      notes: [],
      estimate: {
        label: `odds of losing a tray, times per ${step}`,
        value: losses.oddsRatio,
        low: losses.low,
        high: losses.high,
        level,
        unit: "factor",
        n: layout.jars,
        nUnit: layout.jarsRecorded ? "jars" : "groups of trays",
        p: losses.p,
        method: losses.method,
      },
    });
  }
  return { findings, none };
}

function levelTable(trial: Trial, factor: Factor, layout: Extract<CultureLayout, { kind: "judged" }>): Table {
  const weight = yieldWeightOf(trial.trays);
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
        own.filter(({ tray }) => isFinished(tray) && isLost(tray)).length,
        ...responses.map((response) => {
          const values = own.flatMap(({ tray }) => response.of(tray) ?? []);
          return values.length === 0 ? null : values.reduce((sum, value) => sum + value, 0) / values.length;
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

function run(trial: Trial): Outcome {
  const { trays, settings } = trial;
  const alpha = settings.significanceLevel;
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
  const adjusted = holmAdjustment(findings.map(({ estimate }) => estimate.p!));
  const ranked = findings
    .map((finding, index) => ({ finding, adjustedP: adjusted[index]! }))
    .sort((a, b) => a.finding.estimate.p! - b.finding.estimate.p!);
  const clear = ranked.filter(({ adjustedP }) => adjustedP < alpha).map(({ finding }) => finding);
  const leaning = clear.length === 0 && ranked[0]!.finding.estimate.p! < alpha;
  const told = clear.length > 0 ? clear : [ranked[0]!.finding];
  const worse = clear.some((one) => one.worse);
  const chart: Chart | undefined = intervalsChart(findings);
  return {
    kind: "answer",
    sentence: [
      clear.length === 0
        ? `No drift of the culture is shown${leaning ? ", though one measure comes close" : ""}; strongest is: `
        : worse
          ? "The culture is drifting: "
          : "The culture changes, and not for the worse: ",
      ...told.flatMap((finding, index): Sentence => [...(index === 0 ? [] : ["; "]), ...changeParts(finding)]),
      ".",
    ],
    certainty: clear.length > 0 ? "settled" : leaning ? "leaning" : "open",
    ...cultureFront(told[0]!, clear.length > 0),
    estimates: ranked.map(({ finding }) => finding.estimate),
    tables,
    charts: chart === undefined ? [] : [chart],
    excluded,
    method: [
      ...judged.map(
        ({ factor, layout }): Sentence => [
          `${factor.label}: ${layout.withinCooks ? "compared inside cooks that hold several levels" : "compared between cooks, as it did not simply go up with time"}; ${layout.jars} ${layout.jarsRecorded ? "jars" : "groups of one cook and level (jars are not recorded)"}, each counting as one, in ${layout.cooks} ${layout.cookName}s.`,
        ],
      ),
      [`Holm's adjustment allows for the ${findings.length} measures looked at.`],
    ],
    caveats: [
      ...judged
        .filter(({ layout }) => !layout.withinCooks)
        .map(
          ({ factor }): Sentence => [
            `${factor.label} was not tried side by side inside cooks, so something else that changed between cooks can look like drift.`,
          ],
        ),
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
  experimentalUnit: "culture jar",
  assumes: ["jars were given to trays at random within a cook", "generation and age were written down as they were"],
  topic: "growing",
  headline: false,
  run,
};
