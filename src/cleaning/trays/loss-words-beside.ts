import { harvestField } from "../../records/harvest-field.ts";
import { isLoss, pickingsOf, sourceOf, sourcesOf } from "../../records/tray.ts";
import { trayProperty } from "../../records/tray-property.ts";
import type { ColumnPlan } from "../columns/column-plan.ts";
import { freeName } from "../columns/free-mark.ts";
import { numbersOf, questionOf, readOutcomeCell } from "../rows/read-outcome-cell.ts";
import { readOutcome } from "../values/outcome-words.ts";
import type { TrayDraft } from "./tray-draft.ts";

/** A word for a loss in a column of names, such as one headed “Brand”. */
export interface LossBeside {
  /** header as typed */
  column: string;
  text: string;
}

/** How far a text in a column of names speaks of a loss: beyond doubt, by a word that may as well be a name, or not. */
type Speaks = "surely" | "perhaps" | "not";

interface NameColumn {
  header: string;
  /** it tells of outcomes, to which another column has the better claim: "Binned on" beside "Outcome" */
  isEnding: boolean;
  textOf(draft: TrayDraft): string | undefined;
}

function speaksOf({ header, isEnding }: NameColumn, text: string): Speaks {
  if (isEnding) {
    const { says } = readOutcomeCell(text, questionOf(header), numbersOf(header));
    if (says === "spent" || isLoss(says)) return "surely";
  }
  const found = readOutcome(text);
  if (found === undefined || !isLoss(found.says)) return "not";
  // "bin 3" is a place
  return found.sure ? "surely" : found.whole && !/\d/.test(text) ? "perhaps" : "not";
}

/** The words of a tray's name, without its number: "lost" of "5 LOST", "contam" of "2 (contam)"; none of a name made up. */
function wordsOfName({ trayId }: TrayDraft): string | undefined {
  const words = trayId.startsWith("row ") ? "" : trayId.replace(/[\d\s()#_./-]+/g, " ").trim();
  return words.length < 3 ? undefined : words;
}

/** The columns of names of a sheet; what the grower said of one by a pin is taken at its word. */
function nameColumns(plans: ReadonlyArray<ColumnPlan>): NameColumn[] {
  return plans.flatMap(({ field, header, because, secondFor }): NameColumn[] => {
    if (because === "pinned in columns.csv") return [];
    if (field === "tray_id") return [{ header, isEnding: false, textOf: wordsOfName }];
    if (field === "factor") {
      const name = freeName(header);
      const textOf = ({ factors }: TrayDraft) => (Object.hasOwn(factors, name) ? factors[name] : undefined);
      return [{ header, isEnding: secondFor === "outcome", textOf }];
    }
    if (!(field in trayProperty) || field === "unread" || harvestField(field).kind !== "text") return [];
    const property = trayProperty[field as keyof typeof trayProperty];
    return [{ header, isEnding: false, textOf: (draft) => draft[property] as string | undefined }];
  });
}

const isWeighed = (draft: TrayDraft): boolean =>
  pickingsOf(draft).some(({ freshGrams, dryGrams }) => freshGrams !== undefined || dryGrams !== undefined);

/** Texts of each column that stand beside a weight, and so name no loss; undefined where nothing is weighed. */
function textsBesideWeights(
  drafts: ReadonlyArray<TrayDraft>,
  columns: ReadonlyMap<string, ReadonlyArray<NameColumn>>,
): ReadonlySet<string> | undefined {
  let texts: Set<string> | undefined;
  for (const draft of drafts) {
    if (!isWeighed(draft)) continue;
    texts ??= new Set();
    for (const { header, textOf } of columns.get(sourceOf(draft).file) ?? []) {
      const text = textOf(draft);
      if (text !== undefined) texts.add(`${header}\n${text}`);
    }
  }
  return texts;
}

/**
 * Looks through the columns of names for losses typed there. A word that may as well be a name ("compost", "green") counts
 * only where other trays were weighed and none of them bears it.
 * @param sheets the columns of every sheet; @param drafts the rows of all sheets
 * @returns what to ask about one tray; undefined where no column speaks of a loss
 */
export function lossWordsBeside(
  sheets: ReadonlyArray<{ file: string; plans: ReadonlyArray<ColumnPlan> }>,
  drafts: ReadonlyArray<TrayDraft>,
): (draft: TrayDraft) => LossBeside | undefined {
  const columns = new Map(sheets.map(({ file, plans }) => [file, nameColumns(plans)]));
  const known = new Map<string, Speaks>();
  let besideWeights: ReadonlySet<string> | "not looked" | undefined = "not looked";
  const isName = (place: string): boolean => {
    if (besideWeights === "not looked") besideWeights = textsBesideWeights(drafts, columns);
    return besideWeights === undefined || besideWeights.has(place);
  };
  return (draft) => {
    for (const { file } of sourcesOf(draft)) {
      for (const column of columns.get(file) ?? []) {
        const { header } = column;
        const text = column.textOf(draft);
        if (text === undefined) continue;
        const place = `${header}\n${text}`;
        const speaks = known.get(place) ?? speaksOf(column, text);
        known.set(place, speaks);
        if (speaks === "not" || (speaks === "perhaps" && isName(place))) continue;
        return { column: header, text };
      }
    }
    return undefined;
  };
}
