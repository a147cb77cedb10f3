import { createHash } from "node:crypto";
import { appendFileSync, mkdirSync } from "node:fs";
import { tmpdir } from "node:os";
import { pathToFileURL } from "node:url";
import { expect } from "vitest";

/** Where the rows of the agreement table wait until `agreement-table.ts` prints them: one folder for each copy of the project. */
export const agreementFolder = pathToFileURL(
  `${tmpdir()}/gramwright-agreement-${createHash("sha256")
    .update(import.meta.url)
    .digest("hex")
    .slice(0, 12)}/`,
);

/** One line of the table `npm test` prints: how many digits a routine shares with a published value. */
export interface Agreement {
  /** the routine, in the textbook's words: "one-way analysis of variance" */
  method: string;
  /** the data set: "PlantGrowth", "NIST Longley" */
  dataset: string;
  /** what was compared: "F", "all coefficients" */
  statistic: string;
  /** where the expected value was published or how it was made */
  source: string;
}

/**
 * Log relative error: the number of leading digits on which a value and its reference agree.
 * @param value our figure
 * @param reference the published figure; when it is 0 the absolute error is used instead
 * @returns digits, from 0 to 15 (15 also when both are equal)
 * @source McCullough 1998, The American Statistician 52:358-366 (from memory)
 */
export function digitsAgreed(value: number, reference: number): number {
  if (Object.is(value, reference) || value === reference) return 15;
  if (!Number.isFinite(value) || !Number.isFinite(reference)) return 0;
  const error = reference === 0 ? Math.abs(value) : Math.abs((value - reference) / reference);
  return Math.max(0, Math.min(15, -Math.log10(error)));
}

/**
 * Compares pairs of [ours, reference], fails the test when the worst pair agrees on fewer digits than `atLeast`,
 * and adds the worst pair to the table that `npm test` prints.
 * @param atLeast digits required of every pair
 * @param absoluteFloor differences no larger than this count as full agreement (for references that are themselves rounding noise near 0)
 */
export function expectAgreement(
  row: Agreement,
  pairs: ReadonlyArray<readonly [ours: number, reference: number]>,
  atLeast: number,
  absoluteFloor = 0,
): void {
  expect(pairs.length, `${row.method} on ${row.dataset}: nothing was compared`).toBeGreaterThan(0);
  let worst = 15;
  let worstPair = pairs[0]!;
  for (const pair of pairs) {
    const digits = Math.abs(pair[0] - pair[1]) <= absoluteFloor ? 15 : digitsAgreed(pair[0], pair[1]);
    if (digits < worst) [worst, worstPair] = [digits, pair];
  }
  mkdirSync(agreementFolder, { recursive: true });
  appendFileSync(
    new URL(`${process.pid}.jsonl`, agreementFolder),
    `${JSON.stringify({ ...row, digits: worst, atLeast, compared: pairs.length })}\n`,
  );
  expect(
    worst,
    `${row.method} on ${row.dataset}, ${row.statistic}: ${worstPair[0]} against ${worstPair[1]}`,
  ).toBeGreaterThanOrEqual(atLeast);
}

/** Fails unless |value - expected| <= tolerance; both must be finite. Use for values printed to a few decimals. */
export function assertClose(value: number, expected: number, tolerance: number): void {
  expect(Math.abs(value - expected), `${value} against ${expected}`).toBeLessThanOrEqual(tolerance);
}
