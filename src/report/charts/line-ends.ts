/**
 * Heights for labels at the ends of lines, moved apart where they would touch, in their order from top to bottom.
 * @param wanted heights in pixels from the top; @param gap least distance between two
 * @param range top and bottom the labels must stay in
 * @returns a height for each, in the order given; undefined where there is no room for all
 */
export function lineEnds(
  wanted: ReadonlyArray<number>,
  gap: number,
  [top, bottom]: readonly [number, number],
): (number | undefined)[] {
  const most = Math.floor((bottom - top) / gap) + 1;
  const order = wanted.map((_, index) => index).sort((a, b) => wanted[a]! - wanted[b]! || a - b);
  const shown = order.slice(0, most);
  const places = shown.map((index) => Math.min(bottom, Math.max(top, wanted[index]!)));
  for (let at = 1; at < places.length; at++) places[at] = Math.max(places[at]!, places[at - 1]! + gap);
  for (let at = places.length - 1; at >= 0; at--) {
    const limit = at === places.length - 1 ? bottom : places[at + 1]! - gap;
    places[at] = Math.min(places[at]!, limit);
  }
  const found = new Array<number | undefined>(wanted.length).fill(undefined);
  shown.forEach((index, at) => {
    found[index] = places[at];
  });
  return found;
}
