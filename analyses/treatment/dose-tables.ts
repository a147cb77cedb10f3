import type { Chart, Estimate, Table } from "../../src/analysis.ts";
import type { SeenDose } from "../../src/decisions/dose/index.ts";
import { inSentence, levelLabel } from "../comparison/level-text.ts";
import type { BookDose, NoBookDose } from "./book-dose-decision.ts";
import { doseCell, isAdvised, leftLabel, leftUnit } from "./dose-words.ts";

/** The one table of what was seen and what is expected: the doses tried, and the dose to use. */
export function doseTable(of: BookDose): Table {
  const { thing, weight, decision } = of;
  const unit = leftUnit(of);
  const seen = new Map(decision.seen.map((one) => [one.dose, one]));
  const rows = decision.expected.filter(({ dose, tested }) => tested || dose === decision.use.dose);
  const money = decision.priced;
  return {
    caption: `Seen and expected by ${inSentence(thing.factor.label)}`,
    columns: [
      { label: thing.factor.label, unit: thing.factor.unit || undefined },
      { label: "finished", unit: "trays" },
      { label: "lost", unit: "trays" },
      { label: `seen, ${weight} a good tray`, unit: "g" },
      { label: `expected, ${weight} a good tray`, unit: "g" },
      { label: `seen, ${leftLabel(of)}`, unit },
      { label: `expected, ${leftLabel(of)}`, unit },
      { label: "from", unit },
      { label: "to", unit },
      { label: `chance it ${money ? "leaves" : "yields"} less than the dose to use`, unit: "share" },
      { label: "gives up on average", unit },
    ],
    rows: rows.map(({ dose, grams, left, chanceBelowUse, givesUp }) => {
      const own = seen.get(dose);
      return [
        own === undefined ? dose : doseCell(own),
        own?.trays ?? null,
        own?.lost ?? null,
        own?.grams?.mean ?? null,
        grams.mean,
        own?.left?.mean ?? null,
        left.mean,
        left.low,
        left.high,
        dose === decision.use.dose ? null : chanceBelowUse,
        dose === decision.use.dose ? null : givesUp,
      ];
    }),
    note: `Seen is these trays; expected leans on all doses, so a lucky dose is pulled in.${money ? " Left: income net of fees, packing, sending and drying, less every other cost of costs.csv; lost trays with their cost." : ""}`,
  };
}

/** What was seen of each dose, where nothing more can be said. */
export function seenTable(of: NoBookDose): Table[] {
  const { thing, weight, found } = of;
  if (thing === undefined || weight === undefined || found === undefined || found.seen.length === 0) return [];
  const unit = of.priced ? "money" : "g";
  return [
    {
      caption: `Seen by ${inSentence(thing.factor.label)}`,
      columns: [
        { label: thing.factor.label, unit: thing.factor.unit || undefined },
        { label: "finished", unit: "trays" },
        { label: "lost", unit: "trays" },
        { label: `seen, ${weight} a good tray`, unit: "g" },
        { label: of.priced ? "seen, left of a started tray" : `seen, ${weight} a started tray`, unit },
      ],
      rows: found.seen.map((one: SeenDose) => [
        doseCell(one),
        one.trays,
        one.lost,
        one.grams?.mean ?? null,
        one.left?.mean ?? null,
      ]),
      note: "Means of these trays alone.",
    },
  ];
}

/** What a started tray leaves over dose: what was seen, what is expected, and the doses that may be best. */
export function doseChart(of: BookDose): Chart {
  const { thing, decision } = of;
  const { seen, expected, use, asGood, notRuledOut } = decision;
  const label = leftLabel(of);
  const named = (dose: number): string => levelLabel(thing.factor, String(Number(dose.toPrecision(4))));
  return {
    kind: "doses",
    title: `${label.charAt(0).toUpperCase()}${label.slice(1)}, by ${inSentence(thing.factor.label)}`,
    description: `${isAdvised(of) ? `The dose to use is ${named(use.dose)}; doses` : "Doses"} from ${named(notRuledOut.low)} to ${named(notRuledOut.high)} are not ruled out. Circles are what was seen, the band what is expected.`,
    valueLabel: label,
    unit: leftUnit(of),
    doseUnit: thing.factor.unit,
    doses: seen.map(({ dose, trays, lost, left }) => ({
      dose,
      trays,
      lost,
      ...(left === undefined ? {} : { mean: left.mean }),
      ...(left?.low === undefined || left.high === undefined ? {} : { low: left.low, high: left.high }),
    })),
    curve: {
      x: expected.map(({ dose }) => dose),
      y: expected.map(({ left }) => left.mean),
      low: expected.map(({ left }) => left.low),
      high: expected.map(({ left }) => left.high),
    },
    ...(isAdvised(of) ? { use: use.dose } : {}),
    ...(isAdvised(of) && asGood !== undefined ? { asGood: { from: asGood.low, to: asGood.high } } : {}),
    notRuledOut: { from: notRuledOut.low, to: notRuledOut.high },
  };
}

/** The figures of the decision, by the names under which every answer gives them. */
export function doseEstimates(of: BookDose): Estimate[] {
  const { thing, decision } = of;
  const { use, notRuledOut, risk } = decision;
  const trays = decision.seen.reduce((sum, one) => sum + one.trays, 0);
  const base = { n: trays, nUnit: "trays", method: "curves drawn from an average of candidate shapes" };
  return [
    {
      label: "dose to use",
      value: use.dose,
      low: notRuledOut.low,
      high: notRuledOut.high,
      level: notRuledOut.coverage,
      unit: thing.factor.unit,
      ...base,
    },
    {
      label: `${leftLabel(of)} at the dose to use`,
      value: use.left.mean,
      low: use.left.low,
      high: use.left.high,
      level: 0.95,
      unit: leftUnit(of),
      ...base,
    },
    { label: "given up for not knowing better", value: risk.mean, level: 0.95, unit: leftUnit(of), ...base },
  ];
}
