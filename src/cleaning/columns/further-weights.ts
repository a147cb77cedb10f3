import { isWeightField } from "../../records/harvest-field.ts";
import { bareOrdinal, numberedHeader } from "../../records/words/flush-words.ts";
import type { ColumnDoubt, ColumnMeaning, ColumnPin } from "./column-plan.ts";
import { headerParts } from "./header-unit.ts";
import { meaningsOfHeader } from "./match-columns.ts";
import { askWhich } from "./weights-in-doubt.ts";

const isWeight = ({ field, flush }: ColumnMeaning): boolean => isWeightField(field) && flush === undefined;

/** What a weight is called that comes on top of one, in the eight languages, from memory. */
const further =
  /(?<!\p{L})(?:more|extra|again|later|further|another|additional|rest|weitere[rs]?|später|encore|más|después|ancora|dopo|nog|jeszcze|mais|depois)(?!\p{L})/iu;

/** Whether a name that nobody is known to write may be that of a further weight: "2nd", "Weight 2 (g)", "Fresh g later". */
function mayBeFurther(name: string): boolean {
  const { name: bare, units } = headerParts(name);
  if (bareOrdinal(name) !== undefined || (units.some(({ kind }) => kind === "mass") && bareOrdinal(bare) !== undefined))
    return true;
  const numbered = numberedHeader(name);
  if (numbered !== undefined && meaningsOfHeader(numbered.name, true).some(isWeight)) return true;
  if (!further.test(name)) return false;
  const left = name.replace(further, " ").trim();
  return meaningsOfHeader(left, true).some(isWeight) || /^[([]?\s*(?:g|grams?|oz)\s*[)\]]?$/i.test(left);
}

/** A column beside a fresh weight that may be more of it is asked about, and the weight with it. */
export function setFurtherAside(
  header: ReadonlyArray<string>,
  options: ColumnMeaning[][],
  pinned: ReadonlyArray<ColumnPin | undefined>,
  doubts: Map<number, ColumnDoubt>,
): void {
  const first = options.findIndex(([one, other]) => one?.field === "fresh_g" && other === undefined);
  if (first < 0 || pinned[first] !== undefined) return;
  header.forEach((name, index) => {
    if (index <= first || options[index]!.length > 0 || pinned[index] !== undefined || !mayBeFurther(name)) return;
    askWhich("fresh_g", [first, index], options, doubts);
  });
}
