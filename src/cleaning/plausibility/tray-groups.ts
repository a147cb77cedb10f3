import { centreInPlace, middle, type RobustCentre } from "./robust-centre.ts";

/** What trays are compared within: the key of each group, and the place of every tray's group, -1 for a tray in none. */
export interface Groups<K> {
  keys: K[];
  places: Int32Array;
}

/** Puts trays into groups by a key; undefined for a tray in none. */
export function groupsOf<T, K>(trays: ReadonlyArray<T>, keyOf: (tray: T, at: number) => K | undefined): Groups<K> {
  const keys: K[] = [];
  const known = new Map<K, number>();
  const places = new Int32Array(trays.length).fill(-1);
  let lastKey: K | undefined;
  let lastPlace = -1;
  for (let at = 0; at < trays.length; at++) {
    const key = keyOf(trays[at]!, at);
    if (key === undefined) continue;
    // trays of a group mostly stand together
    if (key !== lastKey) {
      lastKey = key;
      lastPlace = known.get(key) ?? keys.length;
      if (lastPlace === keys.length) {
        known.set(key, lastPlace);
        keys.push(key);
      }
    }
    places[at] = lastPlace;
  }
  return { keys, places };
}

/** The groups of trays that are together in both of two groupings, every tray being in a group of each. */
export const groupsWithin = (one: Groups<unknown>, other: Groups<unknown>): Groups<unknown> =>
  one.keys.length < 2 ? other : groupsOf([...one.places], (place, at) => place * other.keys.length + other.places[at]!);

/** The known values of every group side by side. @param values one of each tray, NaN unknown */
function gathered(values: Float64Array, { keys, places }: Groups<unknown>): { all: Float64Array; starts: Int32Array } {
  const starts = new Int32Array(keys.length + 1);
  for (let at = 0; at < values.length; at++) {
    const place = places[at]!;
    if (place >= 0 && !Number.isNaN(values[at]!)) starts[place + 1]!++;
  }
  for (let place = 0; place < keys.length; place++) starts[place + 1]! += starts[place]!;
  const all = new Float64Array(starts[keys.length]!);
  const next = starts.slice();
  for (let at = 0; at < values.length; at++) {
    const place = places[at]!;
    if (place >= 0 && !Number.isNaN(values[at]!)) all[next[place]!++] = values[at]!;
  }
  return { all, starts };
}

/**
 * The centre of the known values of each group; undefined for a group with fewer values than `fewest`.
 * @param values one of each tray, NaN unknown
 */
export function centresByGroup(
  values: Float64Array,
  groups: Groups<unknown>,
  fewest: number,
): (RobustCentre | undefined)[] {
  const { all, starts } = gathered(values, groups);
  return groups.keys.map((_, place) => {
    const own = all.subarray(starts[place], starts[place + 1]);
    return own.length < fewest ? undefined : centreInPlace(own);
  });
}

/**
 * Takes the medians of groups off the values.
 * @param values one of each tray, NaN unknown; changed in place
 * @param fewest a group with fewer values has a median of 0
 * @returns the median of each group
 */
export function sweepMedians(values: Float64Array, groups: Groups<unknown>, fewest: number): Float64Array {
  const { all, starts } = gathered(values, groups);
  const medians = new Float64Array(groups.keys.length);
  for (let place = 0; place < medians.length; place++) {
    const [from, to] = [starts[place]!, starts[place + 1]!];
    if (to - from >= fewest) medians[place] = middle(all, from, to);
  }
  for (let at = 0; at < values.length; at++) {
    const place = groups.places[at]!;
    if (place >= 0) values[at]! -= medians[place]!;
  }
  return medians;
}
