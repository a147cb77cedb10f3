/**
 * Names for cooks to come that go on from the book's own: after C6 and C7 come C8, C9.
 * @param known names of cooks already in the book, in the order met
 * @param count how many are wanted, 1 or more
 * @throws RangeError if the count is not a whole number of 1 or more
 * @example nextCooks(["C1", "C2"], 2) // ["C3", "C4"]
 */
export function nextCooks(known: ReadonlyArray<string>, count: number): string[] {
  if (!Number.isInteger(count) || count < 1) {
    throw new RangeError(`nextCooks: count must be a whole number of 1 or more; received ${count}`);
  }
  const numbered = known.flatMap((name) => {
    const match = /^(.*?)(\d{1,9})$/.exec(name);
    return match === null ? [] : [{ stem: match[1]!, number: Number(match[2]), width: match[2]!.length }];
  });
  const last = numbered.at(-1);
  const stem = last?.stem ?? "P";
  const own = numbered.filter((one) => one.stem === stem);
  const highest = own.reduce((most, { number }) => Math.max(most, number), 0);
  const width = last === undefined ? 1 : last.width;
  const taken = new Set(known);
  const names: string[] = [];
  for (let number = highest + 1; names.length < count; number++) {
    const name = `${stem}${String(number).padStart(width, "0")}`;
    if (!taken.has(name)) names.push(name);
  }
  return names;
}
