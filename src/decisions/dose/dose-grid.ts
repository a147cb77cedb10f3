/** Doses at which money and yield are worked out. */
export interface DoseGrid {
  /** rising: next steps down and up (where there are any) at the ends, between them the range tried */
  doses: number[];
  /** places of the lowest and the highest dose tried */
  first: number;
  last: number;
  /** places of the tested doses */
  tested: number[];
  /** how far the doses looked at lie apart: the step, or a whole multiple of it */
  step: number;
}

const mostPoints = 60;

/**
 * The next dose worth trying beyond either end, or undefined where there is none.
 * @param most the most there can be: a day has 24 hours
 */
export function nextDoses(
  tested: ReadonlyArray<number>,
  step: number,
  most = Number.POSITIVE_INFINITY,
): { down?: number; up?: number } {
  const lowest = tested[0]!;
  const highest = tested.at(-1)!;
  const range = highest - lowest;
  const rounded = (dose: number): number => Number((Math.round(dose / step) * step).toPrecision(12));
  let up = rounded(highest + Math.max(step, highest - tested.at(-2)!, range / 8));
  if (!(up > highest)) up = rounded(highest + 2 * step);
  const higher = highest < most ? { up: Math.min(up, most) } : {};
  if (lowest === 0) return higher;
  const gap = tested[1]! - lowest;
  // below 0 there is no half; a temperature goes on down
  let down = rounded(lowest - gap > 0 || lowest < 0 ? lowest - gap : lowest / 2);
  if (!(down < lowest)) down = rounded(lowest - step);
  return down !== 0 && down < 0 === lowest < 0 ? { down, ...higher } : higher;
}

/**
 * The grid: multiples of the step over the range tried, every tested dose, and one next step each way.
 * @param tested two or more doses, rising
 * @param step smallest step that can be measured; taken in whole multiples where there would be over sixty points
 */
export function doseGrid(tested: ReadonlyArray<number>, step: number, most?: number): DoseGrid {
  const lowest = tested[0]!;
  const highest = tested.at(-1)!;
  const { down, up } = nextDoses(tested, step, most);
  const room = Math.max(8, mostPoints - tested.length - 2);
  const wide = step * Math.max(1, Math.ceil((highest - lowest) / step / room));
  const same = (a: number, b: number): boolean => Math.abs(a - b) < 1e-9 * (highest - lowest);
  const range = [...tested];
  for (let multiple = Math.ceil(lowest / wide); multiple * wide <= highest; multiple++) {
    const dose = Number((multiple * wide).toPrecision(12));
    if (dose > lowest && !tested.some((one) => same(one, dose))) range.push(dose);
  }
  range.sort((a, b) => a - b);
  const doses = [...(down === undefined ? [] : [down]), ...range, ...(up === undefined ? [] : [up])];
  const first = down === undefined ? 0 : 1;
  return {
    doses,
    first,
    last: first + range.length - 1,
    tested: tested.map((dose) => doses.indexOf(dose)),
    step: wide,
  };
}
