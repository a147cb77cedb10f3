import { companionFactors, type Factor, freeFactor, positionFactor } from "../../src/design/factor.ts";
import type { Lot } from "../comparison/cooks-in-order.ts";
import { inSentence } from "../comparison/level-text.ts";

/** Something a cook had that the cook before did not. */
export interface Change {
  /** "supplement grade" */
  name: string;
  before: string[];
  now: string[];
}

/** What can change from one cook to the next, and what changes so often that it explains nothing. */
export interface ChangeLog {
  /** what was new in the lot at this position against the one before; nothing for the first */
  at(position: number): Change[];
  /** what changes at most cooks */
  always: string[];
}

const listed = (lot: Lot, factor: Factor): Set<string> =>
  new Set(lot.trays.flatMap((tray) => factor.level(tray) ?? []));

/**
 * Compares every cook with the one before in everything recorded of its trays, free columns included.
 * @param lots in time order
 */
export function changeLog(lots: ReadonlyArray<Lot>): ChangeLog {
  const headers = new Set(lots.flatMap(({ trays }) => trays.flatMap(({ factors }) => Object.keys(factors))));
  const factors = [
    ...companionFactors.filter(({ key }) => key !== "batch" && key !== "inoculated_on" && key !== positionFactor.key),
    ...[...headers].slice(0, 50).map(freeFactor),
  ];
  const always: string[] = [];
  const watched: { factor: Factor; levels: Set<string>[] }[] = [];
  for (const factor of factors) {
    const levels = lots.map((lot) => listed(lot, factor));
    const changes = levels.filter(
      (now, index) => index > 0 && [...now].some((level) => !levels[index - 1]!.has(level)),
    );
    if (changes.length === 0) continue;
    if (lots.length > 2 && changes.length > (lots.length - 1) / 2) always.push(inSentence(factor.label));
    else watched.push({ factor, levels });
  }
  return {
    always,
    at: (position) =>
      watched.flatMap(({ factor, levels }): Change[] => {
        const [before, now] = [levels[position - 1], levels[position]];
        if (before === undefined || now === undefined || before.size === 0) return [];
        const fresh = [...now].filter((level) => !before.has(level));
        return fresh.length === 0 ? [] : [{ name: inSentence(factor.label), before: [...before], now: fresh }];
      }),
  };
}

/** "supplement grade: fine instead of coarse" */
export function changeText({ name, before, now }: Change): string {
  const some = (levels: string[]) =>
    levels.length > 4 ? `${levels.slice(0, 4).join(", ")} and others` : levels.join(", ");
  return `${name}: ${some(now)} after ${some(before)}`;
}
