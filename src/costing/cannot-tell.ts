/** What the records cannot say: no trays, nothing harvested, a price that does not exist. Said, not thrown: it is data, not a wrong call. */
export interface CannotTell {
  kind: "cannot-tell";
  /** in plain words, without a full stop */
  reason: string;
}

/** Makes the tagged result. @example cannotTell("no tray was good").kind // "cannot-tell" */
export const cannotTell = (reason: string): CannotTell => ({ kind: "cannot-tell", reason });

/**
 * Does some work; a number no book should hold, such as a negative price, becomes a reason, so that one bad number does
 * not stop the other answers.
 * @throws whatever else the work throws
 */
export function outOfRangeToReason<T>(work: () => T): T | CannotTell {
  try {
    return work();
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    return cannotTell(`a number in the book's sheets cannot be right (${error.message})`);
  }
}
