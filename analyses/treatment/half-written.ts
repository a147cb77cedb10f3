import type { Missing, Sentence, Trial } from "../../src/analysis.ts";
import { halfWrittenThings } from "../../src/design/varied-things.ts";
import { hasEnded } from "../../src/records/tray.ts";
import { inSentence } from "../comparison/level-text.ts";
import { levelOf } from "./verdict-words.ts";

/** Why nothing is compared where one level is written and the rest is blank, and what would settle it. */
export interface HalfWritten {
  /** follows "Cannot tell ...: " */
  reason: Sentence;
  remedy: Sentence;
  missing: Missing;
}

/** Blank cells beside the only level of a thing: the trays may differ, and nothing says how; undefined where there are none. */
export function halfWritten({ trays }: Trial): HalfWritten | undefined {
  const [half] = halfWrittenThings(trays.filter(hasEnded));
  if (half === undefined) return undefined;
  const { factor, level, blank } = half;
  const what = inSentence(factor.label);
  const isAmount = factor.value !== undefined;
  return {
    reason: [
      levelOf(factor, isAmount ? Number(level) : level),
      ` is the only ${what} written, and ${blank} finished trays have none written.`,
    ],
    remedy: [`Type ${isAmount ? "0" : "none"}, or what they had, as the ${what} of these trays.`],
    missing: { kind: "record", need: `the ${what} of the trays where it is blank` },
  };
}
