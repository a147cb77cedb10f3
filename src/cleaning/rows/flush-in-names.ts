import type { RawTable } from "../../records/sheet.ts";
import { flushInHeader } from "../../records/words/flush-words.ts";
import { trayKey } from "../trays/tray-key.ts";
import type { CellFact } from "./cell-fact.ts";

/** A tray's name with one of its flushes. */
interface NamedFlush {
  tray: string;
  flush: number;
  /** by a letter only, which may belong to the name: "3 F2" */
  byLetter: boolean;
}

const lettered = /^(.*[\p{L}\d])[\s_.,/-]*[\s_.,/(-]F\.?\s?([1-9])\)?$/iu;
const spoken =
  /^(.*?[\p{L}\d])\s*[\s_,;:/(-]\s*((?:\p{L}{2,}[\s.#-]*\d|\d(?:st|nd|rd|th|\.|e|ª|º|er|re|a|o)?[\s-]*\p{L}{2,}|\p{L}{3,} \p{L}{4,})\)?)$/u;

/** The tray and the flush of a name that speaks of one: "1 F2", "Tray 1, 2nd flush", "B3 flush 1". */
function namedFlush(text: string): NamedFlush | undefined {
  const letter = lettered.exec(text);
  if (letter !== null) return { tray: letter[1]!, flush: Number(letter[2]), byLetter: true };
  const [, tray = "", said = ""] = spoken.exec(text) ?? [];
  const found = said === "" ? undefined : flushInHeader(said.replace(")", ""));
  return found === undefined || found.rest !== "" ? undefined : { tray, flush: found.flush, byLetter: false };
}

/** Two letters on end, or an F near the end: most names of trays have neither, and no flush. */
const hasWordOrF = /\p{L}\p{L}|F\W{0,2}\d\)?\s*$/iu;

/** Whether a cell of names may speak of a flush, which its whole column decides. */
export const mayNameFlush = (text: string): boolean =>
  text.length > 3 && hasWordOrF.test(text) && namedFlush(text.trim()) !== undefined;

/** The flushes that names of a table speak of, by the name as typed. */
export type FlushNames = ReadonlyMap<string, CellFact>;

/**
 * Decides on the names of a column that may each speak of a flush. Words for one always do; a letter with a number only
 * where each such tray has its first flush, one of them a second, and most names are of this form.
 * @param hasFlushes whether a column of its own numbers the flushes
 * @param isPinned whether the grower said that the column holds the names of trays, so that letters are part of them
 */
export function flushNames(table: RawTable, index: number, hasFlushes: boolean, isPinned: boolean): FlushNames {
  const found = new Map<string, NamedFlush>();
  const trays = new Map<string, Set<number>>();
  let names = 0;
  if (hasFlushes) return new Map();
  table.forEachRow((cells) => {
    const text = cells[index]!.trim();
    if (text === "" || found.has(text)) return;
    names++;
    const named = namedFlush(text);
    if (named === undefined) return;
    found.set(text, named);
    const key = trayKey(named.tray);
    trays.set(key, (trays.get(key) ?? new Set()).add(named.flush));
  });
  const areFlushes =
    !isPinned &&
    found.size >= names / 2 &&
    [...trays.values()].every((flushes) => flushes.has(1)) &&
    [...trays.values()].some((flushes) => flushes.has(2));
  return new Map(
    [...found].flatMap(([text, { tray, flush, byLetter }]) =>
      byLetter && !areFlushes ? [] : [[text, flushFact(tray, flush, byLetter)] as const],
    ),
  );
}

const flushFact = (tray: string, flush: number, byLetter: boolean): CellFact => ({
  value: tray,
  flush,
  remark: {
    rule: "flush-in-name",
    severity: "note",
    reason: "the name of a tray and one of its flushes: the flushes of one tray are added up",
    result: `${tray}, flush ${flush}`,
    expected: "",
    action: byLetter
      ? "If each is a tray of its own, say in columns.csv that the column is tray_id"
      : "If each is a tray of its own, take the words for a flush out of its name",
  },
});
