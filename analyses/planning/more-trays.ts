import type { Chart, Table } from "../../src/analysis.ts";
import { chanceToShow, furtherCooks, type PowerInput } from "./trial-power.ts";

/** Chance of showing what is there that a trial is planned for. */
export const wantedChance = 0.8;

/** A difference that might be looked for. */
export interface Sought {
  label: string;
  grams: number;
}

/** What is planned on top of what is there; `moreCooks` is what the questions below vary. */
export interface MoreTraysInput extends Omit<PowerInput, "moreCooks"> {
  /** grams of a tray */
  mean: number;
  /** trays of each of the two doses there already */
  traysPerDoseSoFar: number;
  wanted: number;
}

/** How many cooks and trays would show a difference. */
export interface MoreNeeded {
  moreCooks: number;
  moreTraysPerDose: number;
}

export function moreNeeded(difference: number, input: MoreTraysInput): MoreNeeded | undefined {
  const moreCooks = furtherCooks(difference, input.wanted, input);
  return moreCooks === undefined ? undefined : { moreCooks, moreTraysPerDose: moreCooks * input.traysPerDose };
}

/** For several differences: the chance now, and what would bring it to what is wanted. */
export function differenceTable(sought: ReadonlyArray<Sought>, input: MoreTraysInput): Table {
  return {
    caption: "How many more trays, by the difference there is to find",
    columns: [
      { label: "difference" },
      { label: "grams a tray", unit: "g" },
      { label: "share of a tray", unit: "share" },
      { label: "chance with the trays there are", unit: "share" },
      { label: "further cooks", unit: "cooks" },
      { label: "further trays per dose", unit: "trays" },
      { label: "trays per dose in all", unit: "trays" },
    ],
    rows: sought.map(({ label, grams }) => {
      const needed = moreNeeded(grams, input);
      const chance = chanceToShow(grams, { ...input, moreCooks: 0 });
      const share = input.mean === 0 ? null : grams / Math.abs(input.mean);
      return needed === undefined
        ? [label, grams, share, chance, null, null, null]
        : [
            label,
            grams,
            share,
            chance,
            needed.moreCooks,
            needed.moreTraysPerDose,
            input.traysPerDoseSoFar + needed.moreTraysPerDose,
          ];
    }),
    note: `For a chance of ${Math.round(input.wanted * 100)}% to show it, with ${input.traysPerDose} trays of each of ${input.doses} doses in every further cook. An empty cell: not within 400 cooks.`,
  };
}

/** Chance of showing one difference, by trays per dose in a cook and number of further cooks. */
export function chanceTable(
  difference: number,
  input: MoreTraysInput,
  traysPerDose: ReadonlyArray<number>,
  cooks: ReadonlyArray<number>,
): Table {
  return {
    caption: "Chance of showing the worthwhile difference, by further cooks and trays per dose in each",
    columns: [
      { label: "trays per dose in a cook", unit: "trays" },
      ...cooks.map((count) => ({ label: count === 1 ? "1 further cook" : `${count} further cooks`, unit: "share" })),
    ],
    rows: traysPerDose.map((trays) => [
      trays,
      ...cooks.map((moreCooks) => chanceToShow(difference, { ...input, traysPerDose: trays, moreCooks })),
    ]),
    note: "Trays already in the book are counted in.",
  };
}

/** The chance over the trays per dose in all, one line per difference. */
export function chanceChart(sought: ReadonlyArray<Sought>, input: MoreTraysInput, mostCooks: number): Chart {
  const cooks = Array.from({ length: mostCooks + 1 }, (_, moreCooks) => moreCooks);
  const curves = sought.map(({ label, grams }) => ({
    name: `${label}: ${grams.toPrecision(3)} g`,
    x: cooks.map((moreCooks) => input.traysPerDoseSoFar + moreCooks * input.traysPerDose),
    y: cooks.map((moreCooks) => chanceToShow(grams, { ...input, moreCooks })),
  }));
  return {
    kind: "curve",
    title: "Chance of showing a difference, by trays per dose",
    description: curves
      .map(
        ({ name, y }) => `${name}: ${Math.round(100 * y[0]!)}% now, ${Math.round(100 * y.at(-1)!)}% at the right end`,
      )
      .join("; "),
    xLabel: "trays per dose, those already there included",
    xUnit: "trays",
    yLabel: "chance of showing it",
    yUnit: "share",
    points: [],
    curves,
  };
}
