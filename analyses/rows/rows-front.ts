import type { AnswerFront, NextStep } from "../../src/analysis.ts";
import type { Issue } from "../../src/records/issue.ts";
import { trayNamed } from "../../src/records/tray.ts";
import { type Doubts, doubtfulCount } from "./row-doubts.ts";

/** Longer words about a cell stand in the table alone. */
const longest = 60;

/** What stands in a cell and what was expected, in a few words. */
function doubtIn(issue: Issue | undefined): string | undefined {
  if (issue === undefined || issue.expected === "") return undefined;
  const said = `“${issue.raw}”, expected ${issue.expected}.`;
  return said.length > longest ? undefined : said;
}

/** What the front shows of the rows: how many are in doubt, and which tray to look at first. */
export function rowsFront(doubts: Doubts, of: number): AnswerFront {
  const { doubtful, moved, wide } = doubts;
  const [first] = doubtful;
  const name = first === undefined ? "" : trayNamed(first.tray.trayId);
  const because = doubtIn(first?.issues[0]);
  const count = doubtfulCount(doubts);
  const answer: NextStep[] =
    wide?.isOpen !== true
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
            // trays without which nothing changes wait behind what is due
            rank: moved.length > 0 ? "doubtful" : "record",
            act: [count === 1 ? `Re-read ${name}.` : `Re-read ${count} trays, ${name} first.`],
            ...(because === undefined ? {} : { because: [because] }),
            see: `tray:${first.tray.trayId}`,
          },
        ];
  return {
    short: [
      count === 0
        ? wide === undefined
          ? "No row is doubtful."
          : `No tray stands out; one ${wide.isOpen ? "question is open" : "doubt is the same"} for most.`
        : moved.length === 0
          ? `Mean yield and losses stay much the same without ${count === 1 ? "it" : "them"}.`
          : `${moved.length === 1 ? "A main figure changes" : `${moved.length} main figures change`} without ${count === 1 ? "it" : "them"}.`,
    ],
    figure:
      count === 1
        ? { label: "to re-read", text: name }
        : { label: "trays to re-read", value: count, of, unit: "trays" },
    strip: {
      kind: "losses",
      groups: [{ name: "in doubt", trays: of, lost: count }],
    },
    next: [...answer, ...weigh],
  };
}
