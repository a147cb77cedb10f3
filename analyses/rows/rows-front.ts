import type { AnswerFront, NextStep } from "../../src/analysis.ts";
import type { Outlier } from "../../src/statistics/descriptive/robust-outliers.ts";
import type { Doubts } from "./row-doubts.ts";

interface Doubt {
  trays: ReadonlyArray<string>;
  of: number;
  /** figures that change without them */
  moved: number;
  wide: Doubts["wide"];
  /** the value farthest from what its dose and cook give, and its unit */
  farthest: { outlier: Outlier; unit: string } | undefined;
}

/** A tray whose name is a bare number needs the word before it. */
const trayNamed = (name: string): string => (/^\d/.test(name) ? `tray ${name}` : name);

/** What the front shows of the rows: how many are in doubt, and which tray to look at first. */
export function rowsFront({ trays, of, moved, wide, farthest }: Doubt): AnswerFront {
  const [first] = trays;
  const answer: NextStep[] =
    wide === undefined
      ? []
      : [
          {
            rank: "doubtful",
            act: [`Answer one question about ${wide.trays} trays.`],
            because: [`${wide.reason.replace(/^./, (letter) => letter.toUpperCase())}.`],
            see: "which-rows-cannot-be-trusted",
          },
        ];
  const weigh: NextStep[] =
    first === undefined
      ? []
      : [
          {
            rank: "doubtful",
            act: [
              trays.length === 1
                ? `Look again at ${trayNamed(first)}.`
                : `Re-read ${trays.length} trays, ${farthest?.outlier.tray ?? first} first.`,
            ],
            ...(farthest === undefined
              ? {}
              : {
                  because: [
                    { value: farthest.outlier.value, unit: farthest.unit },
                    "; trays like it near ",
                    { value: farthest.outlier.expected, unit: farthest.unit },
                    ".",
                  ],
                }),
            see: `tray:${farthest?.outlier.tray ?? first}`,
          },
        ];
  return {
    short: [
      trays.length === 0
        ? wide === undefined
          ? "No row is doubtful."
          : "No tray stands out; one question is open for most."
        : moved === 0
          ? `Mean yield and losses stay much the same without ${trays.length === 1 ? "it" : "them"}.`
          : `${moved === 1 ? "A main figure changes" : `${moved} main figures change`} without ${trays.length === 1 ? "it" : "them"}.`,
    ],
    figure:
      trays.length === 1
        ? { label: "to look at", text: trayNamed(first!) }
        : { label: "trays to look at", value: trays.length, of, unit: "trays" },
    strip: {
      kind: "losses",
      groups: [{ name: "in doubt", trays: of, lost: trays.length }],
    },
    next: [...answer, ...weigh],
  };
}
