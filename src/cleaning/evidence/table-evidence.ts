import type { RawTable } from "../../records/sheet.ts";
import { type ColumnPlan, quantityKindOf } from "../columns/column-plan.ts";
import { type DateReading, parseDate } from "../dates/parse-date.ts";
import type { QuantityKind } from "../values/quantity-reading.ts";
import { type CellTraits, cellTraits } from "./cell-traits.ts";
import { dashedNumbers, dateOrderEvidence } from "./date-order-evidence.ts";
import { isLikely, temperatureScale } from "./likely-ranges.ts";
import { inUnit, massUnits, volumeUnits } from "./unit-factors.ts";

/** What the cells of one column of numbers agree on. */
export interface QuantityEvidence {
  points: number;
  commas: number;
  /** cells with several amounts and commas between them */
  lists: number;
  /** cells by the unit they state */
  units: Map<string, number>;
  /** numbers without a unit, other than 0 */
  bare: number;
  /** of those, how many are possible for one tray in each unit */
  likely: Map<string, number>;
  /** of those, by the temperature scales they can be on */
  scales: { C: number; F: number; either: number; neither: number };
  aboveOne: number;
}

/** What the dates of one column agree on. */
export interface DateEvidence {
  dayFirst: number;
  monthFirst: number;
  ambiguous: number;
  serials: number;
  /** earliest and latest of the dates read beyond doubt, "" when there is none */
  first: string;
  last: string;
  firstSerial: string;
  lastSerial: string;
  /** absent where there are none */
  dashed?: DashedDates;
}

/** Dates such as "26-01-14": the reach of their first and last numbers, and what their other numbers show. */
export interface DashedDates {
  first: [number, number];
  third: [number, number];
  dayFirst: number;
  monthFirst: number;
}

/** Rows in which the stages of a tray run backwards under each reading of its dates. */
export interface BackwardRows {
  dayFirst: number;
  monthFirst: number;
  in1900: number;
  in1904: number;
  /** rows with dates such as "26-01-14" whose stages run backwards, or lie more than a year apart */
  yearFirst: number;
  yearLast: number;
}

/** Everything one pass over a table tells about how its cells are to be read. */
export interface TableEvidence {
  quantities: Map<number, QuantityEvidence>;
  dates: Map<number, DateEvidence>;
  /** what full dates in columns of the grower's own show of day and month */
  besideDates: { dayFirst: number; monthFirst: number };
  backward: BackwardRows;
  /** rows with a bare fresh and a bare dry weight whose ratio is possible, by "fresh unit/dry unit" */
  ratios: Map<string, number>;
  ratioRows: number;
}

const memoLimit = 20_000;
const stages = ["inoculated_on", "colonised_on", "fruiting_on", "harvested_on", "dried_on"];

const newQuantities = (): QuantityEvidence => ({
  points: 0,
  commas: 0,
  lists: 0,
  units: new Map(),
  bare: 0,
  likely: new Map(),
  scales: { C: 0, F: 0, either: 0, neither: 0 },
  aboveOne: 0,
});
const newDates = (): DateEvidence => ({
  dayFirst: 0,
  monthFirst: 0,
  ambiguous: 0,
  serials: 0,
  first: "",
  last: "",
  firstSerial: "",
  lastSerial: "",
});

function noteDashed(evidence: DateEvidence, [a, b, c]: [number, number, number]): void {
  evidence.dashed ??= { first: [a, a], third: [c, c], dayFirst: 0, monthFirst: 0 };
  const { dashed } = evidence;
  dashed.first = [Math.min(dashed.first[0], a), Math.max(dashed.first[1], a)];
  dashed.third = [Math.min(dashed.third[0], c), Math.max(dashed.third[1], c)];
  if (a > 12 && b <= 12) dashed.dayFirst++;
  else if (b > 12 && a <= 12) dashed.monthFirst++;
}

const count = (counts: Map<string, number>, key: string): void => void counts.set(key, (counts.get(key) ?? 0) + 1);

