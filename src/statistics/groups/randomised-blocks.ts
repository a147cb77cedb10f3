import { type AdjustedMean, adjustedMeans } from "../linear-models/adjusted-means.ts";
import { type LinearModel, linearModel } from "../linear-models/linear-model.ts";
import { sequentialTests, type TermTest } from "../linear-models/term-sums-of-squares.ts";
import { type BlockLayout, blockTable } from "./block-table.ts";
import type { VarianceLine } from "./one-way-anova.ts";

/** Analysis of a trial laid out in blocks. */
export interface RandomisedBlocks {
  /** not adjusted for treatments; their F is a description, blocks were not drawn at random */
  blocks: TermTest;
  /** adjusted for blocks */
  treatments: TermTest;
  residual: VarianceLine;
  total: { degreesOfFreedom: number; sumOfSquares: number };
  /** whether every block holds every treatment equally often; if not, means and tests are within-block comparisons */
  complete: boolean;
  /** block and treatment of each empty cell */
  missing: { block: string; treatment: string }[];
  /** treatment means adjusted for blocks */
  means: AdjustedMean[];
  /** residual standard deviation over the mean response, as a proportion; infinite if the mean is 0 */
  coefficientOfVariation: number;
  /** the fit, for contrasts and diagnostics */
  model: LinearModel;
}

/**
 * Whether treatments differ in a randomised complete block design, or in one that lost units.
 * @param layout one row per unit
 * @param level of the intervals of the means; 0.95 unless stated
 * @throws RangeError if there are fewer than two treatments or blocks, columns differ in length, a value is not finite, the
 *   response does not vary, no residual is left, or losses leave treatments that no chain of blocks connects
 * @source NIST/SEMATECH e-Handbook of Statistical Methods, section 5.3.3.2
 * @example
 * const analysis = randomisedBlocks({ response: [1, 3, 2, 5], treatment: ["A", "B", "A", "B"], block: ["1", "1", "2", "2"] });
 * analysis.treatments.f // 25
 */
export function randomisedBlocks(layout: BlockLayout, level = 0.95): RandomisedBlocks {
  const routine = "randomisedBlocks";
  const { treatments, blocks, cells } = blockTable(routine, layout);
  const model = linearModel({
    response: layout.response,
    terms: [
      { kind: "factor", name: "block", values: layout.block },
      { kind: "factor", name: "treatment", values: layout.treatment },
    ],
    level,
  });
  if (model.dropped.length > 0) {
    const { name, because } = model.dropped[0]!;
    throw new RangeError(
      `${routine}: blocks must connect all treatments; received a layout where "${name}" ${because}`,
    );
  }
  const [blockTest, treatmentTest] = sequentialTests(model);
  const missing = cells.flatMap((row, i) =>
    row.flatMap((cell, j) => (cell.length === 0 ? [{ block: blocks[i]!, treatment: treatments[j]! }] : [])),
  );
  const perCell = cells[0]![0]!.length;
  const mean = layout.response.reduce((sum, value) => sum + value, 0) / layout.response.length;
  return {
    blocks: blockTest!,
    treatments: treatmentTest!,
    residual: model.residual,
    total: model.total,
    complete: cells.every((row) => row.every((cell) => cell.length === perCell)),
    missing,
    means: adjustedMeans(model, "treatment"),
    coefficientOfVariation: model.residualStandardDeviation / Math.abs(mean),
    model,
  };
}

/**
 * How many units per treatment a trial without blocks would have needed for the same precision, as a multiple.
 * @param analysis of a complete design with one unit per block and treatment
 * @returns above 1 when blocking paid
 * @throws RangeError if the design is not complete with one unit per cell, or the residual is 0
 * @source Gomez and Gomez 1984, Statistical Procedures for Agricultural Research, section 2.2.3 (from memory)
 * @example blockingEfficiency(analysis) // 3.0555..., with the set-up of randomisedBlocks
 */
export function blockingEfficiency(analysis: RandomisedBlocks): number {
  const b = analysis.blocks.degreesOfFreedom + 1;
  const t = analysis.treatments.degreesOfFreedom + 1;
  if (!analysis.complete || analysis.model.observations !== b * t) {
    throw new RangeError(
      `blockingEfficiency: each block must hold each treatment once; received ${analysis.model.observations} units in ${b} blocks of ${t} treatments`,
    );
  }
  if (analysis.residual.meanSquare === 0) throw new RangeError("blockingEfficiency: the residual must not be 0");
  const asOneTrial = ((b - 1) * analysis.blocks.meanSquare + b * (t - 1) * analysis.residual.meanSquare) / (b * t - 1);
  const ratio = asOneTrial / analysis.residual.meanSquare;
  // the trial without blocks would have had more degrees of freedom for its error
  const blockedDf = (b - 1) * (t - 1);
  const plainDf = t * (b - 1);
  return blockedDf < 20 ? (ratio * (blockedDf + 1) * (plainDf + 3)) / ((blockedDf + 3) * (plainDf + 1)) : ratio;
}
