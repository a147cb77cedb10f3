import type { AnsweredQuestion } from "../../src/analysis.ts";
import type { Book } from "../../src/records/book.ts";
import { sampleAnswers } from "./sample-answers.ts";
import { sampleBook, sampleIssue, sampleTray } from "./sample-book.ts";

/** Text that breaks a page that does not escape, a script that was not expected, or a drawing that cannot be parsed. */
export const hostileTexts = [
  "<script>globalThis.hit=1</script>",
  '"><img src=x onerror="globalThis.hit=1">',
  "</table></style><b>loose</b>",
  "javascript:globalThis.hit=1",
  '=HYPERLINK("http://example.invalid","x")',
  "__proto__",
  "constructor",
  "a\u0000b\u0007c\ud800d\ufffee",
  "left\u202eright",
  "two\nlines\tand a tab",
  "100% #1 'single' \"double\" & &amp; ]]> --> {{x}} $x",
  "x".repeat(5000),
];

/** A book whose every text is hostile. */
export function hostileBook(): Book {
  const text = (index: number) => hostileTexts[index % hostileTexts.length]!;
  const own = sampleBook();
  return {
    ...own,
    name: text(0),
    settings: { ...own.settings, bookTitle: text(2), currency: "<b>", locale: text(1) },
    trays: hostileTexts.map((hostile, index) =>
      sampleTray(index, {
        trayId: hostile,
        batch: text(index + 1),
        note: text(index + 2),
        supplement: text(index + 3),
        flags: [text(index)],
        factors: Object.fromEntries([[text(index + 4), text(index + 5)]]),
      }),
    ),
    columns: hostileTexts.map((header) => ({
      file: text(1),
      header,
      field: "factor" as const,
      because: text(0),
      unit: text(2),
    })),
    issues: hostileTexts.map((raw, index) =>
      sampleIssue({ raw, result: raw, column: text(index + 1), tray: raw, file: text(1), reason: text(index) }),
    ),
    leftOut: [{ file: text(0), row: 1, cells: hostileTexts, rule: text(1), reason: text(2) }],
    harvestFiles: [{ file: text(0), rows: 1 }],
    costLines: own.costLines!.map((line) => ({ ...line, item: text(0), note: text(1) })),
    products: own.products!.map((product) => ({ ...product, product: text(0), channel: text(1) })),
  };
}

/** An answer whose every text is hostile. */
export function hostileAnswers(): AnsweredQuestion[] {
  const words = hostileTexts[0]!;
  return [
    {
      ...sampleAnswers[0]!,
      question: words,
      assumes: hostileTexts,
      outcome: {
        kind: "answer",
        certainty: "open",
        sentence: hostileTexts,
        estimates: hostileTexts.map((label) => ({
          label,
          value: 1,
          low: 0,
          high: 2,
          level: 0.95,
          unit: label,
          n: 3,
          nUnit: label,
          method: label,
        })),
        tables: [
          {
            caption: words,
            columns: hostileTexts.map((label) => ({ label, unit: label })),
            rows: [hostileTexts, hostileTexts.map((_, index) => index)],
            note: words,
          },
        ],
        charts: [
          {
            kind: "trays-by-group",
            title: words,
            description: hostileTexts.join(" "),
            groupLabel: hostileTexts[10]!,
            valueLabel: words,
            unit: "g",
            seriesLabel: hostileTexts[7]!,
            points: hostileTexts.map((group, index) => ({
              group,
              value: index,
              tray: group,
              series: hostileTexts[index % 7]!,
            })),
            groups: hostileTexts.map((group, index) => ({ group, mean: index, low: index - 1, high: index + 1, n: 1 })),
          },
          {
            kind: "breakdown",
            title: words,
            description: words,
            unit: hostileTexts[10]!,
            valueLabel: hostileTexts[10]!,
            parts: hostileTexts.map((label, index) => ({
              label,
              value: index + 1,
              group: hostileTexts[(index % 3) + 5]!,
            })),
          },
          {
            kind: "control-chart",
            title: words,
            description: words,
            unit: "g",
            valueLabel: words,
            orderLabel: hostileTexts[7]!,
            points: hostileTexts.map((label, order) => ({ order, label, value: order, centre: 3, signal: label })),
          },
        ],
        excluded: [{ trays: hostileTexts, reason: words }],
        method: [hostileTexts],
        caveats: [hostileTexts],
      },
    },
  ];
}
