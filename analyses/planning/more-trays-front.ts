import type { AnswerFront } from "../../src/analysis.ts";

/**
 * What the front shows of more trays: how many a dose, and the chance reached so far to see a difference worth having.
 * @param decided whether the trays there are have shown that dose matters
 * @param needed trays a dose and cooks still to come for the worthwhile difference; undefined where out of reach
 * @param share the worthwhile difference as a share of a tray; @param reached chance so far; @param wanted chance wanted
 */
export function moreTraysFront(
  decided: boolean,
  needed: { moreTraysPerDose: number; moreCooks: number } | undefined,
  share: number,
  reached: number,
  wanted: number,
): AnswerFront {
  const percent = `${Math.round(share * 100)}%`;
  const isDone = needed?.moreCooks === 0;
  const trays = needed?.moreTraysPerDose ?? 0;
  return {
    short: [
      decided
        ? "No more trays are needed to know that dose matters."
        : isDone
          ? `These trays would have shown ${percent} of a tray; a smaller difference may be there.`
          : needed === undefined
            ? `A difference of ${percent} of a tray is out of reach here.`
            : `${needed.moreCooks} more ${needed.moreCooks === 1 ? "cook" : "cooks"} would show a difference of ${percent} of a tray.`,
    ],
    figure: {
      label: decided && !isDone ? `a dose, to see ${percent}` : "more, of each dose",
      value: trays,
      unit: "trays",
    },
    strip: { kind: "chance", name: `chance to see ${percent}`, value: reached, wanted },
    ...(decided || isDone || needed === undefined
      ? {}
      : {
          next: [
            {
              rank: "trial",
              act: [`Fill ${trays} more ${trays === 1 ? "tray" : "trays"} of each dose.`],
              because: [
                `Over ${needed.moreCooks} ${needed.moreCooks === 1 ? "cook" : "cooks"}, every dose in each, drawn by lot.`,
              ],
            },
          ],
        }),
  };
}
