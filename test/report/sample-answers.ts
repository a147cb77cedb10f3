import type { AnsweredQuestion, Chart, Outcome } from "../../src/analysis.ts";

/** A wave in place of a random number, the same on every run, between -1 and 1. */
export const wave = (index: number): number => Math.sin(index * 12.9898 + Math.cos(index * 4.1414) * 3);

const doses = [4, 8, 12, 16];
const cooks = ["Cook A", "Cook B", "Cook C"];
const perDose = 15;

/** Made-up trays of an invented trial: four doses, three cooks. */
const trays = doses.flatMap((dose, place) =>
  Array.from({ length: perDose }, (_, index) => ({
    dose,
    tray: `T${place * perDose + index + 1}`,
    cook: cooks[index % cooks.length]!,
    dry: 9 + 1.1 * dose - 0.045 * dose ** 2 + 1.8 * wave(place * 40 + index),
  })),
);
const meanAt = (dose: number) =>
  trays.filter((tray) => tray.dose === dose).reduce((sum, { dry }) => sum + dry, 0) / perDose;
const doseLine = Array.from({ length: 41 }, (_, index) => 4 + (12 * index) / 40);
const curveAt = (dose: number) => 9 + 1.1 * dose - 0.045 * dose ** 2;

/** One chart of every kind, made up. */
export const sampleCharts = {
  "trays-by-group": {
    kind: "trays-by-group",
    title: "Dry weight of every good tray, by dose",
    description: "Dry weight rises from about 12.7 g at 4 mL to about 15.7 g at 12 mL and then levels off.",
    groupLabel: "Inoculum per tray",
    valueLabel: "Dry weight",
    unit: "g",
    seriesLabel: "Cook",
    points: trays.map(({ dose, tray, cook, dry }) => ({ group: `${dose} mL`, value: dry, tray, series: cook })),
    groups: doses.map((dose) => ({
      group: `${dose} mL`,
      mean: meanAt(dose),
      low: meanAt(dose) - 0.7,
      high: meanAt(dose) + 0.7,
      n: perDose,
    })),
  },
  curve: {
    kind: "curve",
    title: "Dry weight against dose",
    description: "The curve climbs steeply to about 10 mL and is nearly flat from 11 to 14 mL.",
    xLabel: "Inoculum",
    xUnit: "mL",
    yLabel: "Dry weight",
    yUnit: "g",
    x: doseLine,
    y: doseLine.map(curveAt),
  },
  breakdown: {
    kind: "breakdown",
    title: "What a good dry gram is made of",
    description: "Grain and the owner's time make up more than half of the cost.",
    unit: "money/g",
    valueLabel: "Cost",
    parts: [
      { label: "Owner's time", value: 0.0214 },
      { label: "Millet grain", value: 0.0162 },
      { label: "Filter bags", value: 0.0091 },
      { label: "Electricity for the cooker and the fruiting room", value: 0.0063 },
      { label: "Liquid culture", value: 0.0048 },
      { label: "Supplement", value: 0.0037 },
      { label: "Got back for lost trays", value: -0.0011 },
    ],
  },
  "breakdown-groups": {
    kind: "breakdown",
    title: "Cost of a started tray, by dose",
    description: "Culture cost grows with the dose; everything else stays the same.",
    unit: "money",
    valueLabel: "Cost per started tray",
    parts: doses.flatMap((dose) => [
      { label: "Owner's time", value: 0.9, group: `${dose} mL` },
      { label: "Millet grain", value: 0.62, group: `${dose} mL` },
      { label: "Filter bags", value: 0.35, group: `${dose} mL` },
      { label: "Liquid culture", value: 0.04 * dose, group: `${dose} mL` },
    ]),
  },
  "breakdown-own-parts": {
    kind: "breakdown",
    title: "Where the money of a dry gram goes",
    description: "Labour takes most, and within it filling and cooking.",
    unit: "money/g",
    valueLabel: "per good dry gram",
    parts: [
      { label: "filling and cooking", value: 0.021, group: "labour" },
      { label: "picking", value: 0.012, group: "labour" },
      { label: "inoculating", value: 0.004, group: "labour" },
      { label: "millet", value: 0.016, group: "ingredient" },
      { label: "oat bran", value: 0.003, group: "ingredient" },
      { label: "cooker power", value: 0.006, group: "energy" },
      { label: "sold frames", value: -0.002, group: "reusable" },
      { label: "frames", value: 0.003, group: "reusable" },
    ],
  },
  intervals: {
    kind: "intervals",
    title: "Differences between doses",
    description: "4 mL yields less than every other dose; the rest cannot be separated.",
    unit: "g",
    valueLabel: "Difference in dry weight",
    reference: 0,
    rows: [
      { label: "8 mL against 4 mL", value: 2.3, low: 1.1, high: 3.5 },
      { label: "12 mL against 4 mL", value: 3.1, low: 1.9, high: 4.3 },
      { label: "16 mL against 4 mL", value: 2.9, low: 1.7, high: 4.1 },
      { label: "12 mL against 8 mL", value: 0.8, low: -0.4, high: 2.0 },
      { label: "16 mL against 12 mL", value: -0.2, low: -1.4, high: 1.0 },
    ],
  },
  "control-chart": {
    kind: "control-chart",
    title: "Trays lost in each cook",
    description: "Losses are steady except in cook 17, which is above its upper limit.",
    unit: "share",
    valueLabel: "Trays lost",
    orderLabel: "Cook, in the order they were made",
    points: Array.from({ length: 24 }, (_, index) => ({
      order: index + 1,
      label: `Cook ${index + 1}`,
      value: index === 16 ? 0.42 : 0.09 + 0.05 * wave(index),
      centre: 0.1,
      lower: 0,
      upper: 0.26 + (index % 3) * 0.03,
      ...(index === 16 ? { signal: "above the upper limit" } : {}),
    })),
  },
  tornado: {
    kind: "tornado",
    title: "Which input moves the cost of a dry gram most",
    description: "The owner's hourly rate matters most, then yield, then the grain price.",
    unit: "money/g",
    valueLabel: "Cost of a good dry gram",
    centre: 0.0604,
    rows: [
      { label: "Owner's hourly rate", low: 0.049, high: 0.078, lowLabel: "€8/h", highLabel: "€18/h" },
      { label: "Dry yield per tray", low: 0.074, high: 0.052, lowLabel: "11 g", highLabel: "17 g" },
      { label: "Price of grain", low: 0.056, high: 0.067, lowLabel: "€1.10/kg", highLabel: "€2.20/kg" },
      { label: "Share of trays lost", low: 0.0572, high: 0.0661, lowLabel: "4 %", highLabel: "18 %" },
      { label: "Electricity", low: 0.059, high: 0.0622, lowLabel: "€0.22/kWh", highLabel: "€0.41/kWh" },
    ],
  },
  surface: {
    kind: "surface",
    title: "Dry yield over dose and supplement amount",
    description: "The surface is highest at 9 mL with 40 g.",
    xLabel: "Inoculum",
    xUnit: "mL",
    yLabel: "Supplement amount",
    yUnit: "g",
    valueLabel: "dry yield per good tray",
    unit: "g",
    x: Array.from({ length: 12 }, (_, place) => 3 + place),
    y: Array.from({ length: 10 }, (_, place) => 10 + 6 * place),
    values: Array.from({ length: 10 }, (_, up) =>
      Array.from({ length: 12 }, (_, along) => 30 - 0.2 * (along - 6) ** 2 - 0.3 * (up - 5) ** 2),
    ),
    tried: [3, 8, 14].flatMap((x) => [10, 40, 64].map((y) => ({ x, y, trays: 6 }))),
    marks: [{ x: 9, y: 40, label: "highest point" }],
  },
} satisfies Record<string, Chart>;

