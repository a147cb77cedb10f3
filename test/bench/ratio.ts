/** The middle of several timings of one piece of work, in milliseconds. */
export async function medianMilliseconds(work: () => unknown, runs: number): Promise<number> {
  const times: number[] = [];
  for (let run = 0; run < runs; run++) {
    const start = performance.now();
    await work();
    times.push(performance.now() - start);
  }
  return times.sort((a, b) => a - b)[Math.floor(runs / 2)]!;
}

/** One line of the bench: a piece of work beside its baseline, measured in the same run. */
export interface Ratio {
  work: string;
  baseline: string;
  milliseconds: number;
  baselineMilliseconds: number;
  /** what the project asks of the ratio, where it asks something */
  goal?: number;
}

/** Prints one ratio as a line. */
export function printRatio({ work, baseline, milliseconds, baselineMilliseconds, goal }: Ratio): void {
  const ratio = milliseconds / baselineMilliseconds;
  const verdict = goal === undefined ? "" : ratio <= goal ? `, within ${goal}` : `, over the goal of ${goal}`;
  console.log(
    `${work} / ${baseline}: ${ratio.toFixed(2)}${verdict} (${milliseconds.toFixed(0)} ms / ${baselineMilliseconds.toFixed(0)} ms)`,
  );
}
