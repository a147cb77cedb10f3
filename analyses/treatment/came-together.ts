import type { Trial } from "../../src/analysis.ts";
import type { Factor } from "../../src/design/factor.ts";
import { mostLevels, type VariedThing } from "../../src/design/varied-things.ts";
import type { Tray } from "../../src/records/tray.ts";
import { inSentence } from "../comparison/level-text.ts";

/** Whether each level of one thing always came with the same level of another. */
export function alwaysWith(one: Factor, other: Factor, trays: ReadonlyArray<Tray>): boolean {
  const partner = new Map<string, string>();
  return trays.every((tray) => {
    const [own, theirs] = [one.level(tray), other.level(tray)];
    if (own === undefined || theirs === undefined) return true;
    const before = partner.get(own) ?? theirs;
    partner.set(own, before);
    return before === theirs;
  });
}

/** Whether both changed among the trays on which both are written: of two sheets that each vary one thing, neither is told. */
function bothChanged(one: Factor, other: Factor, trays: ReadonlyArray<Tray>): boolean {
  const both = trays.filter((tray) => one.level(tray) !== undefined && other.level(tray) !== undefined);
  return [one, other].every((factor) => both.some((tray) => factor.level(tray) !== factor.level(both[0]!)));
}

/** One is told by the other: its own levels, or those of a thing with fewer than twice as many. Periods overlap by nature. */
function goTogether(one: VariedThing, other: VariedThing, trays: ReadonlyArray<Tray>): boolean {
  if (one.isPeriod && other.isPeriod) return true;
  return (
    bothChanged(one.factor, other.factor, trays) &&
    (alwaysWith(one.factor, other.factor, trays) ||
      (other.levels < 2 * one.levels && alwaysWith(other.factor, one.factor, trays)))
  );
}

/** Things that one thing always came together with: they cannot be separated from it. Inside a sentence. */
export function cameTogether(thing: VariedThing, things: ReadonlyArray<VariedThing>, { trays }: Trial): string[] {
  if (thing.levels > mostLevels) return [];
  return things
    .filter((other) => other !== thing && goTogether(thing, other, trays))
    .map(({ factor }) => inSentence(factor.label));
}