const bare = { tables: [], charts: [], excluded: [], method: [], caveats: [], estimates: [] };

const doseChangesYield: Outcome = {
  kind: "answer",
  short: ["More liquid culture gives more: ", { value: 12, unit: "mL" }, " against ", { value: 4, unit: "mL" }, "."],
  figure: { label: "dry, a good tray", value: 3.1, unit: "g", from: 0.4, to: 5.8, signed: true },
  strip: { kind: "difference", unit: "g", value: 3.1, from: 0.4, to: 5.8, zero: "no gain" },
  next: [
    { rank: "dose", act: ["Meanwhile use ", { value: 12, unit: "mL" }, "."], because: ["Most dry grams of a tray."] },
    { rank: "doubtful", act: ["Weigh or re-read tray T7."], see: "tray:T7" },
  ],
  certainty: "settled",
  sentence: [
    "Yes: ",
    { value: 12, unit: "mL" },
    " gave ",
    { value: 3.1234, unit: "g", signed: true },
    " more dry mushroom per good tray than ",
    { value: 4, unit: "mL" },
    " (95 % interval ",
    { from: 1.91, to: 4.32, unit: "g" },
    ").",
  ],
  estimates: [
    {
      label: "12 mL against 4 mL",
      value: 3.1234,
      low: 1.91,
      high: 4.32,
      level: 0.95,
      unit: "g",
      n: 30,
      nUnit: "trays",
      p: 0.00004,
      method: "blocked analysis of variance, all pairs",
    },
  ],
  tables: [
    {
      caption: "Dry weight by dose",
      columns: [
        { label: "Inoculum", unit: "mL" },
        { label: "Trays", unit: "factor" },
        { label: "Mean", unit: "g" },
        { label: "Standard deviation", unit: "g" },
        { label: "From", unit: "g" },
        { label: "To", unit: "g" },
        { label: "Lost", unit: "share" },
      ],
      rows: doses.map((dose, place) => [
        dose,
        perDose,
        meanAt(dose),
        1.2 + place * 0.1,
        meanAt(dose) - 0.7,
        meanAt(dose) + 0.7,
        place === 0 ? null : 0.04 * place,
      ]),
      note: "Means of good trays; the share lost is of trays started.",
    },
    {
      caption: "Analysis of variance",
      columns: [
        { label: "Source" },
        { label: "Degrees of freedom", unit: "factor" },
        { label: "Sum of squares", unit: "factor" },
        { label: "Mean square", unit: "factor" },
        { label: "F", unit: "factor" },
        { label: "p", unit: "p" },
      ],
      rows: [
        ["cook", 2, 8.31, 4.155, 2.41, 0.0992],
        ["dose", 3, 88.12, 29.373, 17.04, 0.00000008],
        ["left over", 54, 93.08, 1.7237, null, null],
        ["total", 59, 189.51, null, null, null],
      ],
      totalRows: 1,
    },
  ],
  charts: [sampleCharts["trays-by-group"], sampleCharts.intervals],
  excluded: [
    { trays: ["T61", "T62", "T63"], reason: "still growing" },
    { trays: ["T64"], reason: "no dry weight" },
  ],
  method: [
    ["Dose means were compared within cooks by a blocked analysis of variance."],
    ["All pairs of doses were compared together so that one lucky pair does not count as a finding."],
  ],
  caveats: [["More culture is also more water: the doses differ in both unless the sheet has added liquid."]],
};

