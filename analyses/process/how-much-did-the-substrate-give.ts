import type { Analysis, CannotTell, Excluded, Outcome, Sentence, Table, Trial } from "../../src/analysis.ts";
import type { Factor } from "../../src/design/factor.ts";
import { biologicalEfficiency, productivity, yieldOnWetSubstrate } from "../../src/measures/biological-efficiency.ts";
import { counted } from "../../src/records/counted.ts";
import { grouped } from "../../src/records/grouped.ts";
import type { Tray } from "../../src/records/tray.ts";
import { inSentence, levelLabel } from "../comparison/level-text.ts";
import { noAnswer } from "../comparison/no-answer.ts";
import { harvestDays } from "../comparison/tray-days.ts";
import { ratioOverCooks } from "../costs/ratio-over-cooks.ts";
import { thingsOf } from "../treatment/treatment-decision.ts";
import { type SubstrateGap, type SubstrateTray, substrateTrays } from "./dry-substrate.ts";

const sumOf = (trays: ReadonlyArray<SubstrateTray>, of: (tray: SubstrateTray) => number): number =>
  trays.reduce((sum, tray) => sum + of(tray), 0);

const efficiencyOf = (trays: ReadonlyArray<SubstrateTray>): number =>
  biologicalEfficiency(
    sumOf(trays, ({ freshGrams }) => freshGrams),
    sumOf(trays, ({ dryGrams }) => dryGrams),
  );

/** Fresh weight as a share of wet substrate, over the good trays that were weighed wet at filling. */
function onWetSubstrate(good: ReadonlyArray<Tray>): number | undefined {
  const weighed = good.filter(({ substrateWetGrams, freshGrams }) => substrateWetGrams && freshGrams !== undefined);
  if (weighed.length === 0) return undefined;
  const total = (of: (tray: Tray) => number): number => weighed.reduce((sum, tray) => sum + of(tray), 0);
  return yieldOnWetSubstrate(
    total(({ freshGrams }) => freshGrams!),
    total(({ substrateWetGrams, traysInPool }) => substrateWetGrams! * traysInPool),
  );
}

/** Mean biological efficiency gained per day from inoculation to harvest; undefined where no tray has its days. */
function perDay(good: ReadonlyArray<SubstrateTray>): number | undefined {
  const each = good.flatMap(({ tray, freshGrams, dryGrams }) => {
    const days = harvestDays.of(tray);
    return days === undefined || days <= 0 ? [] : [productivity(biologicalEfficiency(freshGrams, dryGrams), days)];
  });
  return each.length === 0 ? undefined : each.reduce((sum, one) => sum + one, 0) / each.length;
}

/** The same figures for each level of what the book is about. */
function levelTable(good: ReadonlyArray<SubstrateTray>, { factor }: { factor: Factor }): Table {
  const byLevel = grouped(good, ({ tray }) => factor.level(tray));
  const levels = [...byLevel].sort(([a], [b]) => a.localeCompare(b, "en", { numeric: true }));
  return {
    caption: `Biological efficiency by ${inSentence(factor.label)}`,
    columns: [
      { label: factor.label },
      { label: "good", unit: "trays" },
      { label: "biological efficiency", unit: "share" },
      { label: "of wet substrate", unit: "share" },
      { label: "a day", unit: "share" },
    ],
    rows: levels.map(([level, trays]) => [
      levelLabel(factor, level),
      sumOf(trays, ({ tray }) => tray.traysInPool),
      efficiencyOf(trays),
      onWetSubstrate(trays.map(({ tray }) => tray)) ?? null,
      perDay(trays) ?? null,
    ]),
    note: "As the trays came, lost ones left out. Whether levels differ is for the yield answer to say.",
  };
}

const leftOut = (gaps: ReadonlyMap<SubstrateGap, ReadonlyArray<Tray>>): Excluded[] =>
  [...gaps].map(([reason, trays]) => ({ trays: trays.map(({ trayId }) => trayId), reason }));

