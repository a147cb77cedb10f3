import type { Trial } from "../../src/analysis.ts";
import { mostLevels, type VariedThing } from "../../src/design/varied-things.ts";
import { inSentence } from "../comparison/level-text.ts";

/** Things of which each level of one thing always came with the same level: the two cannot be told apart. Inside a sentence. */
export function cameTogether(thing: VariedThing, things: ReadonlyArray<VariedThing>, { trays }: Trial): string[] {
  if (thing.levels > mostLevels) return [];
  return things
    .filter((other) => other !== thing)
    .filter((other) => {
      const partner = new Map<string, string>();
      return trays.every((tray) => {
        const [own, theirs] = [thing.factor.level(tray), other.factor.level(tray)];
        if (own === undefined || theirs === undefined) return true;
        const before = partner.get(own) ?? theirs;
        partner.set(own, before);
        return before === theirs;
      });
    })
    .map(({ factor }) => inSentence(factor.label));
}
