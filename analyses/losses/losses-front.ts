import type { AnswerFront } from "../../src/analysis.ts";
import type { Tray } from "../../src/records/tray.ts";
import { isLost } from "../comparison/tray-response.ts";

/** Trays of each dose, and how many were lost; one group where no dose is stated. */
function byDose(trays: ReadonlyArray<Tray>): { name: string; dose?: number; trays: number; lost: number }[] {
  const doses = [...new Set(trays.map(({ inoculumMillilitres }) => inoculumMillilitres))].sort(
    (a, b) => (a ?? 0) - (b ?? 0),
  );
  return doses.map((dose) => {
    const own = trays.filter(({ inoculumMillilitres }) => inoculumMillilitres === dose);
    return {
      name: dose === undefined ? "all" : `${dose} mL`,
      ...(dose === undefined ? {} : { dose }),
      trays: own.length,
      lost: own.filter(isLost).length,
    };
  });
}

/**
 * What the front shows of losses: how many of the finished trays, and whether they are tied to anything.
 * @param units finished trays, one a unit; @param share lost with its range, 0 to 1
 * @param found what they are tied to, where more than scatter is shown; what is worse than usual now; the pattern that
 *   comes closest, where one leans
 */
export function lossesFront(
  units: ReadonlyArray<Tray>,
  share: { low?: number; high?: number },
  { tie, alarm, watch }: { tie?: string; alarm?: string; watch?: string },
): AnswerFront {
  const lost = units.filter(isLost).length;
  const named = (name: string) => name.split(" ").slice(0, 6).join(" ");
  return {
    short: [
      tie !== undefined
        ? `Losses are tied to something: ${named(tie)}.`
        : alarm !== undefined
          ? `More is lost than usual: ${alarm}.`
          : watch !== undefined
            ? `No cause stands out from chance yet; watch the ${named(watch)}.`
            : lost === 0
              ? "No finished tray was lost."
              : "No cause stands out from chance.",
    ],
    figure: {
      label: "lost",
      value: lost,
      of: units.length,
      unit: "trays",
      ...(share.low === undefined || share.high === undefined
        ? {}
        : { from: Math.min(share.low * units.length, lost), to: Math.max(share.high * units.length, lost) }),
    },
    strip: { kind: "losses", groups: byDose(units) },
  };
}
