import type { AnswerFront } from "../../src/analysis.ts";
import { startedCount } from "../../src/design/arm.ts";
import { type VariedLevels, variedLevels } from "../../src/design/varied-levels.ts";
import { counted } from "../../src/records/counted.ts";
import { isLost, type Tray } from "../../src/records/tray.ts";
import { inRow, levelLabel } from "../comparison/level-text.ts";

/** Trays of each dose, or level of what else varied, and how many were lost; one group where none is stated. */
function byLevel(
  trays: ReadonlyArray<Tray>,
  { what, unit, names, levelOf }: VariedLevels,
): { name: string; dose?: number; trays: number; lost: number }[] {
  const values = [...new Set(trays.map(levelOf))].sort((a, b) => (a ?? 0) - (b ?? 0));
  return values.map((value) => {
    const own = trays.filter((tray) => levelOf(tray) === value);
    return {
      name:
        value === undefined
          ? values.length === 1
            ? "all"
            : `no ${what}`
          : (names?.[value] ?? levelLabel({ unit }, String(value))),
      ...(value === undefined || what !== "dose" ? {} : { dose: value }),
      trays: startedCount(own),
      lost: startedCount(own.filter(isLost)),
    };
  });
}

/** A pattern in at most seven words: things that came together in a row, or the first of them. */
function named(name: string): string {
  const together = name.split(" and ");
  const row = inRow(together);
  return row.split(" ").length <= 7 ? row : `${together[0]} and what goes with it`;
}

/**
 * What the front shows of losses: how many of the finished trays, and whether they are tied to anything.
 * @param finished trays, a pool counting as its trays; @param ahead trays lost in cooks that for the most part still grow; @param share lost with its range, 0 to 1
 * @param found what they are tied to, where more than scatter is shown; what is worse than usual now; the pattern that
 *   comes closest, where one leans; the thing that the book says it is about
 */
export function lossesFront(
  finished: ReadonlyArray<Tray>,
  ahead: number,
  share: { low: number; high: number },
  { tie, alarm, watch, varied = "" }: { tie?: string; alarm?: string; watch?: string; varied?: string },
): AnswerFront {
  const [lost, total] = [startedCount(finished.filter(isLost)), startedCount(finished)];
  return {
    short: [
      tie !== undefined
        ? `Losses are tied to something: ${named(tie)}.`
        : alarm !== undefined
          ? `More is lost than usual: ${alarm}.`
          : watch !== undefined
            ? `No cause stands out from chance yet; watch the ${named(watch)}.`
            : ahead > 0
              ? `${counted(ahead, "tray is", "trays are")} lost so far in cooks that still grow.`
              : lost === 0
                ? "No finished tray was lost."
                : "No cause stands out from chance.",
    ],
    figure: {
      label: ahead === 0 ? "lost" : "lost in finished cooks",
      value: lost,
      of: total,
      unit: "trays",
      from: Math.min(share.low * total, lost),
      to: Math.max(share.high * total, lost),
    },
    strip: { kind: "losses", groups: byLevel(finished, variedLevels(finished, varied)) },
  };
}
