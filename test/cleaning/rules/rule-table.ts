import { describe, expect, test } from "vitest";
import { cleaningRules } from "../../../src/cleaning/rules/index.ts";
import { type ReadingCase, readCase, readingText, rulesOfCase } from "../reading-text.ts";

/**
 * Tests a rule by a table of cells: in each the rule speaks and the cell reads as stated.
 * @param keeps cells that look near but that the rule must leave to others
 */
export function testRule(code: string, cases: ReadonlyArray<ReadingCase>, keeps: ReadonlyArray<ReadingCase>): void {
  describe(code, () => {
    test("is listed once", () => {
      expect(cleaningRules.filter((rule) => rule.code === code)).toHaveLength(1);
    });
    test.each(cases.map((row) => ({ row, cell: row[0], kind: row[1], says: row[2] })))(
      "$cell in a column of $kind: $says",
      ({ row, says }) => {
        expect(readingText(readCase(row))).toBe(says);
        expect(rulesOfCase(row)).toContain(code);
      },
    );
    test.each(keeps.map((row) => ({ row, cell: row[0], kind: row[1], says: row[2] })))(
      "leaves $cell in a column of $kind: $says",
      ({ row, says }) => {
        expect(readingText(readCase(row))).toBe(says);
        expect(rulesOfCase(row)).not.toContain(code);
      },
    );
  });
}
