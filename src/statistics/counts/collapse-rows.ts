import type { LogisticDesign } from "./logistic-design.ts";

/**
 * Adds up rows that share every column: the likelihood does not tell them apart, and a fit over fewer rows is faster.
 * @returns the shorter design, and for each original row the row it went to
 * @internal
 */
export function collapseRows(design: LogisticDesign): { design: LogisticDesign; rowOf: number[] } {
  const places = new Map<string, number>();
  const rows: Float64Array[] = [];
  const successes: number[] = [];
  const trials: number[] = [];
  const rowOf = design.rows.map((row, index) => {
    const key = row.join();
    let place = places.get(key);
    if (place === undefined) {
      place = rows.length;
      places.set(key, place);
      rows.push(row);
      successes.push(0);
      trials.push(0);
    }
    successes[place]! += design.successes[index]!;
    trials[place]! += design.trials[index]!;
    return place;
  });
  return {
    design: {
      names: design.names,
      rows,
      successes: Float64Array.from(successes),
      trials: Float64Array.from(trials),
    },
    rowOf,
  };
}
