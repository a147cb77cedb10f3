/** What the records cannot say: no trays, nothing harvested, a price that does not exist. Told, not thrown: it is data, not a wrong call. */
export interface CannotTell {
  kind: "cannot-tell";
  /** in plain words, without a full stop */
  reason: string;
}

/** Makes the tagged result. @example cannotTell("no tray was good").kind // "cannot-tell" */
export const cannotTell = (reason: string): CannotTell => ({ kind: "cannot-tell", reason });

/** Tells it apart from an answer. */
export const isCannotTell = (result: { kind: string }): result is CannotTell => result.kind === "cannot-tell";
