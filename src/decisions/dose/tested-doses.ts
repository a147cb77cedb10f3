import type { DoseTray } from "./dose-tray.ts";

/** Trays of one cook at one dose, and at one level of what else was varied. */
export interface DoseCell {
  /** places among the cooks, the levels of the other thing and the doses of {@link TestedDoses} */
  cook: number;
  other: number;
  dose: number;
  /** started and lost trays, those of pools counted singly */
  started: number;
  lost: number;
  /** weighed trays and weighed records: a pool is several trays and one record */
  weighed: number;
  records: number;
  /** mean grams of the weighed trays; 0 where there are none */
  mean: number;
  /** squares of grams about that mean, records weighted by their trays */
  squares: number;
}

/** Records as columns, in an order that depends on what is recorded and never on the row; `NaN` where nothing is. */
export interface TrayColumns {
  records: number;
  /** places of dose, cook and what else was varied, and the dose as recorded */
  dose: Int32Array;
  cook: Int32Array;
  other: Int32Array;
  recorded: Float64Array;
  /** trays of the record, and 1 where they were lost */
  trays: Float64Array;
  lost: Uint8Array;
  grams: Float64Array;
  days: Float64Array;
}

/** The book sorted by dose and cook. */
export interface TestedDoses {
  /** rising; doses nearer than half a step are one, at the mean of their trays */
  doses: number[];
  /** per dose, the different doses as they were recorded */
  asTried: number[][];
  cooks: number;
  /** levels of what else was varied; 1 where nothing was */
  others: number;
  cells: DoseCell[];
  columns: TrayColumns;
  /** started trays left out because no cook is recorded */
  withoutCook: number;
}

/** Above this many doses those nearest one another are taken together, as no grower measures so finely. */
const mostDoses = 20;

/**
 * Step of dose that a grower can measure, unless the book says otherwise: 0.5 below a highest dose of 5, 1 below 50, 5 from
 * there; finer (2, 1, 0.5, 0.2 ...) where the doses tried lie within two such steps, as shares or kilograms do.
 * @param lowest, highest doses tried
 * @example usualStep(3, 12) // 1
 */
export function usualStep(lowest: number, highest: number): number {
  let step = highest < 5 ? 0.5 : highest < 50 ? 1 : 5;
  const range = highest - lowest;
  if (!(range > 0)) return step;
  while (step > (range / 2) * (1 + 1e-9)) {
    const leading = Number(step.toExponential()[0]);
    step = Number((leading === 5 ? step / 2.5 : step / 2).toPrecision(3));
  }
  return step;
}

/** Runs of neighbouring doses narrower than `width`, each as places in the sorted doses. */
function runsWithin(sorted: ReadonlyArray<number>, width: number): number[][] {
  const runs: number[][] = [];
  sorted.forEach((dose, at) => {
    const run = runs.at(-1);
    if (run !== undefined && dose - sorted[run[0]!]! < width * (1 - 1e-9)) run.push(at);
    else runs.push([at]);
  });
  return runs;
}

/** Names sorted, each with its place. */
const placesOf = (names: ReadonlyArray<string>): Map<string, number> =>
  new Map([...new Set(names)].sort().map((name, at) => [name, at]));

const otherOf = ({ other = "" }: DoseTray): string => other;

