interface Place {
  found?: Map<string, unknown>;
  next?: WeakMap<object, Place>;
}

/**
 * Keeps what was worked out from the very same things, for as long as those things are there: one for the whole run of a
 * book, or for every state of a book that is being changed. What is kept must depend on nothing but the things and the name.
 * @example new Memo().once([trays, settings], "longest", () => longestOf(trays, settings))
 */
export class Memo {
  private readonly root: Place = {};

  /** @param most how many names are kept for the same things; the oldest is let go */
  constructor(private readonly most = Number.POSITIVE_INFINITY) {}

  /**
   * @param from the objects it is worked out from; the same ones in the same order give what was found before
   * @param name what is worked out, with every plain value it depends on
   * @param work called when it is not known yet; what it throws is not kept
   */
  once<T>(from: ReadonlyArray<object>, name: string, work: () => T): T {
    let place = this.root;
    for (const thing of from) {
      place.next ??= new WeakMap();
      const next = place.next.get(thing) ?? {};
      place.next.set(thing, next);
      place = next;
    }
    place.found ??= new Map();
    if (place.found.has(name)) return place.found.get(name) as T;
    const found = work();
    place.found.set(name, found);
    if (place.found.size > this.most) place.found.delete(place.found.keys().next().value!);
    return found;
  }

  /** Lets go of what was worked out from a thing first of all. */
  forget(thing: object): void {
    this.root.next?.delete(thing);
  }
}
