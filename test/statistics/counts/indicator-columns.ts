/** Labels as columns of 0 and 1, one for each but the first. */
export function indicatorColumns(name: string, labels: ReadonlyArray<string>): { name: string; values: number[] }[] {
  return [...new Set(labels)]
    .slice(1)
    .map((label) => ({ name: `${name} ${label}`, values: labels.map((other) => (other === label ? 1 : 0)) }));
}
