import { type Constraint, type Solution, solve } from "yalps";

/** A linear programme whose variables may have to be whole. Every constraint is an upper limit; variables are 0 or more. */
export interface WholeProgramme {
  /** the coefficient that is made as large as possible, and each limit's coefficient, by variable */
  variables: Record<string, Record<string, number>>;
  objective: string;
  limits: Record<string, number>;
  whole: ReadonlyArray<string>;
}

/** A solution of a programme, or the best one found. */
export interface ProgrammeSolution {
  value: number;
  of(name: string): number;
}

/** The best whole solution found, and what no whole solution passes. */
export interface WholeSolution extends ProgrammeSolution {
  /** at most this much could be had by searching on; the value itself where the search ended by itself */
  bound: number;
}

/** Numbers below it are nothing, and what comes out has no digits beyond. */
const precision = 1e-10;
/**
 * What each limit is eased by, times its place, where the search goes round in circles: no two then meet in one point.
 * @source Charnes 1952, Econometrica 20(2):160-170 (from memory)
 */
const hardlyMore = 1e-9;

type Bounds = ReadonlyArray<{ name: string; at: "least" | "most"; value: number }>;

/**
 * Solves a programme with its variables free to be split.
 * @returns undefined where the bounds contradict the limits
 * @throws Error if the programme has no finite best
 */
export function solveSplit(programme: WholeProgramme, bounds: Bounds = []): ProgrammeSolution | undefined {
  const variables: Record<string, Record<string, number>> = {};
  for (const [name, coefficients] of Object.entries(programme.variables)) variables[name] = { ...coefficients };
  bounds.forEach(({ name }, index) => {
    variables[name]![`bound ${index}`] = 1;
  });
  const within = (eased: number): Solution => {
    const limits = Object.entries(programme.limits).map(([name, most], index): [string, Constraint] => [
      name,
      { max: most + eased * (index + 1) },
    ]);
    const bounded = bounds.map(({ at, value }, index): [string, Constraint] => [
      `bound ${index}`,
      at === "least" ? { min: value } : { max: value },
    ]);
    const model = { objective: programme.objective, constraints: [...limits, ...bounded], variables };
    return solve(model, { precision, checkCycles: true });
  };
  let solved = within(0);
  if (solved.status === "cycled") solved = within(hardlyMore);
  if (solved.status === "infeasible") return undefined;
  if (solved.status !== "optimal") {
    throw new Error("the programme has no finite best: nothing limits what can be made");
  }
  const amounts = new Map(solved.variables);
  return { value: solved.result, of: (name) => amounts.get(name) ?? 0 };
}

const isWhole = (value: number): boolean => Math.abs(value - Math.round(value)) < 1e-7;

/** A whole solution near a split one: every variable but one rounded down, that one either way. */
function roundedNear(programme: WholeProgramme, split: ProgrammeSolution): ProgrammeSolution | undefined {
  let best: ProgrammeSolution | undefined;
  const down = (name: string): number => Math.floor(split.of(name) + 1e-7);
  const uneven = programme.whole.filter((name) => !isWhole(split.of(name)));
  for (const up of [undefined, ...uneven]) {
    const fixed = programme.whole.flatMap((name): Bounds => {
      const value = down(name) + (name === up ? 1 : 0);
      return [
        { name, at: "least", value },
        { name, at: "most", value },
      ];
    });
    const found = solveSplit(programme, fixed);
    if (found !== undefined && (best === undefined || found.value > best.value)) best = found;
  }
  return best;
}

/**
 * The best solution in whole units by branch and bound, the most promising branch first. The search ends when no branch
 * can bring more than the best found, or after a number of branches, never by the clock: the same
 * programme gives the same answer everywhere.
 * @param nodeLimit branches looked at before the best found so far is given
 * @throws Error if the programme has no solution or no finite best
 * @source Land and Doig 1960, Econometrica 28:497-520 (branch and bound)
 * @example solveWhole({ variables: { a: { money: 5, grams: 3 } }, objective: "money", limits: { grams: 10 }, whole: ["a"] }, 100).value // 15
 */
export function solveWhole(programme: WholeProgramme, nodeLimit: number): WholeSolution {
  const root = solveSplit(programme);
  if (root === undefined) throw new Error("the programme has no solution, although making nothing is one");
  let best = roundedNear(programme, root);
  let nodes = 1;
  const open: { bounds: Bounds; split: ProgrammeSolution }[] = [{ bounds: [], split: root }];
  const least = (): number =>
    best === undefined ? Number.NEGATIVE_INFINITY : best.value + 1e-9 * Math.abs(best.value);
  while (open.length > 0 && nodes < nodeLimit) {
    let top = 0;
    open.forEach(({ split }, index) => {
      if (split.value > open[top]!.split.value) top = index;
    });
    const { bounds, split } = open.splice(top, 1)[0]!;
    if (split.value <= least()) break;
    // a split that is whole was found by rounding, too, and ended its branch
    const name = programme.whole.find((one) => !isWhole(split.of(one)))!;
    const below = Math.floor(split.of(name));
    const branches: Bounds = [
      { name, at: "most", value: below },
      { name, at: "least", value: below + 1 },
    ];
    for (const branch of branches) {
      nodes++;
      const tighter = [...bounds, branch];
      const solved = solveSplit(programme, tighter);
      if (solved === undefined || solved.value <= least()) continue;
      const near = roundedNear(programme, solved);
      if (near !== undefined && (best === undefined || near.value > best.value)) best = near;
      open.push({ bounds: tighter, split: solved });
    }
  }
  if (best === undefined) throw new Error("the programme has no whole solution, although making nothing is one");
  const found = best;
  const bound = open.reduce((most, { split }) => Math.max(most, split.value), found.value);
  return { ...found, of: (name) => found.of(name), bound: bound <= least() ? found.value : bound };
}
