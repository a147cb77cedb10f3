/** One candidate shape of yield over dose, on the grid: mean 0 over the tested doses, rise 1. */
export interface CurveShape {
  name: string;
  weight: number;
  /** one value per grid dose */
  values: Float64Array;
}

interface RawShape {
  name: string;
  weight: number;
  at(dose: number): number;
}

/** The candidate shapes between a lowest and a highest dose, before centring. */
function rawShapes(tested: ReadonlyArray<number>): RawShape[] {
  const lowest = tested[0]!;
  const highest = tested.at(-1)!;
  const range = highest - lowest;
  // share of the highest dose; where that has no meaning (degrees below 0) share of the range
  const share = (dose: number): number => (lowest >= 0 ? dose / highest : (dose - lowest) / range);
  const at = (part: number): number => lowest + part * range;
  return [
    { name: "line", weight: 2, at: share },
    ...[1.5, 3, 6, 12].map((c) => ({
      name: `levelling off ${c}`,
      weight: 1,
      at: (dose: number) => 1 - Math.exp(-c * share(dose)),
    })),
    // near one another: many trays would be sure of a bend that lies between two of few
    ...[0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9].map((b) => ({
      name: `plateau ${b}`,
      weight: 1 / 3,
      at: (dose: number) => Math.min(dose, at(b)) / range,
    })),
    ...[0.2, 0.4, 0.55, 0.7, 0.85, 1, 1.3].map((b) => ({
      name: `peak ${b}`,
      weight: 0.6,
      at: (dose: number) => -(((dose - at(b)) / range) ** 2),
    })),
    ...[0.3, 0.5, 0.7].map((b) => ({
      name: `threshold ${b}`,
      weight: 0.4,
      at: (dose: number) => 1 / (1 + Math.exp(-(dose - at(b)) / (0.08 * range))),
    })),
    ...tested.slice(1).map((upper, gap) => {
      const middle = (upper + tested[gap]!) / 2;
      const halfWidth = (upper - tested[gap]!) / 2;
      return {
        name: `bump in gap ${gap + 1}`,
        weight: 1,
        at: (dose: number) => Math.exp(-(((dose - middle) / halfWidth) ** 2)),
      };
    }),
  ];
}

/**
 * Shapes that yield may take over dose, each minus its mean over the tested doses and divided by its rise over the range
 * tried (41 even points, the tested doses and the middles of gaps, so that two doses close together cannot make it 0).
 * @param tested two or more doses, rising
 * @param grid doses at which the shapes are wanted
 * @source candidate set after Bretz, Pinheiro and Branson 2005, Biometrics 61(3):738-748 (line, quadratic and logistic
 *   are among theirs); the other shapes and all weights are this project's own, chosen by simulation
 */
export function curveShapes(tested: ReadonlyArray<number>, grid: ReadonlyArray<number>): CurveShape[] {
  const lowest = tested[0]!;
  const range = tested.at(-1)! - lowest;
  const looked = [
    ...Array.from({ length: 41 }, (_, i) => lowest + (range * i) / 40),
    ...tested,
    ...tested.slice(1).map((upper, gap) => (upper + tested[gap]!) / 2),
  ];
  return rawShapes(tested).map(({ name, weight, at }) => {
    const seen = looked.map(at);
    const rise = Math.max(...seen) - Math.min(...seen);
    const middle = tested.reduce((sum, dose) => sum + at(dose), 0) / tested.length;
    return { name, weight, values: Float64Array.from(grid, (dose) => (at(dose) - middle) / rise) };
  });
}
