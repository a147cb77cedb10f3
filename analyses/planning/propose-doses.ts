import { inRow } from "../comparison/level-text.ts";

/** Levels a next trial should hold, and why. */
export interface ProposedLevels {
  levels: (number | string)[];
  why: string;
}

/** Doses a next trial should hold, and why. */
export interface ProposedDoses extends ProposedLevels {
  levels: number[];
}

/** What a decision about the dose says of the doses to grow next. */
export interface DosesKnown {
  use: number;
  /** doses that may still be the best */
  low: number;
  high: number;
  /** untried doses worth a trial, the most worth first */
  worthTrying: ReadonlyArray<number>;
}

/** More doses than this spread the trays too thin; with fewer than two trays of each in a cook they do so, too. */
const mostDoses = 4;
export const mostIn = (places: number): number => Math.min(mostDoses, Math.max(2, Math.floor(places / 2)));

const tidy = (value: number): number => Number(value.toPrecision(3));
const distinct = (doses: ReadonlyArray<number>): number[] => [...new Set(doses.map(tidy))].sort((a, b) => a - b);

/**
 * Doses for the next trial: the dose to use, untried ones that are worth a trial, its neighbours that may still be best, and
 * the lowest as the control that links trials. Where nothing is decided yet, the ends and the middle of what was tried.
 * @param tried different doses, lowest first
 * @param places trays that one cook may hold
 * @returns undefined when there is no dose to start from
 */
export function proposeDoses(
  tried: ReadonlyArray<number>,
  known: DosesKnown | undefined,
  places = Number.POSITIVE_INFINITY,
): ProposedDoses | undefined {
  const most = mostIn(places);
  const [lowest] = tried;
  const highest = tried.at(-1);
  if (lowest === undefined || highest === undefined) return undefined;
  if (lowest === highest) {
    return {
      levels: distinct([lowest / 2, lowest, 2 * lowest]),
      why: "half and double the one dose in use: wide steps, to see which way it goes",
    };
  }
  if (known === undefined && most < 3) return { levels: [lowest, highest], why: "the ends of the doses tried" };
  if (known === undefined) {
    return {
      levels: distinct([lowest, (lowest + highest) / 2, highest]),
      why: "the ends of the doses tried and the middle, as none stands out yet",
    };
  }
  const { use, low, high, worthTrying } = known;
  const below = tried.filter((dose) => dose < use && dose >= low).at(-1);
  const above = tried.find((dose) => dose > use && dose <= high);
  const core = [use, ...worthTrying.slice(0, 2), below, above].filter((dose) => dose !== undefined);
  const doses = distinct(core.slice(0, most));
  // two doses show no bend: an end of what was tried links the trials
  const control = use === lowest ? highest : lowest;
  const linked = doses.length < Math.min(3, most);
  const why = [
    "the dose to use",
    ...(doses.some((dose) => dose === tidy(worthTrying[0] ?? use) && dose !== tidy(use))
      ? ["what is worth trying beside it"]
      : []),
    ...([below, above].some((dose) => dose !== undefined && doses.includes(tidy(dose)))
      ? ["what may still be best"]
      : []),
    ...(linked ? ["an end of what was tried"] : []),
  ];
  return { levels: linked ? distinct([...doses, control]) : doses, why: inRow(why) };
}
