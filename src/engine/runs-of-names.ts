const mostRuns = 6;

/** A name that ends in digits: what stands before them, the number, and how many digits it is written with. */
function numbering(name: string): { stem: string; number: number; digits: number } | undefined {
  const [, stem, digits] = /^(.*?)(\d{1,15})$/.exec(name) ?? [];
  return stem === undefined || digits === undefined
    ? undefined
    : { stem, number: Number(digits), digits: digits.length };
}

/** Whether one name is the next number after another: "C9-009", "C9-010"; "9", "10". */
function follows(before: string, after: string): boolean {
  const [a, b] = [numbering(before), numbering(after)];
  if (a === undefined || b === undefined || a.stem !== b.stem || b.number !== a.number + 1) return false;
  const isPadded = (digits: number, number: number) => digits > String(number).length;
  return a.digits === b.digits || !(isPadded(a.digits, a.number) || isPadded(b.digits, b.number));
}

/**
 * Names in their order, with consecutive numbers drawn together, and the rest counted when there are many.
 * @example runsOfNames(["C9-001", "C9-002", "C9-003", "x"]) // "C9-001 to C9-003, x"
 */
export function runsOfNames(names: ReadonlyArray<string>): string {
  const runs: { first: string; last: string; count: number }[] = [];
  for (const name of names) {
    const run = runs.at(-1);
    if (run !== undefined && follows(run.last, name)) {
      run.last = name;
      run.count++;
    } else runs.push({ first: name, last: name, count: 1 });
  }
  const shown = runs.slice(0, mostRuns).flatMap(({ first, last, count }) => {
    if (count === 1) return [first];
    return count === 2 ? [first, last] : [`${first} to ${last}`];
  });
  const left = runs.slice(mostRuns).reduce((sum, { count }) => sum + count, 0);
  return `${shown.join(", ")}${left > 0 ? ` and ${left} more` : ""}`;
}
