import type { Sentence, Trial } from "../../src/analysis.ts";
import { startedCount } from "../../src/design/arm.ts";
import { daysBetween } from "../../src/measures/day-number.ts";
import { counted } from "../../src/records/counted.ts";
import { yieldWeightOf } from "../../src/records/yield-weight.ts";
import { mean } from "../../src/statistics/descriptive/mean.ts";
import { type PlaceMoney, placeMoney } from "../process/flush-money.ts";
import { freshTrays, laterFlushes } from "../process/flush-shares.ts";
import type { DueTray, DueTrays } from "./due-trays.ts";

/** What is left in a late or picked tray, against its place. Money until it would be picked. */
export interface KeepOrBin {
  trayId: string;
  advice: "keep" | "bin";
  /** days it is expected to stand still */
  days: number;
  /** expected money of waiting, net of what its days and grams cost */
  waiting: number;
  /** what new trays leave in its place in those days; 0 where places are free anyway */
  place: number;
}

/** One is clear where it is this many times the other, money and chance alike. Common practice, no source. */
const clear = 2;

/** Mean grams of a first and of a later picking of this book's trays. */
function gramsOf(trial: Trial, weight: "dry" | "fresh") {
  const first = freshTrays(trial.trays, weight).filter(({ grams }) => grams > 0);
  const later = trial.trays.flatMap((tray) => {
    const row = tray.outcome === "good" ? laterFlushes(tray, weight) : undefined;
    return row === undefined || typeof row === "string" ? [] : [row.laterGrams / row.pickings];
  });
  const meanOf = (values: number[]) => (values.length < 3 ? undefined : mean(values));
  return { first: meanOf(first.map(({ grams }) => grams)), later: meanOf(later) };
}

/** Days from colonised to the first picking, on average; 0 where dates do not tell. */
function daysAfterColonised(trays: Trial["trays"]): number {
  const days = trays.flatMap(({ colonisedOn, harvestedOn, outcome }) =>
    outcome !== "good" || colonisedOn === undefined || harvestedOn === undefined || harvestedOn < colonisedOn
      ? []
      : [daysBetween(colonisedOn, harvestedOn)],
  );
  return days.length === 0 ? 0 : days.reduce((sum, one) => sum + one, 0) / days.length;
}

function judge(
  { tray, next, lossChance, again }: DueTray,
  on: number,
  grams: ReturnType<typeof gramsOf>,
  { left, costPerShelfDay, newTrayPerDay }: PlaceMoney,
  { isFull, afterColonised }: { isFull: boolean; afterColonised: number },
): KeepOrBin[] {
  const own = next.step === "flush" ? grams.later : grams.first;
  const nothing = again === undefined ? lossChance : 1 - again;
  if (own === undefined || nothing === undefined || next.likely === undefined) return [];
  // a late tray is taken to need as long again as it is late (common practice, no source)
  const toNext = Math.max(1, next.likely - on, on - next.late);
  const days = Math.round(toNext + (next.step === "colonise" || next.step === "move" ? afterColonised : 0));
  const waiting = (1 - nothing) * own * left - days * costPerShelfDay;
  const place = isFull ? Math.max(0, newTrayPerDay * days) : 0;
  const advice =
    again !== undefined && waiting > clear * place && waiting > 0 && 1 - nothing >= clear * nothing
      ? "keep"
      : waiting * clear < place || waiting < 0
        ? "bin"
        : undefined;
  return advice === undefined ? [] : [{ trayId: tray.trayId, advice, days, waiting, place }];
}

/**
 * Which late trays, and which picked ones that may give another flush, are worth their place: the expected money of the
 * next picking against what new trays leave in the same place in as many days. Only where one is twice the other. A late tray
 * is never advised to be kept: in simulated years such trays had all been lost unnoticed.
 * @returns nothing where the book has no prices or costs
 */
export function keepOrBin(trial: Trial, { trays, flushes, day }: DueTrays): KeepOrBin[] {
  const weight = yieldWeightOf(trial);
  const asked = [...trays.filter(({ state }) => state === "overdue" || state === "lost"), ...flushes];
  if (weight === undefined || asked.length === 0) return [];
  const money = placeMoney(trial, weight, freshTrays(trial.trays, weight));
  if (money.kind === "cannot-tell" || !Number.isFinite(money.newTrayPerDay)) return [];
  const growing = startedCount(trial.trays.filter(({ outcome }) => outcome === "growing"));
  const isFull = growing + flushes.length >= trial.settings.shelfPlaces;
  const grams = gramsOf(trial, weight);
  const around = { isFull, afterColonised: daysAfterColonised(trial.trays) };
  return asked.flatMap((one) => judge(one, day.on, grams, money, around));
}

/**
 * The advice in words, trays of one advice and one figure together.
 * @param most rows at most
 */
export function keepOrBinSays(rows: ReadonlyArray<KeepOrBin>, most: number): Sentence[] {
  const groups = new Map<string, { first: KeepOrBin; names: string[] }>();
  for (const row of rows) {
    const key = [row.advice, row.days, row.waiting.toFixed(2), row.place.toFixed(2)].join(" ");
    const group = groups.get(key) ?? { first: row, names: [] };
    group.names.push(row.trayId);
    groups.set(key, group);
  }
  return [...groups.values()]
    .sort(
      (a, b) =>
        Math.abs(b.first.waiting - b.first.place) * b.names.length -
        Math.abs(a.first.waiting - a.first.place) * a.names.length,
    )
    .slice(0, most)
    .map(({ first, names }): Sentence => {
      const who = names.length <= 3 ? names.join(", ") : `${names[0]} and ${names.length - 1} more`;
      return [
        `${first.advice === "keep" ? "Keep" : "Better bin"} ${who}: waiting ${counted(first.days, "day")} leaves `,
        { value: first.waiting, unit: "money" },
        names.length === 1 ? "" : " each",
        ...(first.place > 0
          ? [", new trays in its place ", { value: first.place, unit: "money" }, "."]
          : [", and no place is short."]),
      ];
    });
}
