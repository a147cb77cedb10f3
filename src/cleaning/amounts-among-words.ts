import type { Issue } from "../records/issue.ts";
import type { RawTable } from "../records/sheet.ts";
import { fold } from "../records/words/fold.ts";
import { phrasesOf } from "../records/words/languages.ts";
import type { ColumnPin } from "./columns/column-plan.ts";
import type { MeaningsOf } from "./columns/remembered-meanings.ts";
import { isTreatment } from "./columns/treatment-name.ts";
import { withOtherColumns } from "./other-columns.ts";

interface Apart {
  words: string;
  amount: string;
}

const number = "\\d[\\d.,½¼¾]*";
const beside = (units: string): RegExp =>
  new RegExp(
    `^(?:(?<first>${number} ?(?:${units}))[\\s,_/-]+(?:of )?(?<behind>[^\\d].*|\\d+)|(?<before>.*?)[\\s,:_(/-]*(?<last>(?<!\\d)${number} ?(?:${units})\\)?))$`,
    "iu",
  );
const doseAnd = beside("ml|cc");
const gramsAnd = beside("g|gr|grams?");
const doseAlone = new RegExp(`^${number} ?(?:ml|cc)$`, "i");
const nothing = new Set(phrasesOf((words) => words.no));

/** The amount of a cell, and the words beside it; undefined where it has none, or another figure among the words. */
function apart(cell: string, pattern: RegExp, mayHaveFigures: boolean): Apart | undefined {
  const { first, behind = "", before = "", last = "" } = pattern.exec(cell.trim())?.groups ?? {};
  const [words, amount] = [first === undefined ? before : behind, first ?? last.replace(/\)$/, "")];
  return amount === "" || words.trim() === "" || (!mayHaveFigures && /\d/.test(words))
    ? undefined
    : { words: words.trim(), amount };
}

/** What is read off the cells of a column, and the name of the column it goes into. */
interface Found {
  column: number;
  /** of the column of its words */
  name: string;
  into: string;
  /** the words are the tray's name, which stays whole */
  isName: boolean;
  read(cell: string): Apart | undefined;
}

function columnOf(table: RawTable, pins: ReadonlyArray<ColumnPin>, meaningsOf: MeaningsOf): Found | undefined {
  const meant = table.header.map((name): string[] => {
    const pin = pins.find(({ header }) => header === name);
    return pin === undefined ? meaningsOf(name).map(({ field }) => field) : [pin.field];
  });
  const has = (...fields: string[]): boolean => meant.some((one) => one.some((field) => fields.includes(field)));
  const hasDose = has("inoculum_ml", "spawn_g", "spawn_pct");
  const candidates = table.header.flatMap((name, column): Found[] => {
    const fields = meant[column]!;
    if (fields.includes("supplement") && !meant.some((one, at) => at !== column && one.includes("supplement_g"))) {
      const none = (cell: string) => (nothing.has(fold(cell)) ? { words: "", amount: "0" } : undefined);
      const read = (cell: string) => apart(cell, gramsAnd, false) ?? none(cell);
      return [{ column, name, into: "Supplement (g)", isName: false, read }];
    }
    const isName = fields[0] === "tray_id";
    // "Strain / dose"
    const [strain = "", dose = ""] = fields.length > 0 ? [] : name.split(/\s*[/+&,]\s*/);
    const isStrain = dose !== "" && meaningsOf(strain)[0]?.field === "strain";
    const isBoth = isStrain && meaningsOf(dose).some(({ field }) => field === "inoculum_ml");
    const mayBeAlone = fields.length === 0 && isTreatment(name);
    const mayHold = isName || isBoth || fields[0] === "strain" || mayBeAlone;
    if (hasDose || !mayHold) return [];
    const read = (cell: string) => {
      if (mayBeAlone && doseAlone.test(cell)) return { words: "", amount: cell };
      // "no LC"
      const [, none = "", of = ""] = /^(\p{L}+) (\p{L}.*)$/u.exec(cell.trim()) ?? [];
      if (nothing.has(fold(none)) && !isName && meaningsOf(of, true).some(({ field }) => field === "inoculum_ml"))
        return { words: "", amount: "0" };
      const found = apart(cell, doseAnd, true);
      // "water 5 ml" is no dose of culture
      const named = meaningsOf(found?.words ?? "", true).map(({ field }) => field);
      const isOther = named.length > 0 && !named.includes("inoculum_ml") && !named.includes("strain");
      return isOther && !isName ? undefined : found;
    };
    return [{ column, name: isBoth ? strain : name, into: "Inoculum", isName, read }];
  });
  return candidates.find(({ column, into, read }) => {
    const amounts = new Set<string>();
    let others = 0;
    table.forEachRow((cells) => {
      const cell = cells[column]!.trim();
      if (/^[-–—.]*$/.test(cell)) return;
      const found = read(cell);
      // 500 ml is no dose but a jar; common practice, no source
      if (found === undefined || (into === "Inoculum" && Number.parseFloat(found.amount) >= 100)) others++;
      else if (/\d/.test(found.amount)) amounts.add(found.amount);
    });
    return others === 0 && amounts.size > 1;
  });
}

/**
 * Parts a column whose every cell holds an amount among words into two: "Blue 5 ml" under "Treatment" or "Strain" is Blue
 * and a dose, "20 g bran" a supplement and its grams, "5 ml" alone under "Treatment" a dose; the tray "5ml-1" keeps its name.
 */
export function withAmountsApart(
  tables: ReadonlyArray<RawTable>,
  pins: ReadonlyArray<ColumnPin>,
  meaningsOf: MeaningsOf,
): { tables: RawTable[]; issues: Issue[] } {
  return withOtherColumns(tables, (table) => {
    const found = columnOf(table, pins, meaningsOf);
    if (found === undefined) return undefined;
    const { column, into, isName } = found;
    const header = [...table.header.map((own, at) => (at === column ? found.name : own)), into];
    return {
      ...{ rule: "amount-among-words", column, result: into, header },
      reason: `each of its cells holds an amount among words: read as a column “${into}” of its own`,
      change(cells) {
        const parts = found.read(cells[column]!);
        if (parts !== undefined && !isName) cells[column] = parts.words;
        cells.push(parts?.amount ?? "");
      },
    };
  });
}
