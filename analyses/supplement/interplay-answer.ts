import type { Answer, Estimate, Sentence, Trial } from "../../src/analysis.ts";
import type { Interaction, Level } from "../../src/decisions/verdict/index.ts";
import type { Factor } from "../../src/design/factor.ts";
import { inSentence, levelLabel } from "../comparison/level-text.ts";
import { capNotes } from "../treatment/decision-notes.ts";
import { levelOf } from "../treatment/verdict-words.ts";
import { type Crossed, rolesOf } from "./crossed.ts";
import { apartTable, cellChart, cellTable, surfaceChart } from "./interplay-tables.ts";
import { interplayFront, type Judged } from "./supplement-fronts.ts";
import type { TwoAmounts } from "./two-amounts.ts";

type Change = Interaction["changes"][number];

const largestOf = ({ changes }: Interaction): Change =>
  changes.reduce((a, b) => (Math.abs(b.estimate) > Math.abs(a.estimate) ? b : a));

/** The most one thing may change what the other does, by the limits. */
const mostPossible = ({ changes }: Interaction): number =>
  Math.max(...changes.map(({ interval }) => Math.max(Math.abs(interval.lower), Math.abs(interval.upper))));

/** "going from 3 mL to 12 mL, fine in place of coarse adds +5 g (-1 to +10 g)" */
function changeWords(crossed: Crossed, interaction: Interaction): Sentence {
  const { ends, at } = rolesOf(crossed, interaction);
  const { from, to, estimate, interval } = largestOf(interaction);
  const { unit } = crossed.dose.response;
  return [
    "going from ",
    levelOf(ends, interaction.from),
    " to ",
    levelOf(ends, interaction.to),
    ", ",
    levelOf(at, to),
    " in place of ",
    levelOf(at, from),
    " adds ",
    { value: estimate, unit, signed: true, digits: 2 },
    " (",
    { from: interval.lower, to: interval.upper, unit, signed: true },
    ")",
  ];
}

/** What the dose did at each level, once the two are settled to depend on one another. */
function apartWords(crossed: Crossed, interaction: Interaction): Sentence {
  const { at } = rolesOf(crossed, interaction);
  const said = interaction.apart.flatMap(({ at: level, decision: { difference, verdict } }) =>
    difference === undefined ? [] : [{ level, difference, verdict }],
  );
  return said.flatMap(
    ({ level, difference, verdict }, place): Sentence => [
      place === 0 ? " With " : "; with ",
      levelOf(at, level),
      ": ",
      { value: difference.estimate, unit: crossed.dose.response.unit, signed: true, digits: 2 },
      ` (${verdict === "open" ? "not known yet" : verdict})`,
      place === said.length - 1 ? "." : "",
    ],
  );
}

/** Apart is only said where the limits leave no change that matters. */
function judgedOf(trial: Trial, { dose }: Crossed, interaction: Interaction): { judged: Judged; margin: number } {
  const values = dose.gathered.trays.flatMap(({ value }) => (value === "lost" ? [] : [value]));
  const mean = values.reduce((sum, value) => sum + value / values.length, 0);
  const margin = trial.settings.worthwhileShare * Math.abs(mean);
  const small = mostPossible(interaction) <= margin && interaction.caps.length === 0;
  return { judged: small ? "apart" : interaction.verdict === "settled" ? "together" : "open", margin };
}

function sentenceOf(
  trial: Trial,
  crossed: Crossed,
  interaction: Interaction,
  judged: Judged,
  isLowered: boolean,
): Sentence {
  const what = inSentence(crossed.second.factor.label);
  const { unit } = crossed.dose.response;
  const most = { value: mostPossible(interaction), unit, digits: 2 } as const;
  if (judged === "apart") {
    return [
      `Dose and ${what} can be judged apart: one changes what the other does by no more than `,
      most,
      ", less than ",
      { value: trial.settings.worthwhileShare, unit: "share" },
      " of a tray.",
    ];
  }
  const change = changeWords(crossed, interaction);
  if (judged === "open") {
    return [
      `No interplay of dose and ${what} is shown, but one of up to `,
      most,
      " a tray is not ruled out: ",
      ...change,
      ".",
    ];
  }
  return [
    `Dose and ${what} ${isLowered ? "seem to depend on one another" : "have to be judged together"}: `,
    ...change,
    ".",
    ...(isLowered ? [] : apartWords(crossed, interaction)),
  ];
}

function estimatesOf(crossed: Crossed, interaction: Interaction): Estimate[] {
  const { ends, at } = rolesOf(crossed, interaction);
  const label = (factor: Factor, level: Level) => levelLabel(factor, String(level));
  return interaction.changes.map(({ from, to, estimate, interval }) => ({
    label: `change of the difference of ${label(ends, interaction.to)} and ${label(ends, interaction.from)}, ${label(at, to)} against ${label(at, from)}`,
    value: estimate,
    low: interval.lower,
    high: interval.upper,
    level: 0.95,
    unit: crossed.dose.response.unit,
    n: interaction.cooks,
    nUnit: "cooks",
    method: "differences of each cook, compared over cooks",
  }));
}

/** The answer of two things that enough cooks had together. */
export function interplayAnswer(
  trial: Trial,
  crossed: Crossed,
  interaction: Interaction,
  surface: TwoAmounts | undefined,
): Answer {
  const { judged } = judgedOf(trial, crossed, interaction);
  const { estimate: value, interval } = largestOf(interaction);
  const { p, caps, significance, cooks } = interaction;
  const what = inSentence(crossed.second.factor.label);
  const said = (isLowered: boolean) => ({
    sentence: sentenceOf(trial, crossed, interaction, judged, isLowered),
    ...interplayFront(
      { value, low: interval.lower, high: interval.upper },
      crossed.dose.response.unit,
      what.replace("supplement grade", "grade"),
      isLowered ? "open" : judged,
    ),
  });
  return {
    kind: "answer",
    certainty: judged === "open" ? "open" : "settled",
    ...said(false),
    ...(judged === "together" ? { lowered: said(true) } : {}),
    // that no change matters is said by its limits: no test of this report could lower it
    ...(judged === "apart" ? {} : { test: { p, caps } }),
    estimates: estimatesOf(crossed, interaction),
    tables: [cellTable(crossed), apartTable(crossed, interaction)],
    charts: [cellChart(crossed), ...(surface === undefined ? [] : [surfaceChart(surface, crossed)])],
    excluded: crossed.dose.gathered.excluded,
    method: [
      [
        `Each cook's difference of the two ends at every level of the other, compared over ${cooks} cooks that had them all: p `,
        { value: p, unit: "p" },
        "; settled below ",
        { value: significance, unit: "p" },
        ". Limits of several changes hold together (Bonferroni).",
      ],
    ],
    caveats: [
      ...caps.flatMap(({ reason }) => (capNotes[reason] === undefined ? [] : [[capNotes[reason]]])),
      ["An interplay takes about four times as many trays to see as an effect of the same size."],
    ],
  };
}
