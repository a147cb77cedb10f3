import type { DoseTray } from "./dose-tray.ts";

/** Trays of one cook at one dose. */
export interface DoseCell {
  /** places in `cooks` and `doses` of {@link TestedDoses} */
  cook: number;
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

/** The book sorted by dose and cook. */
export interface TestedDoses {
  /** rising; doses nearer than half a step are one, at the mean of their trays */
  doses: number[];
  /** per dose, the different doses as they were recorded */
  asTried: number[][];
  cooks: number;
  cells: DoseCell[];
  /** the trays used, in a fixed order, each with the place of its dose and cook */
  trays: PlacedTray[];
  /** started trays left out because no cook is recorded */
  withoutCook: number;
}

/** A record and where it belongs. */
export interface PlacedTray extends DoseTray {
  trays: number;
  doseAt: number;
  cookAt: number;
}

/** Above this many doses those nearest one another are taken together, as no grower measures so finely. */
const mostDoses = 40;

/** Step of dose that a grower can measure, unless the book says otherwise. */
export const usualStep = (highestDose: number): number => (highestDose < 5 ? 0.5 : highestDose < 50 ? 1 : 5);

/** Runs of neighbouring doses narrower than `width`, each as places in the sorted doses. */
function runsWithin(sorted: ReadonlyArray<number>, width: number): number[][] {
  const runs: number[][] = [];
  sorted.forEach((dose, at) => {
    const run = runs.at(-1);
    if (run !== undefined && dose - sorted[run[0]!]! < width) run.push(at);
    else runs.push([at]);
  });
  return runs;
}

/** Order that depends on what is recorded, never on the row. */
function inFixedOrder(a: DoseTray, b: DoseTray): number {
  if (a.dose !== b.dose) return a.dose - b.dose;
  if (a.cook !== b.cook) return a.cook! < b.cook! ? -1 : 1;
  if (a.lost !== b.lost) return a.lost ? 1 : -1;
  return (a.grams ?? -1) - (b.grams ?? -1) || (a.days ?? -1) - (b.days ?? -1) || (a.trays ?? 1) - (b.trays ?? 1);
}

/**
 * Sorts finished trays into cells of cook and dose.
 * @param step smallest step of dose that can be measured; doses nearer than half of it are one
 */
export function testedDoses(all: ReadonlyArray<DoseTray>, step: number): TestedDoses {
  const kept = all.filter(({ cook }) => cook !== undefined).sort(inFixedOrder);
  const withoutCook = all.reduce((sum, { cook, trays = 1 }) => sum + (cook === undefined ? trays : 0), 0);
  const recorded = [...new Set(kept.map(({ dose }) => dose))];
  let width = step / 2;
  let runs = runsWithin(recorded, width);
  while (runs.length > mostDoses) {
    width *= 2;
    runs = runsWithin(recorded, width);
  }
  const placeOf = new Map(runs.flatMap((run, at) => run.map((one) => [recorded[one]!, at] as const)));
  const cookNames = [...new Set(kept.map(({ cook }) => cook!))].sort();
  const cookPlace = new Map(cookNames.map((name, at) => [name, at]));
  const trays = kept.map((tray) => ({
    ...tray,
    trays: tray.trays ?? 1,
    doseAt: placeOf.get(tray.dose)!,
    cookAt: cookPlace.get(tray.cook!)!,
  }));
  const doseSum = new Float64Array(runs.length);
  const trayCount = new Float64Array(runs.length);
  for (const { dose, doseAt, trays: count } of trays) {
    doseSum[doseAt]! += dose * count;
    trayCount[doseAt]! += count;
  }
  return {
    doses: runs.map((run, at) => (run.length === 1 ? recorded[run[0]!]! : doseSum[at]! / trayCount[at]!)),
    asTried: runs.map((run) => run.map((one) => recorded[one]!)),
    cooks: cookNames.length,
    cells: cellsOf(trays, runs.length),
    trays,
    withoutCook,
  };
}

/** Cells in the order of cooks, then doses. */
function cellsOf(trays: ReadonlyArray<PlacedTray>, doses: number): DoseCell[] {
  const cells = new Map<number, DoseCell>();
  for (const { cookAt, doseAt, lost, grams, trays: count } of trays) {
    const key = cookAt * doses + doseAt;
    let cell = cells.get(key);
    if (cell === undefined) {
      cell = { cook: cookAt, dose: doseAt, started: 0, lost: 0, weighed: 0, records: 0, mean: 0, squares: 0 };
      cells.set(key, cell);
    }
    cell.started += count;
    if (lost) cell.lost += count;
    else if (grams !== undefined) {
      // running mean and squares (West 1979, Communications of the ACM 22:532-535; from memory)
      const change = grams - cell.mean;
      cell.weighed += count;
      cell.records += 1;
      cell.mean += (change * count) / cell.weighed;
      cell.squares += count * change * (grams - cell.mean);
    }
  }
  return [...cells.keys()].sort((a, b) => a - b).map((key) => cells.get(key)!);
}
