import type { HarvestFieldKey } from "../../records/harvest-field.ts";
import { meaningsOf } from "../../records/words/field-phrases.ts";
import { wordsOf } from "../../records/words/header-words.ts";
import { unitOfAnyKind } from "../../records/words/units.ts";
import type { QuantityKind } from "../values/quantity-reading.ts";
import { type CleaningRule, keep } from "./cleaning-rule.ts";

const ahead = /^(\p{L}[\p{L} ]{0,30}?)\s*(?:[:=]\s*|\s)(\d.*)$/u;
const behind = /^(\d[\d.,½¼¾/ ]*\p{L}+)(?:\s*[,(]\s*|\s+)(\p{L}[\p{L} ]{0,30}?)\s*\)?$/u;
const unitAtEnd = /\d\s*(\p{L}+)$/u;

/** An amount with its unit, and the words beside it that name what it is of; undefined for any other text. */
function amountAndName(text: string): { amount: string; name: string } | undefined {
  const [, first = "", amount = ""] = ahead.exec(text) ?? [];
  const [, amountFirst = "", second = ""] = behind.exec(text) ?? [];
  if (first === "" && second === "") return undefined;
  // "LC: 5 ml LC"
  const again = behind.exec(amount)?.[1];
  return first === "" ? { amount: amountFirst, name: second } : { amount: again ?? amount, name: first };
}

function without(text: string, kind: QuantityKind, names: (field: HarvestFieldKey) => boolean): string | undefined {
  const found = amountAndName(text);
  if (found === undefined || unitOfAnyKind(unitAtEnd.exec(found.amount)?.[1] ?? "", kind)?.kind !== kind)
    return undefined;
  return meaningsOf(wordsOf(found.name)).some(({ field }) => names(field)) ? found.amount : undefined;
}

/** An amount of liquid culture without the words that name it; as it is where there are none. */
export const withoutCulture = (text: string): string =>
  without(text, "volume", (field) => field === "inoculum_ml") ?? text;

/** "5 ml LC", "LC: 5 ml", "fresh: 310 g": what the column is of, named again beside the amount. */
export const namedAmount: CleaningRule = {
  code: "named-amount",
  kinds: ["mass", "volume"],
  apply(text, { kind, conventions: { measures } }) {
    const amount = measures === "" ? undefined : without(text, kind, (field) => field === measures);
    return amount === undefined
      ? keep
      : { kind: "rewrite", text: amount, reason: "the words beside the amount repeat what the column is of" };
  },
};
