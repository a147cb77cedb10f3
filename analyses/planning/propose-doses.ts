/** Doses a next trial should hold, and why. */
export interface ProposedDoses {
  doses: number[];
  why: string;
}

const tidy = (value: number): number => Number(value.toPrecision(3));

/**
 * Doses for the next trial from those tried and the best of them: the lowest stays in as the control that links trials,
 * the best stays in, and the others stand wide apart on the side where more is to be learnt.
 * @param tried different doses above 0, lowest first
 * @param best one of them; undefined when none stands out
 * @returns undefined when there is no dose to start from
 */
export function proposeDoses(tried: ReadonlyArray<number>, best: number | undefined): ProposedDoses | undefined {
  const [lowest] = tried;
  const highest = tried.at(-1);
  if (lowest === undefined || highest === undefined) return undefined;
  const distinct = (doses: ReadonlyArray<number>) => [...new Set(doses.map(tidy))].sort((a, b) => a - b);
  if (lowest === highest) {
    return {
      doses: distinct([lowest / 2, lowest, 2 * lowest]),
      why: "half and double the one dose in use: wide steps, to see which way it goes",
    };
  }
  const widest = Math.max(...tried.slice(1).map((dose, k) => dose - tried[k]!));
  if (best === undefined) {
    return {
      doses: distinct([lowest, (lowest + highest) / 2, highest]),
      why: "the ends of the doses tried and the middle, as none stands out yet",
    };
  }
  const at = tried.indexOf(best);
  if (best === highest) {
    return {
      doses: distinct([lowest, best, best + widest, best + 2 * widest]),
      why: "the highest dose tried is the best so far, so two steps beyond it, with the lowest as the control",
    };
  }
  if (best === lowest) {
    return {
      doses: distinct([lowest / 2, lowest, tried[1]!, highest]),
      why: "the lowest dose tried is the best so far, so half of it is tried too",
    };
  }
  return {
    doses: distinct([lowest, tried[at - 1]!, best, tried[at + 1]!]),
    why: "the best dose so far with its neighbours, and the lowest as the control",
  };
}
