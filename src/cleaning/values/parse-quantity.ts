import { quantityKinds } from "../../records/words/units.ts";
import type { CleaningRule, RuleContext } from "../rules/cleaning-rule.ts";
import { cleaningRules } from "../rules/index.ts";
import type { Change, Conventions, QuantityKind, QuantityReading } from "./quantity-reading.ts";
import { readAmount, readBareNumber, sizeCanBeMeant } from "./read-amount.ts";

const rulesFor: ReadonlyMap<QuantityKind, ReadonlyArray<CleaningRule>> = new Map(
  quantityKinds.map((kind) => [
    kind,
    cleaningRules.filter(({ kinds }) => kinds === "every kind" || kinds.includes(kind)),
  ]),
);

/** A cell longer than this is prose, not a number. */
const longestNumber = 120;

/** Powers of ten by their exponent, as many as a plain number has decimals. */
const tens = [1, 10, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15, 1e16] as const;

/**
 * The number a text of plain digits stands for, with at most one decimal point that nobody could take for a thousands
 * mark; -1 for any other text. The quick way past every rule.
 * @param pointIsDecimal whether "1.234" may be taken for one and a bit
 */
export function plainNumber(text: string, pointIsDecimal: boolean): number {
  const { length } = text;
  if (length === 0 || length > 16) return -1;
  let point = -1;
  let digits = 0;
  for (let at = 0; at < length; at++) {
    const code = text.charCodeAt(at);
    if (code >= 48 && code <= 57) digits = digits * 10 + (code - 48);
    else if (code === 46 && point === -1 && at > 0) point = at;
    else return -1;
  }
  if (point === -1) return length > 15 ? -1 : digits;
  const decimals = length - point - 1;
  if (decimals === 0) return -1;
  if (!pointIsDecimal && decimals === 3 && point <= 3 && text.charCodeAt(0) !== 48) return -1;
  // both exact below 2^53, so that the quotient is the nearest double, as Number(text) has it
  return digits / tens[decimals]!;
}

function applyRules(
  typed: string,
  kind: QuantityKind,
  conventions: Readonly<Conventions>,
  rules: ReadonlyArray<CleaningRule>,
  from: number,
): QuantityReading {
  let text = typed;
  let approximate = false;
  const changes: Change[] = [];
  const finish = (reading: QuantityReading): QuantityReading => {
    const all = { ...reading, changes: [...changes, ...reading.changes] };
    return approximate && all.kind === "value" ? { ...all, kind: "approximate" } : all;
  };
  for (let index = from; index < rules.length; index++) {
    const rule = rules[index]!;
    const context: RuleContext = {
      kind,
      conventions,
      read: (part) => applyRules(part, kind, conventions, rules, index + 1),
    };
    const step = rule.apply(text, context);
    if (step.kind === "keep") continue;
    const change: Change = { rule: rule.code, reason: step.reason };
    if (step.kind === "settle") {
      // The last change is the one that settled the cell; a doubt about a part of it outweighs the rule that looked at the part.
      const { reading } = step;
      const all = reading.kind === "ambiguous" ? [change, ...reading.changes] : [...reading.changes, change];
      return finish({ ...reading, changes: all });
    }
    text = step.text;
    approximate ||= step.approximate === true;
    changes.push(change);
  }
  return finish(readAmount(text, kind, conventions));
}

/**
 * Reads one cell of numbers as a grower types it.
 * @param text the cell as typed
 * @param kind what the number measures
 * @param conventions what the column agrees on: decimal mark, the unit of numbers without one, sizes of cup and syringe
 * @returns what the cell says, in the kind's canonical unit (g, mL, °C, days, hours, mm; percentages as shares 0 to 1),
 * with every rule that spoke; a blank cell is a `missing` one
 * @example parseQuantity("2 lb 3 oz", "mass", plainConventions) // { kind: "value", value: 992.233309375, unit: "g", ... }
 */
export function parseQuantity(text: string, kind: QuantityKind, conventions: Readonly<Conventions>): QuantityReading {
  const plain = plainNumber(text, conventions.decimalMark === ".");
  if (plain >= 0 && sizeCanBeMeant(plain, text)) return readBareNumber(plain, kind, conventions);
  if (text.length > longestNumber) {
    return {
      kind: "unreadable",
      expected: "a number",
      changes: [{ rule: "not-a-number", reason: "a text, not a number" }],
    };
  }
  return applyRules(text, kind, conventions, rulesFor.get(kind)!, 0);
}
