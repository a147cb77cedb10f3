import type { Observation } from "../comparison/tray-response.ts";

/** One time at which the book could be looked at anew. */
export interface Look {
  /** cook, date or file */
  label: string;
  observations: Observation[];
}

/** The looks of a book in time order. */
export interface Looks {
  /** what counts as one look */
  by: "cook" | "harvest date" | "sheet";
  /** whether dates put them in order, or only the order of the sheets */
  dated: boolean;
  looks: Look[];
}

const dateOf = ({ source }: Observation): string | undefined => source.harvestedOn ?? source.driedOn;

/**
 * Splits a book into the times it could be looked at: every cook harvested is one; where cooks are not recorded every
 * date of harvest is one; without dates every sheet is one. A cook counts when its last tray is in.
 */
export function looksOf(observations: ReadonlyArray<Observation>): Looks {
  const hasCooks = observations.every(({ source }) => source.batch !== undefined);
  const hasDates = observations.every((one) => dateOf(one) !== undefined);
  const by = hasCooks ? "cook" : hasDates ? "harvest date" : "sheet";
  const keyOf = (one: Observation): string =>
    by === "cook" ? one.source.batch! : by === "harvest date" ? dateOf(one)! : (one.source.sources[0]?.file ?? "");
  const groups = new Map<string, { label: string; observations: Observation[]; last: string | undefined }>();
  for (const one of observations) {
    const key = keyOf(one);
    const group = groups.get(key) ?? { label: key, observations: [], last: undefined };
    groups.set(key, group);
    group.observations.push(one);
    const date = dateOf(one);
    if (date !== undefined && (group.last === undefined || date > group.last)) group.last = date;
  }
  const found = [...groups.values()];
  const dated = found.every(({ last }) => last !== undefined);
  // the sort keeps the order of the sheets among equal dates
  if (dated) found.sort((a, b) => (a.last! < b.last! ? -1 : a.last! > b.last! ? 1 : 0));
  return { by, dated, looks: found.map(({ label, observations: own }) => ({ label, observations: own })) };
}
