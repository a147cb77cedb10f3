/** What a number format says about a number beyond its digits. */
export interface NumberFormat {
  /** the number is shown as a percentage */
  percent: boolean;
  /** a unit or currency sign typed into the format, before or after the number */
  before: string;
  after: string;
}

const affix = /^[\p{L}°%€$£¥µ/ .]{1,10}$/u;

/** A run of a format that stands for itself: text in quotes or after a backslash, a currency in brackets, plain signs. */
function literal(part: string): string {
  const text = part
    .replace(/\[\$([^\]-]*)[^\]]*\]/g, "$1")
    .replace(/\[[^\]]*\]/g, "")
    .replace(/_./g, "")
    .replace(/\*./g, "")
    .replace(/\\(.)/g, "$1")
    .replaceAll('"', "")
    .trim();
  return affix.test(text) && /[\p{L}°€$£¥]/u.test(text) ? text : "";
}

/**
 * Reads a number format for what a person would have typed beside the number: `0.0%`, `0.00" kg"`, `[$€-407] #,##0.00`.
 * Only the section for positive numbers counts. A format that scales by thousands gives nothing.
 * @source ECMA-376 part 1, 18.8.31 (numFmts)
 * @example numberFormat('0.0" kg"').after // "kg"
 */
export function numberFormat(code: string): NumberFormat {
  const section = code.split(";")[0] ?? "";
  const bare = section.replace(/"[^"]*"|\\./g, "");
  const percent = bare.includes("%");
  const digits = /[#0?](?:[#0?.,]*[#0?])?,*/.exec(
    section.replace(/"[^"]*"|\\.|\[[^\]]*\]/g, (part) => "\u0001".repeat(part.length)),
  );
  if (percent || digits === null || digits[0].endsWith(",")) return { percent, before: "", after: "" };
  return {
    percent,
    before: literal(section.slice(0, digits.index)),
    after: literal(section.slice(digits.index + digits[0].length)),
  };
}

/** Percentage formats that a workbook need not spell out. */
export const builtInPercent: ReadonlySet<number> = new Set([9, 10]);