/** Records as columns; doses, cooks and what else was varied by their places in the sorted lists. */
function columnsOf(
  trays: ReadonlyArray<DoseTray>,
  placeOf: Map<number, number>,
  cooks: Map<string, number>,
  others: Map<string, number>,
): TrayColumns {
  const of = (value: (tray: DoseTray) => number): Float64Array => Float64Array.from(trays, value);
  const recorded = of(({ dose }) => dose);
  const cook = of((tray) => cooks.get(tray.cook!)!);
  const other = of((tray) => others.get(otherOf(tray))!);
  const count = of((tray) => tray.trays ?? 1);
  const lost = of((tray) => (tray.lost ? 1 : 0));
  const grams = of((tray) => (tray.lost ? Number.NaN : (tray.grams ?? Number.NaN)));
  const days = of((tray) => tray.days ?? Number.NaN);
  const orNone = (value: number): number => (Number.isNaN(value) ? -1 : value);
  const order = Int32Array.from(trays, (_, at) => at).sort(
    (a, b) =>
      recorded[a]! - recorded[b]! ||
      cook[a]! - cook[b]! ||
      other[a]! - other[b]! ||
      lost[a]! - lost[b]! ||
      orNone(grams[a]!) - orNone(grams[b]!) ||
      orNone(days[a]!) - orNone(days[b]!) ||
      count[a]! - count[b]!,
  );
  const sorted = (column: Float64Array): Float64Array => Float64Array.from(order, (at) => column[at]!);
  return {
    records: trays.length,
    dose: Int32Array.from(order, (at) => placeOf.get(recorded[at]!)!),
    cook: Int32Array.from(sorted(cook)),
    other: Int32Array.from(sorted(other)),
    recorded: sorted(recorded),
    trays: sorted(count),
    lost: Uint8Array.from(sorted(lost)),
    grams: sorted(grams),
    days: sorted(days),
  };
}

/**
 * Sorts finished trays into cells of cook, dose and what else was varied.
 * @param step smallest step of dose that can be measured; doses nearer than half of it are one
 */
export function testedDoses(all: ReadonlyArray<DoseTray>, step: number): TestedDoses {
  const kept = all.filter(({ cook }) => cook !== undefined);
  const withoutCook = all.reduce((sum, { cook, trays = 1 }) => sum + (cook === undefined ? trays : 0), 0);
  const recorded = [...new Set(kept.map(({ dose }) => dose))].sort((a, b) => a - b);
  let width = step / 2;
  let runs = runsWithin(recorded, width);
  while (runs.length > mostDoses) {
    width *= 2;
    runs = runsWithin(recorded, width);
  }
  const placeOf = new Map(runs.flatMap((run, at) => run.map((one) => [recorded[one]!, at] as const)));
  const cooks = placesOf(kept.map(({ cook }) => cook!));
  const others = placesOf(kept.map(otherOf));
  const columns = columnsOf(kept, placeOf, cooks, others);
  const doseSum = new Float64Array(runs.length);
  const trayCount = new Float64Array(runs.length);
  for (let i = 0; i < columns.records; i++) {
    doseSum[columns.dose[i]!]! += columns.recorded[i]! * columns.trays[i]!;
    trayCount[columns.dose[i]!]! += columns.trays[i]!;
  }
  return {
    doses: runs.map((run, at) => (run.length === 1 ? recorded[run[0]!]! : doseSum[at]! / trayCount[at]!)),
    asTried: runs.map((run) => run.map((one) => recorded[one]!)),
    cooks: cooks.size,
    others: others.size,
    cells: cellsOf(columns, runs.length, others.size),
    columns,
    withoutCook,
  };
}

/** Cells in the order of cooks, then what else was varied, then doses. */
function cellsOf(
  { records, dose, cook, other, trays, lost, grams }: TrayColumns,
  doses: number,
  others: number,
): DoseCell[] {
  const cells = new Map<number, DoseCell>();
  for (let i = 0; i < records; i++) {
    const key = (cook[i]! * others + other[i]!) * doses + dose[i]!;
    let cell = cells.get(key);
    if (cell === undefined) {
      cell = {
        ...{ cook: cook[i]!, other: other[i]!, dose: dose[i]! },
        ...{ started: 0, lost: 0, weighed: 0, records: 0, mean: 0, squares: 0 },
      };
      cells.set(key, cell);
    }
    const count = trays[i]!;
    cell.started += count;
    if (lost[i] === 1) cell.lost += count;
    else if (!Number.isNaN(grams[i])) {
      // running mean and squares (West 1979, Communications of the ACM 22(9):532-535)
      const change = grams[i]! - cell.mean;
      cell.weighed += count;
      cell.records += 1;
      cell.mean += (change * count) / cell.weighed;
      cell.squares += count * change * (grams[i]! - cell.mean);
    }
  }
  return [...cells.keys()].sort((a, b) => a - b).map((key) => cells.get(key)!);
}
