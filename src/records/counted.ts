/**
 * A count with what is counted.
 * @param many what several are called; with an "s" where not stated
 * @example counted(1, "tray is", "trays are") // "1 tray is"
 */
export const counted = (count: number, one: string, many = `${one}s`): string => `${count} ${count === 1 ? one : many}`;

/**
 * Names in a row, those beyond the first few only counted.
 * @example firstOf(["A1", "A2", "A3"], 2) // "A1, A2 and 1 more"
 */
export const firstOf = (names: ReadonlyArray<string>, most: number): string =>
  `${names.slice(0, most).join(", ")}${names.length > most ? ` and ${names.length - most} more` : ""}`;
