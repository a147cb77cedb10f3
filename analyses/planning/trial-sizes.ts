import { fewestCooks } from "../treatment/step-words.ts";
import { furtherCooks } from "./further-cooks.ts";
import { type TrialWishes, timesARound } from "./trial-wishes.ts";

/** Trays of each dose in each cook (and chamber), and cooks. */
export interface Size {
  traysPerDose: number;
  cooks: number;
}

const mostCooks = 8;
const mostTraysPerDose = 12;

/**
 * Sizes that fit the shelves: cooks of whole rounds of the doses, in full cooker loads where some fit.
 * @param isMore whether they come on top of cooks that held the same
 */
export function sizesWithin(
  wishes: Pick<TrialWishes, "layout" | "chambers" | "crossed" | "traysPerDose" | "cooks">,
  doses: number,
  places: number,
  traysPerLoad: number,
  isMore = false,
): Size[] {
  const share = doses * timesARound(wishes);
  if (wishes.layout === "latin") return [{ traysPerDose: 1, cooks: doses }];
  const most = Math.min(mostTraysPerDose, Math.floor(places / share));
  const all = Array.from({ length: most }, (_, k) => k + 1);
  const full = all.filter((trays) => (trays * share) % traysPerLoad === 0);
  // two trays of a dose in a cook show how much trays vary there, so one is taken only where two do not fit
  const several = (sizes: number[]): number[] => sizes.filter((trays) => trays > 1 || sizes.length === 1);
  const perDose = wishes.traysPerDose === undefined ? several(full.length > 0 ? full : all) : [wishes.traysPerDose];
  const fresh = Array.from({ length: mostCooks - fewestCooks + 1 }, (_, k) => k + fewestCooks);
  const weighed = isMore ? furtherCooks.filter((count) => count <= mostCooks) : fresh;
  const cooks = wishes.cooks === undefined ? weighed : [wishes.cooks];
  return perDose.flatMap((traysPerDose) => cooks.map((count) => ({ traysPerDose, cooks: count })));
}