function note(
  evidence: QuantityEvidence,
  { decimalMark, bare, unit, isList }: CellTraits,
  { field }: ColumnPlan,
  kind: QuantityKind,
): void {
  if (decimalMark === ".") evidence.points++;
  else if (decimalMark === ",") evidence.commas++;
  if (isList) evidence.lists++;
  if (unit !== undefined) count(evidence.units, unit);
  if (bare === undefined || bare === 0) return;
  evidence.bare++;
  if (bare > 1) evidence.aboveOne++;
  evidence.scales[temperatureScale(bare)]++;
  for (const name of kind === "mass" ? massUnits : kind === "volume" ? volumeUnits : []) {
    if (isLikely(field, inUnit(bare, name, kind))) count(evidence.likely, name);
  }
}

/** The earlier of two dates, and the later one; a first that is "" is none. */
const earlier = (before: string, iso: string): string => (before === "" || iso < before ? iso : before);
const later = (before: string, iso: string): string => (iso > before ? iso : before);

function noteDate(evidence: DateEvidence, reading: DateReading, text: string): void {
  const numbers = dashedNumbers(text);
  if (numbers !== undefined) noteDashed(evidence, numbers);
  if (reading.kind === "serial") {
    evidence.serials++;
    evidence.firstSerial = earlier(evidence.firstSerial, reading.in1900);
    evidence.lastSerial = later(evidence.lastSerial, reading.in1900);
  }
  const isSwappable = reading.kind === "yearless" && reading.days.length > 1;
  if (reading.kind === "ambiguous" || isSwappable) evidence.ambiguous++;
  if (reading.kind !== "date" && reading.kind !== "yearless") return;
  const order = dateOrderEvidence(text);
  if (order === "day first") evidence.dayFirst++;
  else if (order === "month first") evidence.monthFirst++;
  if (reading.kind !== "date") return;
  evidence.first = earlier(evidence.first, reading.iso);
  evidence.last = later(evidence.last, reading.iso);
}

/** Counts a full date in a column that is not known to hold dates. */
function noteBeside(beside: TableEvidence["besideDates"], text: string): void {
  if (!/^\d{1,2}[./\s-]/.test(text) || parseDate(text).kind !== "date") return;
  const order = dateOrderEvidence(text);
  if (order === "day first") beside.dayFirst++;
  else if (order === "month first") beside.monthFirst++;
}

type Pick = (reading: DateReading) => string;

const inOrder = (dates: ReadonlyArray<DateReading>, pick: Pick): boolean => {
  let before = "";
  for (const reading of dates) {
    const iso = pick(reading);
    if (iso === "") continue;
    if (iso < before) return false;
    before = iso;
  }
  return true;
};

const certain: Pick = (reading) => (reading.kind === "date" ? reading.iso : "");
const dayFirst: Pick = (reading) => (reading.kind === "ambiguous" ? reading.dayFirst : certain(reading));
const monthFirst: Pick = (reading) => (reading.kind === "ambiguous" ? reading.monthFirst : certain(reading));
const yearFirst: Pick = (reading) => (reading.kind === "ambiguous" ? (reading.yearFirst ?? "") : certain(reading));
const in1900: Pick = (reading) => (reading.kind === "serial" ? reading.in1900 : certain(reading));
const in1904: Pick = (reading) => (reading.kind === "serial" ? reading.in1904 : certain(reading));

/** Whether the stages of a row are real days in order and within a year, which no crop takes longer. */
function withinYear(dates: ReadonlyArray<DateReading>, pick: Pick): boolean {
  const days = dates.filter(({ kind }) => kind === "date" || kind === "ambiguous").map(pick);
  const first = days[0] ?? "";
  const isNear = (iso: string): boolean => iso !== "" && iso <= `${Number(first.slice(0, 4)) + 1}${first.slice(4)}`;
  return inOrder(dates, pick) && days.every(isNear);
}

