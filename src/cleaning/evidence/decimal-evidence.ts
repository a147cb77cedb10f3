const comma = /(?:^|[^\d.,])(?:0?,\d+|0,\d{3}|\d+,\d{1,2}|\d+,\d{4,}|\d{4,},\d+)(?![\d.,])|\d\.\d{3},\d/;
const point = /(?:^|[^\d.,])(?:0?\.\d+|0\.\d{3}|\d+\.\d{1,2}|\d+\.\d{4,}|\d{4,}\.\d+)(?![\d.,])|\d,\d{3}\.\d/;

/** The decimal mark that a cell shows beyond doubt; "" when it shows none ("12", "1,234"). */
export function decimalEvidence(text: string): "" | "." | "," {
  const isComma = comma.test(text);
  const isPoint = point.test(text);
  return isComma === isPoint ? "" : isComma ? "," : ".";
}
