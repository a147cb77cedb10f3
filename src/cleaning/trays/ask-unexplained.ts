import { isLoss, sourceOf } from "../../records/tray.ts";
import { saysOfSetUp } from "../../records/words/field-phrases.ts";
import { fold } from "../../records/words/fold.ts";
import { meaningsOfHeader } from "../columns/match-columns.ts";
import type { HarvestTable } from "../rows/read-harvest-table.ts";
import { questionOf, readOutcomeCell } from "../rows/read-outcome-cell.ts";
import { isFilling } from "../values/outcome-phrases.ts";
import { outcomesExpected, readOutcome } from "../values/outcome-words.ts";
import { yesOrNo } from "../values/yes-or-no.ts";
import { addFlag } from "./add-flag.ts";
import type { TrayDraft } from "./tray-draft.ts";
import { logAtRow, type TrayLog } from "./tray-log.ts";

/** A note that is understood, or made of words for things of the set-up only ("moved to shelf 2"). */
function isUnderstood(note: string): boolean {
  if (readOutcome(note) !== undefined) return true;
  // "Colonised? yes"
  if (note.split(" | ").every((part) => /^(?!x$)\p{L}+$/iu.test(part) && yesOrNo(part) !== undefined)) return true;
  const words = fold(note).split(" ");
  return (
    words[0] !== "" &&
    words.every((word) => /^\d+$/.test(word) || isFilling(word) || (word.length > 2 && saysOfSetUp(word)))
  );
}

/** Whether the outcomes of a sheet begin with a tick or a yes that is no loss. */
export const marksGood = ({ columns }: Pick<HarvestTable, "columns">): boolean =>
  columns.some(
    ({ field, header, example = "" }) =>
      field === "outcome" && yesOrNo(example) === true && readOutcomeCell(example, questionOf(header)).says === "good",
  );

/** Whether a note is nothing but a tick. */
const isTick = ({ note }: TrayDraft): boolean => note !== undefined && note.length < 4 && yesOrNo(note) === true;

/** Trays without mark, note and weight in sheets whose marks, under any name, say which trays are good: "✓", "✓", "". */
function unmarked(trays: ReadonlyArray<TrayDraft>, log: TrayLog): TrayDraft[] {
  const ticked = new Set<string>();
  const others = new Set<string>();
  for (const draft of trays) {
    const { file } = sourceOf(draft);
    if (isTick(draft) && draft.outcome === "good") ticked.add(file);
    else if (isTick(draft) || isLoss(draft.outcome)) others.add(file);
  }
  return trays.filter((draft) => {
    const { file } = sourceOf(draft);
    const isMarked = log.marksGood(file) || ticked.has(file);
    return draft.outcome === "growing" && draft.note === undefined && !others.has(file) && isMarked;
  });
}

/** What a tray's notes and columns of the grower's own answer by yes or no: "Did it fruit?". */
const answersOf = ({ factors, note = "" }: TrayDraft): [header: string, isYes: boolean][] =>
  [...Object.entries(factors), ["", note] as const].flatMap(([header, text]): [string, boolean][] => {
    const isYes = /^(?!x$)\p{L}+$/iu.test(text) ? yesOrNo(text) : undefined;
    return isYes === undefined ? [] : [[header, isYes]];
  });

/** "Harvested: no" says that a tray grows on. */
const isOfHarvest = (header: string): boolean =>
  meaningsOfHeader(header, true).some(({ field }) => field === "harvested_on");

/** Trays without an end whose answer in some column no tray that ended has, where these have the other one. */
function answeredApart(trays: ReadonlyArray<TrayDraft>): Map<TrayDraft, string> {
  const found = new Map<TrayDraft, string>();
  const open = trays.filter((draft) => draft.outcome === "growing" && answersOf(draft).length > 0);
  if (open.length === 0) return found;
  const ended = new Set(
    trays.flatMap((draft) => (draft.outcome === "growing" ? [] : answersOf(draft).map((answer) => answer.join("\t")))),
  );
  for (const draft of open)
    for (const [header, isYes] of answersOf(draft))
      if (!isOfHarvest(header) && ended.has(`${header}\t${!isYes}`) && !ended.has(`${header}\t${isYes}`))
        found.set(draft, header);
  return found;
}

/**
 * A note that nobody understands may be why its tray has no weight, and so may the want of a mark where marks say which
 * trays are good: it is asked about, rather than counted as growing, where it is just such trays that were not picked, and
 * at least as many of the same start as they are were.
 * @param open trays of which only a note tells anything; changed in place
 */
export function askUnexplained(trays: ReadonlyArray<TrayDraft>, open: ReadonlySet<TrayDraft>, log: TrayLog): void {
  const startOf = (draft: TrayDraft): string => draft.batch ?? draft.inoculatedOn ?? sourceOf(draft).file;
  const noted = [...open].filter((draft) => draft.outcome === "growing" && !isUnderstood(draft.note ?? ""));
  const apart = answeredApart(trays);
  const asked = [...new Set([...noted, ...unmarked(trays, log), ...apart.keys()])];
  if (asked.length === 0) return;
  const starts = new Map(asked.map((draft) => [startOf(draft), { ended: 0, asked: 0, growing: 0 }]));
  const doubted = new Set(asked);
  for (const draft of trays) {
    const start = starts.get(startOf(draft));
    if (start === undefined) continue;
    if (doubted.has(draft)) start.asked++;
    else if (draft.outcome === "growing") start.growing += draft.note === undefined ? 1 : 0;
    else start.ended++;
  }
  for (const draft of asked) {
    const start = starts.get(startOf(draft))!;
    if (start.growing > 0 || start.ended < start.asked) continue;
    const { note = "" } = draft;
    const header = apart.get(draft);
    const [rule, why] =
      header !== undefined
        ? ["answered-apart", "only such trays have this answer: lost, or still growing"]
        : note === ""
          ? ["mark-missing", "it has no mark, and marks say which trays are good: lost, or still growing"]
          : ["note-not-understood", "no known word of its note says whether it was lost or grows on"];
    draft.outcome = "asked";
    addFlag(draft, rule);
    logAtRow(log, draft.trayId, sourceOf(draft), note === "" ? "outcome" : "note", {
      ...(header ? { column: header } : {}),
      rule,
      severity: "warning",
      raw: header ? draft.factors[header]! : note,
      result: "asked",
      reason: `the others of its start have ended, and ${why}`,
      expected: outcomesExpected,
      action: `Type the outcome: ${outcomesExpected}`,
    });
  }
}
