import { centreInPlace, middle, type RobustCentre } from "./robust-centre.ts";

/** Trays in groups within which they are compared. */
export interface TrayGroups<K> {
  keys: K[];
  /** the place of every tray's group among the keys, -1 for a tray in none */
  places: Int32Array;
  /** the places of the trays that are in a group, group after group, and where each group begins and the last one ends */
  members: Int32Array;
  starts: Int32Array;
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
  return { keys, places, ...membersOf(places, keys.length) };
}

/** The trays of each group, by the groups' places. */
function membersOf(places: Int32Array, groups: number): Pick<TrayGroups<unknown>, "members" | "starts"> {
  const starts = new Int32Array(groups + 1);
  for (let at = 0; at < places.length; at++) if (places[at]! >= 0) starts[places[at]! + 1]!++;
  for (let place = 0; place < groups; place++) starts[place + 1]! += starts[place]!;
  const members = new Int32Array(starts[groups]!);
  const next = starts.slice();
  for (let at = 0; at < places.length; at++) if (places[at]! >= 0) members[next[places[at]!]!++] = at;
  return { members, starts };
}

/** The groups of trays that are together in both of two groupings, every tray being in a group of each. */
export const groupsWithin = (one: TrayGroups<unknown>, other: TrayGroups<unknown>): TrayGroups<unknown> =>
  one.keys.length < 2
    ? other
    : groupsOf(Array.from(one.places), (place, at) => place * other.keys.length + other.places[at]!);

/**
 * Finds something of each group's known values.
 * @param values one of each tray, NaN unknown
 * @param find what is looked for, of the first so many of values that it may use up
 */
function ofEachGroup<R>(
  values: Float64Array,
  { keys, members, starts }: TrayGroups<unknown>,
  find: (values: Float64Array, count: number) => R,
): R[] {
  const known = new Float64Array(members.length);
  return keys.map((_, place) => {
    let count = 0;
    for (let index = starts[place]!; index < starts[place + 1]!; index++) {
      const value = values[members[index]!]!;
      if (!Number.isNaN(value)) known[count++] = value;
    }
    return find(known, count);
  });
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
  ofEachGroup(values, groups, (known, count) => (count < fewest ? undefined : centreInPlace(known, count)));

/**
 * Takes the medians of groups off the values.
 * @param values one of each tray, NaN unknown; changed in place
 * @param fewest a group with fewer values has a median of 0
 * @returns the median of each group
 */
export function sweepMedians(values: Float64Array, groups: TrayGroups<unknown>, fewest: number): number[] {
  const medians = ofEachGroup(values, groups, (known, count) => (count < fewest ? 0 : middle(known, count)));
  for (let at = 0; at < values.length; at++) {
    const place = groups.places[at]!;
    if (place >= 0) values[at]! -= medians[place]!;
  }
  return medians;
}
