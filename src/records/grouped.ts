/**
 * Items by what they have in common: groups in the order first met, items in theirs.
 * @param keyOf what an item is grouped by; undefined leaves it out
 * @example [...grouped(["ape", "bee", "ant"], (name) => name[0])][0] // ["a", ["ape", "ant"]]
 */
export function grouped<Item, Key>(items: Iterable<Item>, keyOf: (item: Item) => Key | undefined): Map<Key, Item[]> {
  const groups = new Map<Key, Item[]>();
  for (const item of items) {
    const key = keyOf(item);
    if (key !== undefined) addTo(groups, key, item);
  }
  return groups;
}

/** Adds an item to the group of its key, the first one where there is none. */
export function addTo<Key, Item>(groups: Map<Key, Item[]>, key: Key, item: Item): void {
  const own = groups.get(key);
  if (own === undefined) groups.set(key, [item]);
  else own.push(item);
}
