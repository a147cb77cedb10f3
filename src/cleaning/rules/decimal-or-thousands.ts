import { type CleaningRule, keep } from "./cleaning-rule.ts";

const unclear = /(?<![\d.,])([1-9]\d{0,2})([.,])(\d{3})(?![\d.,])/;

/** Grams fresh that a tray with anything in it, and all trays of a cook, weigh at least and at most. Common practice, no source. */
const [leastFresh, mostFresh] = [3, 30_000];

/**
 * "1,234" and "1.234" can be one and a bit, or more than a thousand. What the column agrees on decides; where it
 * agrees on nothing the cell stays unread.
 */
export const decimalOrThousands: CleaningRule = {
  code: "decimal-or-thousands",
  kinds: "every kind",
  apply(text, { conventions: { decimalMark, measures, isAgreed }, read }) {
    const match = unclear.exec(text);
    if (match === null) return keep;
    const [whole, before, mark, behind] = match as unknown as [string, string, string, string];
    const asDecimal = text.replace(whole, `${before}.${behind}0`);
    const asThousands = text.replace(whole, `${before}${behind}`);
    if (decimalMark === ".") {
      return mark === "."
        ? keep
        : { kind: "rewrite", text: asThousands, reason: "a comma between thousands, as elsewhere in the column" };
    }
    if (decimalMark === ",") {
      return mark === ","
        ? { kind: "rewrite", text: asDecimal, reason: "a decimal comma, as elsewhere in the column" }
        : { kind: "rewrite", text: asThousands, reason: "a point between thousands, as elsewhere in the column" };
    }
    const first = read(asDecimal);
    const second = read(asThousands);
    const candidates = [
      { reading: first, as: "with decimals" },
      { reading: second, as: "in thousands" },
    ].flatMap(({ reading, as }) => ("value" in reading ? [{ value: reading.value, as }] : []));
    if (candidates.length < 2) return { kind: "rewrite", text: asDecimal, reason: "read as decimals" };
    const within = candidates.filter(
      ({ value }) => isAgreed && measures === "fresh_g" && value >= leastFresh && value <= mostFresh,
    );
    if (within.length === 1)
      return {
        kind: "rewrite",
        text: within[0]!.as === "in thousands" ? asThousands : asDecimal,
        reason: `read ${within[0]!.as}: otherwise no tray or cook could weigh so much or so little fresh`,
      };
    return {
      kind: "settle",
      reading: {
        kind: "ambiguous",
        candidates,
        setting: "decimal_mark",
        expected: `a number without the ${mark === "," ? "comma" : "point"}, or with another count of decimals`,
        changes: [],
      },
      reason: "one mark with three digits behind it: decimals or thousands, and nothing in the column decides",
    };
  },
};
