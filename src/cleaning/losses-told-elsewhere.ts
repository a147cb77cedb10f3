import type { LeftOutRow } from "../records/issue.ts";
import { tellsLoss, withoutDay } from "./read-remarks.ts";
import { namedAsker, namesIn, naming } from "./trays/ask-named.ts";
import type { TrayOptions } from "./trays/read-trays.ts";

/** Why rows are no trays that may still speak of some: lines beside the rows, and sheets of text that are left out. */
const ofText: ReadonlySet<string> = new Set("footnote title-line beside-table no-harvest-sheet no-header".split(" "));

/** The names of which a line tells a loss: of "B2 fine, B3, B4: green, took them out" the last two. */
function lostIn(line: string): string[] {
  const names: string[][] = [];
  const marked = withoutDay(line).replace(naming, (...found) => {
    names.push(namesIn(found));
    return `\ue000${names.length - 1}\ue001`;
  });
  const lost: string[] = [];
  let listed: string[] = [];
  for (const part of marked.split(/[,;!\n()]|\.\s|\s[-–—]\s/)) {
    const own = [...part.matchAll(/\ue000(\d+)\ue001/g)].flatMap(([, at]) => names[Number(at)]!);
    const rest = part.replace(/\ue000\d+\ue001/g, " ");
    listed = [...listed, ...own];
    // "B3, B4: green"
    if (!/\p{L}/u.test(rest)) continue;
    if (tellsLoss(rest)) lost.push(...listed);
    listed = [];
  }
  return lost;
}

/**
 * A tray that a line of text names with a loss, and of which nothing else says what became of it, is asked about.
 * @param lines rows of the book's sheets that are of no tray
 */
export const lossesToldElsewhere =
  (lines: ReadonlyArray<LeftOutRow>): TrayOptions["besides"] =>
  (trays, log) => {
    const ask = namedAsker(trays, log);
    for (const { file, row, cells, rule } of lines) {
      const raw = ofText.has(rule) ? cells.filter((cell) => cell.trim() !== "").join(", ") : "";
      const names = /\d/.test(raw) ? lostIn(raw) : [];
      if (names.length === 0) continue;
      const reason = `${file}, row ${row}, tells of a loss of this tray, and nothing else says what became of it`;
      ask(names, { rule: "loss-told-elsewhere", raw, reason });
    }
  };