/** Questions and made-up answers that use every part of the contract once. */
export const sampleAnswers: AnsweredQuestion[] = [
  {
    id: "does-dose-change-yield",
    name: "Does dose change yield",
    question: "Does the inoculum dose change dry yield?",
    assumes: ["one record per tray", "doses were drawn by lot within each cook"],
    topic: "growing",
    headline: true,
    outcome: doseChangesYield,
    withoutFlagged: {
      trays: ["T7", "T19"],
      sentence: ["Yes: ", { value: 12, unit: "mL" }, " gave ", { value: 2.98, unit: "g", signed: true }, " more."],
      changes: false,
    },
  },
  {
    id: "which-dose-earns-most",
    name: "Which dose earns most",
    question: "Which dose earns the most money?",
    assumes: ["the curve's form holds between the doses tried"],
    topic: "money",
    headline: true,
    outcome: {
      ...bare,
      kind: "answer",
      certainty: "leaning",
      sentence: [
        "About ",
        { value: 11.4, unit: "mL" },
        " a tray earns most, ",
        { value: 4.12, unit: "money/tray" },
        "; anything from ",
        { from: 10.1, to: 12.9, unit: "mL" },
        " earns nearly as much.",
      ],
      charts: [sampleCharts.curve],
      estimates: [
        {
          label: "Best dose",
          value: 11.4,
          low: 9.8,
          high: 13.7,
          level: 0.95,
          unit: "mL",
          n: 60,
          nUnit: "trays",
          method: "quadratic response, bootstrap by tray within cook",
        },
      ],
      method: [["Three forms of curve were fitted and the spread between them is in the interval."]],
    },
    withoutFlagged: {
      trays: ["T7", "T19"],
      sentence: ["Cannot tell which dose earns most, because the curve is not bent enough."],
      changes: true,
    },
  },
  {
    id: "what-does-a-gram-cost",
    name: "What does a gram cost",
    question: "What does a good dry gram cost?",
    assumes: ["every cost line is in costs.csv"],
    topic: "money",
    headline: true,
    outcome: {
      ...bare,
      kind: "answer",
      certainty: "settled",
      sentence: [
        "A good dry gram cost ",
        { value: 0.0604, unit: "money/g" },
        ", losses included; ",
        { value: 0.358, unit: "share" },
        " of it is your own time.",
      ],
      charts: [
        sampleCharts.breakdown,
        sampleCharts["breakdown-groups"],
        sampleCharts["breakdown-own-parts"],
        sampleCharts.tornado,
      ],
      tables: [
        {
          caption: "Cost of a good dry gram by cost line",
          columns: [
            { label: "Line" },
            { label: "Per started tray", unit: "money" },
            { label: "Per good dry gram", unit: "money/g" },
            { label: "Share", unit: "share" },
          ],
          rows: [
            ["Owner's time", 0.3, 0.0214, 0.354],
            ["Millet grain", 0.227, 0.0162, 0.268],
            ["Filter bags", 0.127, 0.0091, 0.151],
            ["All lines", 0.846, 0.0604, 1],
          ],
          totalRows: 1,
        },
      ],
    },
  },
  {
    id: "does-dose-change-days",
    name: "Does dose change days",
    question: "Does the dose change days to colonise?",
    assumes: [],
    topic: "growing",
    headline: true,
    outcome: {
      ...bare,
      kind: "answer",
      certainty: "open",
      sentence: ["Open: ", { value: 0.8, unit: "days", signed: true }, " either way would fit these trays."],
      charts: [sampleCharts.curve],
    },
  },
  {
    id: "are-losses-rising",
    name: "Are losses rising",
    question: "Are losses rising?",
    assumes: [],
    topic: "growing",
    headline: false,
    outcome: {
      ...bare,
      kind: "answer",
      certainty: "settled",
      sentence: ["One cook stands out: Cook 17 lost ", { value: 0.42, unit: "share" }, " of its trays."],
      charts: [sampleCharts["control-chart"]],
    },
  },
  {
    id: "does-temperature-change-yield",
    name: "Does temperature change yield",
    question: "Does fruiting temperature change yield?",
    assumes: ["chambers are alike apart from temperature"],
    topic: "growing",
    headline: true,
    outcome: {
      ...bare,
      kind: "cannot-tell",
      reason: ["Cannot tell whether temperature changes yield, because each temperature had one room only."],
      wouldSettle: ["Swap the temperatures of the two rooms for one more round: ", { value: 24, unit: "trays" }, "."],
      excluded: [
        { trays: Array.from({ length: 40 }, (_, index) => `T${index + 1}`), reason: "no fruiting temperature" },
      ],
    },
  },
];
