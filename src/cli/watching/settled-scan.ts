/** One sheet as a look at the folder finds it. */
export interface SeenFile {
  path: string;
  size: number;
  /** when it was last written, in milliseconds */
  changedAt: number;
}

/** What is known between two looks. */
export interface ScanState {
  /** what the last report was made from, as one text; undefined before the first */
  built: string | undefined;
  /** what the last look found, and since when it has looked the same, in milliseconds */
  seen: string;
  since: number;
}

/** What a look says to do. */
export type ScanAdvice = "nothing" | "wait" | "build";

/** A folder's sheets as one text: the same text, the same sheets as far as size and time tell. */
const scanText = (files: ReadonlyArray<SeenFile>): string =>
  JSON.stringify(
    files
      .map(({ path, size, changedAt }) => [path, size, changedAt])
      .sort((a, b) => (String(a[0]) < String(b[0]) ? -1 : 1)),
  );

/** The state before the first look. */
export const firstScan: ScanState = { built: undefined, seen: "", since: 0 };

/**
 * Decides after each look at a folder: build once its files differ from those of the last report and have kept size and
 * time for a while, so that a file still being written, or one that a spreadsheet program takes away and puts back while
 * saving, is waited for.
 * @param state from the look before; @param files what is there now
 * @param now milliseconds of any steady clock; @param settle how long all must look the same, in milliseconds
 * @returns what to do, and the state for the next look; after "build" it counts as built
 */
export function lookAgain(
  state: ScanState,
  files: ReadonlyArray<SeenFile>,
  now: number,
  settle: number,
): { advice: ScanAdvice; state: ScanState } {
  const seen = scanText(files);
  const since = seen === state.seen ? state.since : now;
  const next = { ...state, seen, since };
  if (seen === state.built) return { advice: "nothing", state: next };
  if (now - since < settle) return { advice: "wait", state: next };
  return { advice: "build", state: { ...next, built: seen } };
}