function noteRatio(evidence: TableEvidence, fresh: number, dry: number): void {
  evidence.ratioRows++;
  for (const freshUnit of massUnits) {
    for (const dryUnit of massUnits) {
      const ratio = inUnit(fresh, freshUnit, "mass") / inUnit(dry, dryUnit, "mass");
      if (ratio >= 2 && ratio <= 25) count(evidence.ratios, `${freshUnit}/${dryUnit}`);
    }
  }
}

function noteBackward(backward: BackwardRows, row: ReadonlyArray<DateReading>): void {
  if (!inOrder(row, certain)) return;
  if (!inOrder(row, dayFirst)) backward.dayFirst++;
  if (!inOrder(row, monthFirst)) backward.monthFirst++;
  if (!inOrder(row, in1900)) backward.in1900++;
  if (!inOrder(row, in1904)) backward.in1904++;
  if (!row.some((reading) => reading.kind === "ambiguous" && reading.yearFirst !== undefined)) return;
  if (!withinYear(row, yearFirst)) backward.yearFirst++;
  if (!withinYear(row, dayFirst) && !withinYear(row, monthFirst)) backward.yearLast++;
}

/** Reads each text once, as far as there are not too many different ones to keep. */
function readingOnce<T>(read: (text: string) => T): (text: string) => T {
  const readings = new Map<string, T>();
  return (text) => {
    const before = readings.get(text);
    if (before !== undefined) return before;
    const reading = read(text);
    if (readings.size < memoLimit) readings.set(text, reading);
    return reading;
  };
}

/** Looks at every cell of a table once and counts what its columns agree on. The order of rows does not matter. */
export function tableEvidence(table: RawTable, plans: ReadonlyArray<ColumnPlan>): TableEvidence {
  const found: TableEvidence = {
    quantities: new Map(),
    dates: new Map(),
    besideDates: { dayFirst: 0, monthFirst: 0 },
    backward: { dayFirst: 0, monthFirst: 0, in1900: 0, in1904: 0, yearFirst: 0, yearLast: 0 },
    ratios: new Map(),
    ratioRows: 0,
  };
  const dateOf = readingOnce((text) => parseDate(text));
  const numberColumns = plans.flatMap((plan) => {
    const kind = quantityKindOf(plan.kind);
    if (kind === undefined) return [];
    const evidence = newQuantities();
    found.quantities.set(plan.index, evidence);
    return [{ plan, kind, evidence, traitsOf: readingOnce((text) => cellTraits(text, kind)) }];
  });
  const dateColumns = plans
    .filter(({ kind }) => kind === "date")
    .sort((a, b) => stages.indexOf(a.field) - stages.indexOf(b.field))
    .map((plan) => {
      const evidence = newDates();
      found.dates.set(plan.index, evidence);
      return { plan, evidence };
    });
  const ownColumns = plans.filter(({ field }) => field === "factor").map(({ index }) => index);
  table.forEachRow((cells) => {
    for (const index of ownColumns) noteBeside(found.besideDates, cells[index]!);
    let fresh: number | undefined;
    let dry: number | undefined;
    for (const { plan, kind, evidence, traitsOf } of numberColumns) {
      const traits = traitsOf(cells[plan.index]!);
      note(evidence, traits, plan, kind);
      if (plan.field === "fresh_g") fresh = traits.bare;
      else if (plan.field === "dry_g") dry = traits.bare;
    }
    if (fresh !== undefined && dry !== undefined && fresh > 0 && dry > 0) noteRatio(found, fresh, dry);
    const row: DateReading[] = [];
    let open = false;
    for (const { plan, evidence } of dateColumns) {
      const text = cells[plan.index]!;
      const reading = dateOf(text);
      noteDate(evidence, reading, text);
      // flushes side by side have no place in the order of stages
      if (plan.flush === undefined) row.push(reading);
      open ||= reading.kind === "ambiguous" || reading.kind === "serial";
    }
    if (open) noteBackward(found.backward, row);
  });
  return found;
}
