import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { mayHoldGuards, withGuard, withoutGuard } from "../../src/csv/formula-guard.ts";

/** Cells that a spreadsheet program would run, or that one would become in a file opened with another separator. */
const hostileCells = [
  "=1+1",
  "+1+1",
  "-1+1",
  "@SUM(1)",
  "＝1+1",
  " =1+1",
  "\t=1+1",
  "\n=1+1",
  "\r=1+1",
  "\u00a0=1+1",
  "\u200b=1+1",
  "\ufeff=1+1",
  "\u0000=1+1",
  "\u001f=1+1",
  "\u2060@SUM(1)",
  " \u200b\u00a0 =1+1",
  "note;=1+1",
  "note; =1+1",
  "note\t=1+1",
  "note;-2+3+cmd|' /C calc'!A0",
  "note;@SUM(1)",
  "note|=1+1",
  "'=1+1",
  "note;'=1+1",
  '";=1+1',
];

describe("cells that a spreadsheet program would run as formulas", () => {
  test.each(hostileCells)("%j is guarded, and comes back as it was", (cell) => {
    const written = withGuard(cell);
    expect(written).toContain("'");
    expect(mayHoldGuards(written)).toBe(true);
    expect(withoutGuard(written)).toBe(cell);
    // no part of it between separators starts a formula, whatever a program passes over first
    for (const part of written.split(/[;\t|]/)) {
      if (/^[\d.+-]+$/.test(part)) continue;
      expect(part.replace(/^[\s\p{Cc}\p{Cf}]+/u, ""), part).not.toMatch(/^[=@＝＠]|^[+\-＋－]/);
    }
  });

  test.each(["-5", "+5.5", "-1e3", "0.99; -1", "a;b", "2026-03-04", "12 - 15 g", "e-mail me", "1;-2;+3,5"])(
    "%j stays as it is",
    (cell) => expect(withGuard(cell)).toBe(cell),
  );

  test("whatever is in a cell comes back as it was", () => {
    const sign = fc.constantFrom(
      "=",
      "+",
      "-",
      "@",
      "'",
      ";",
      "\t",
      "|",
      " ",
      "\u00a0",
      "\u200b",
      "a",
      "5",
      "\n",
      "＝",
      '"',
    );
    fc.assert(
      fc.property(fc.array(sign, { maxLength: 12 }), (signs) => {
        const cell = signs.join("");
        expect(withoutGuard(withGuard(cell))).toBe(cell);
      }),
      { numRuns: 1000, seed: 11 },
    );
  });
});
