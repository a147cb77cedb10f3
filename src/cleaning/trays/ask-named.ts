import { sourceOf } from "../../records/tray.ts";
import { phrasesOf } from "../../records/words/languages.ts";
import { outcomesExpected } from "../values/outcome-words.ts";
import { addFlag } from "./add-flag.ts";
import { weighedWith } from "./settle-outcome.ts";
import type { TrayDraft } from "./tray-draft.ts";
import { byName } from "./tray-key.ts";
import { logAtRow, type TrayLog } from "./tray-log.ts";

const trayWords = phrasesOf(({ tray }) => tray).join("|");
const joins = phrasesOf((words) => words.joins).map((join) => join.replace(/[+&]/g, "\\$&"));
const numbers = `\\d{1,4}(?:\\s*(?:,|/|${joins.join("|")})\\s*\\d{1,4})*(?![\\p{L}\\d]|\\s*(?:${trayWords}))`;
/** "B3"; "trays 2, 4 and 5", "with 2" */
export const naming = new RegExp(
  `(?<!\\p{L})(${trayWords}|with|mit|avec|con|met|z|com)\\p{L}{0,3}\\.?\\s*(?:n[or°º]\\.?\\s*|#)?(${numbers})|(?<![\\p{L}\\d])\\p{L}{1,8}[-_ ]?\\d{1,4}\\p{L}?(?![\\p{L}\\d])`,
  "giu",
);

/** The names that an expression of a text may stand for: "tray 3" for "3" and "T3". @param found by `naming` */
export const namesIn = ([whole, thing, list]: ReadonlyArray<string>): string[] =>
  thing === undefined || list === undefined
    ? [whole!]
    : (list.match(/\d+/g) ?? []).flatMap((digits) => [digits, `${thing} ${digits}`, `${thing[0]}${digits}`]);

/** What a text elsewhere says of a tray. */
interface Told {
  rule: string;
  raw: string;
  reason: string;
}

/** Asks about trays, of the names given, of which their own rows say nothing, so that they would count as growing. */
export function namedAsker(trays: ReadonlyArray<TrayDraft>, log: TrayLog) {
  let find: ReturnType<typeof byName<TrayDraft>> | undefined;
  return (names: ReadonlyArray<string>, told: Told, batch?: string): void => {
    find ??= byName(trays);
    const meant = [...new Set(names.flatMap(find))].filter(({ outcome }) => outcome === "growing");
    const ofCook = meant.filter((tray) => tray.batch === batch);
    for (const tray of ofCook.length > 0 ? ofCook : meant) {
      tray.outcome = "asked";
      addFlag(tray, told.rule);
      logAtRow(log, tray.trayId, sourceOf(tray), "outcome", {
        ...{ ...told, severity: "warning", result: "asked", expected: outcomesExpected },
        action: `Type the outcome: ${outcomesExpected}`,
      });
    }
  };
}

/** A tray that was weighed with another by the note of that one: it is asked what became of it. */
export function askWeighedWith(trays: ReadonlyArray<TrayDraft>, log: TrayLog): void {
  const ask = namedAsker(trays, log);
  for (const { note = "", trayId, batch } of trays) {
    const from = weighedWith(note);
    if (from === undefined) continue;
    const names = [...note.slice(from).matchAll(naming)].flatMap(namesIn);
    const reason = `the note of tray ${trayId} says that both were weighed together, so it is not known what this one gave`;
    ask(names, { rule: "weighed-with-others", raw: note, reason }, batch);
  }
}