/** Without dry weights there is no biological efficiency; the share of wet substrate is said under its own name. */
function withoutDryWeights(trial: Trial, gaps: ReadonlyMap<SubstrateGap, ReadonlyArray<Tray>>): CannotTell {
  const wet = onWetSubstrate(trial.trays.filter(({ outcome }) => outcome === "good"));
  const [reason] = [...gaps].sort(([, a], [, b]) => b.length - a.length)[0] ?? ["no finished tray"];
  return noAnswer(
    [`Cannot tell the biological efficiency: ${reason}.`],
    ["Write down grain and supplement per tray, as weighed before cooking."],
    {
      missing: { kind: "record", need: "grain and supplement per tray, weighed before cooking" },
      excluded: leftOut(gaps),
      caveats:
        wet === undefined
          ? []
          : [
              [
                "Good trays gave ",
                { value: wet, unit: "share", digits: 3 },
                " of their wet substrate. That is not biological efficiency, which goes by dry weight.",
              ],
            ],
    },
  );
}

function baseOf({ settings }: Trial, known: ReadonlyArray<SubstrateTray>): Sentence {
  const isGrainAlone = known.every(({ tray }) => !tray.supplementGrams);
  return [
    "Biological efficiency is fresh weight over the dry weight of the substrate at filling: air-dry grain less ",
    { value: settings.grainMoisture, unit: "share" },
    " water",
    ...(isGrainAlone
      ? []
      : [", and supplement less ", { value: settings.supplementMoisture, unit: "share" } as const, " water"]),
    isGrainAlone ? " (grain_moisture in settings.csv)." : " (grain_moisture and supplement_moisture in settings.csv).",
  ];
}

const wetSentence = (share: number): Sentence => [
  "Of the wet substrate, good trays gave ",
  { value: share, unit: "share", digits: 3 },
  ".",
];

function run(trial: Trial): Outcome {
  const { trays, settings } = trial;
  const { known, gaps } = substrateTrays(trays, settings);
  const good = known.filter(({ tray }) => tray.outcome === "good");
  if (good.length === 0) return withoutDryWeights(trial, gaps);
  const level = settings.intervalLevel;
  const ratio = ratioOverCooks(
    good.map(({ tray, freshGrams, dryGrams }) => ({ tray, numerator: freshGrams, denominator: dryGrams })),
    level,
  );
  const { value, low, high, units, unitName } = ratio;
  const range = low === undefined || high === undefined ? undefined : { low: Math.max(0, low), high };
  const ends = range === undefined ? {} : { from: range.low, to: range.high };
  const [main] = thingsOf(trial);
  const wet = onWetSubstrate(good.map(({ tray }) => tray));
  const count = sumOf(good, ({ tray }) => tray.traysInPool);
  return {
    kind: "answer",
    certainty: "measured",
    short: ["Fresh mushrooms for the dry weight of grain and supplement."],
    figure: { label: "of good trays", value, unit: "share", ...ends },
    strip: { kind: "amount", unit: "share", value, ...ends },
    sentence: [
      "Biological efficiency was ",
      { value, unit: "share", digits: 3 },
      ...(range === undefined ? [] : [" (", { from: range.low, to: range.high, unit: "share" } as const, ")"]),
      `, over ${counted(count, "good tray")}${unitName === "cooks" ? ` of ${units} cooks` : ""}.`,
    ],
    estimates: [
      {
        label: "biological efficiency, good trays",
        value,
        ...range,
        level,
        unit: "share",
        n: units,
        nUnit: unitName,
        method: "ratio of sums, Fieller's interval",
      },
    ],
    tables: main === undefined ? [] : [levelTable(good, main)],
    charts: [],
    excluded: leftOut(gaps),
    method: [
      baseOf(trial, known),
      [`Range by Fieller's method for a ratio of sums, over ${units} ${unitName}: ${ratio.says}.`],
    ],
    caveats: [
      ["With lost trays counted as nothing it was ", { value: efficiencyOf(known), unit: "share", digits: 3 }, "."],
      ...(wet === undefined ? [] : [wetSentence(wet)]),
    ],
  };
}

/** Yield in the trade's first figure: fresh mushrooms for the dry weight of the substrate. */
export const howMuchDidTheSubstrateGive: Analysis = {
  id: "how-much-did-the-substrate-give",
  name: "Biological efficiency",
  question: "How much fresh weight did the dry substrate give?",
  needs: ["tray_id", "fresh_g", "grain_dry_g"],
  assumes: ["what is typed as grain and supplement was weighed air-dry"],
  topic: "growing",
  headline: false,
  run,
};
