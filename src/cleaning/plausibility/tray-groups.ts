import { centreInPlace, middle, type RobustCentre } from "./robust-centre.ts";

/** Trays in groups within which they are compared. */
export interface TrayGroups<K> {
  keys: K[];
  /** the place of every tray's group among the keys, -1 for a tray in none */
  places: Int32Array;
}

/** Puts trays into groups by a key; undefined for a tray in none. */
export function groupsOf<T, K>(trays: ReadonlyArray<T>, keyOf: (tray: T, at: number) => K | undefined): TrayGroups<K> {
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
export const groupsWithin = (one: TrayGroups<unknown>, other: TrayGroups<unknown>): TrayGroups<unknown> =>
  one.keys.length < 2 ? other : groupsOf([...one.places], (place, at) => place * other.keys.length + other.places[at]!);

/**
 * Finds something of each group's known values.
 * @param values one of each tray, NaN unknown
 * @param find what is looked for, of the values from a place up to the one before another, which it may use up
 */
function ofEachGroup<R>(
  values: Float64Array,
  { keys, places }: TrayGroups<unknown>,
  find: (all: Float64Array, from: number, to: number) => R,
): R[] {
  const starts = new Int32Array(keys.length + 1);
  const isKnown = (at: number): boolean => places[at]! >= 0 && !Number.isNaN(values[at]!);
  for (let at = 0; at < values.length; at++) if (isKnown(at)) starts[places[at]! + 1]!++;
  for (let place = 0; place < keys.length; place++) starts[place + 1]! += starts[place]!;
  const all = new Float64Array(starts[keys.length]!);
  const next = starts.slice();
  for (let at = 0; at < values.length; at++) if (isKnown(at)) all[next[places[at]!]!++] = values[at]!;
  return keys.map((_, place) => find(all, starts[place]!, starts[place + 1]!));
}

/**
 * The centre of the known values of each group; undefined for a group with fewer values than `fewest`.
 * @param values one of each tray, NaN unknown
 */
export const centresByGroup = (
  values: Float64Array,
  groups: TrayGroups<unknown>,
  fewest: number,
): (RobustCentre | undefined)[] =>
  ofEachGroup(values, groups, (all, from, to) =>
    to - from < fewest ? undefined : centreInPlace(all.subarray(from, to)),
  );

/**
 * Takes the medians of groups off the values.
 * @param values one of each tray, NaN unknown; changed in place
 * @param fewest a group with fewer values has a median of 0
 * @returns the median of each group
 */
export function sweepMedians(values: Float64Array, groups: TrayGroups<unknown>, fewest: number): number[] {
  const medians = ofEachGroup(values, groups, (all, from, to) => (to - from < fewest ? 0 : middle(all, from, to)));
  for (let at = 0; at < values.length; at++) {
    const place = groups.places[at]!;
    if (place >= 0) values[at]! -= medians[place]!;
  }
  return medians;
}
