import { requireFinite, requireSameLength } from "../require-numbers.ts";

/** One row per unit: what was measured, what it was given, where it stood. */
export interface BlockLayout {
  response: ReadonlyArray<number>;
  treatment: ReadonlyArray<string>;
  block: ReadonlyArray<string>;
}

/** Responses by block and treatment. */
export interface BlockTable {
  /** in code-point order */
  treatments: string[];
  blocks: string[];
  /** [block][treatment]: the responses there */
  cells: number[][][];
}

/**
 * Sorts a layout into blocks and treatments.
 * @throws RangeError if columns differ in length, a value is not finite, or there are fewer than two treatments or blocks
 * @internal
 */
export function blockTable(routine: string, layout: BlockLayout): BlockTable {
  const { response, treatment, block } = layout;
  requireSameLength(routine, "response", response, "treatment", treatment);
  requireSameLength(routine, "response", response, "block", block);
  requireFinite(routine, "response", response);
  const treatments = [...new Set(treatment)].sort();
  const blocks = [...new Set(block)].sort();
  if (treatments.length < 2)
    throw new RangeError(`${routine}: at least 2 treatments are needed; received ${treatments.length}`);
  if (blocks.length < 2) throw new RangeError(`${routine}: at least 2 blocks are needed; received ${blocks.length}`);
  const treatmentNumber = new Map(treatments.map((name, j) => [name, j]));
  const blockNumber = new Map(blocks.map((name, i) => [name, i]));
  const cells = blocks.map(() => treatments.map((): number[] => []));
  response.forEach((value, row) => {
    cells[blockNumber.get(block[row]!)!]![treatmentNumber.get(treatment[row]!)!]!.push(value);
  });
  return { treatments, blocks, cells };
}
