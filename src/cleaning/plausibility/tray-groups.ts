import { centreInPlace, middle, type RobustCentre } from "./robust-centre.ts";

/** Trays in groups within which they are compared. */
export interface TrayGroups<K> {
  keys: K[];
  /** the place of every tray's group among the keys, -1 for a tray in none */
  places: Int32Array;
  /** the places of the trays that are in a group, group after group, and where each group begins and the last one ends */
  members: Int32Array;
  starts: Int32Array;
  /** room for one value of each member, to work in */
  room?: Float64Array;
}

/** The room of groups to work in, made once: a million trays are gone through many times. */
export const roomOf = (groups: TrayGroups<unknown>): Float64Array => {
  groups.room ??= new Float64Array(groups.members.length);
  return groups.room;
};

/** Puts trays into groups, one tray after the other. */
export class TrayGrouping<K> {
  private readonly keys: K[] = [];
  private readonly known = new Map<K, number>();
  private readonly places: Int32Array;
  private lastKey: K | undefined;
  private lastPlace = -1;

  /** @param trays how many there are */
  constructor(trays: number) {
    this.places = new Int32Array(trays).fill(-1);
  }

  /** @param key of the tray's group; undefined for a tray in none */
  put(at: number, key: K | undefined): void {
    if (key === undefined) return;
    // trays of a group mostly stand together
    if (key !== this.lastKey) {
      const { keys, known } = this;
      this.lastKey = key;
      this.lastPlace = known.get(key) ?? keys.length;
      if (this.lastPlace === keys.length) {
        known.set(key, this.lastPlace);
        keys.push(key);
      }
    }
    this.places[at] = this.lastPlace;
  }

  groups(): TrayGroups<K> {
    return { keys: this.keys, places: this.places, ...membersOf(this.places, this.keys.length) };
  }
}

/** Puts trays into groups by a key; undefined for a tray in none. */
export function groupsOf<T, K>(trays: ArrayLike<T>, keyOf: (tray: T, at: number) => K | undefined): TrayGroups<K> {
  const grouping = new TrayGrouping<K>(trays.length);
  for (let at = 0; at < trays.length; at++) grouping.put(at, keyOf(trays[at]!, at));
  return grouping.groups();
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
  one.keys.length < 2 ? other : groupsOf(one.places, (place, at) => place * other.keys.length + other.places[at]!);

/**
 * Finds something of each group's known values.
 * @param values one of each tray, NaN unknown
 * @param find what is looked for, of the first so many of values that it may use up
 */
function ofEachGroup<R>(
  values: Float64Array,
  groups: TrayGroups<unknown>,
  find: (values: Float64Array, count: number) => R,
): R[] {
  const { keys, members, starts } = groups;
  const known = roomOf(groups);
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
 * @param fitted medians taken off the values before, for each value
 */
export const centresByGroup = (
  values: Float64Array,
  groups: TrayGroups<unknown>,
  fewest: number,
  fitted = 0,
): (RobustCentre | undefined)[] =>
  ofEachGroup(values, groups, (known, count) =>
    count < fewest ? undefined : centreInPlace(known, count, Math.floor(fitted * count)),
  );

/**
 * Takes the medians of groups off the values.
 * @param values one of each tray, NaN unknown; changed in place
 * @param fewest a group with fewer values has a median of 0
 * @returns the median of each group, and of how many groups there is one
 */
export function sweepMedians(
  values: Float64Array,
  groups: TrayGroups<unknown>,
  fewest: number,
): { medians: number[]; taken: number } {
  let taken = 0;
  const medians = ofEachGroup(values, groups, (known, count) => {
    if (count < fewest) return 0;
    taken++;
    return middle(known, count);
  });
  for (let at = 0; at < values.length; at++) {
    const place = groups.places[at]!;
    if (place >= 0) values[at]! -= medians[place]!;
  }
  return { medians, taken };
}
