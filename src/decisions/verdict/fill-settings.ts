import { usualTrayCv, usualTrayDf } from "../supposed-spread.ts";
import type { ComparedTray, FilledSettings, VerdictSettings } from "./compared-tray.ts";
import { readingLevel } from "./reading-level.ts";

/** Earlier cooks count for no more than this many degrees of freedom. */
const mostTrayDf = 6;
/** The project's own, from test/simulation: true gains between levels vary with 12 % of the mean. */
const usualGainShare = 0.12;
const usualAlpha = 0.05;

/**
 * Fills the blanks of the settings.
 * @throws RangeError if alpha or a supposition is out of range
 */
export function fillSettings(settings: VerdictSettings): FilledSettings {
  const { alpha = usualAlpha, reading = "unknown", traySpread, suppositions = {} } = settings;
  const significance = readingLevel(alpha, reading);
  if (!(significance > 0 && significance < 1)) {
    throw new RangeError(`decideComparison: significance must lie between 0 and 1; received ${significance}`);
  }
  for (const [name, value] of Object.entries({ ...suppositions, ...traySpread })) {
    if (value !== undefined && !(value > 0 && value < Number.POSITIVE_INFINITY)) {
      throw new RangeError(`decideComparison: ${name} must be a number above 0; received ${value}`);
    }
  }
  const share = traySpread?.coefficientOfVariation ?? usualTrayCv;
  const shareDf = traySpread === undefined ? usualTrayDf : Math.min(mostTrayDf, traySpread.degreesOfFreedom);
  return {
    significance,
    reading,
    drawnByLot: settings.drawnByLot ?? false,
    traySd: (mean) => suppositions.traySd ?? share * Math.abs(mean),
    traySdDf: shareDf,
    gainSd: (mean) => suppositions.gainSd ?? usualGainShare * Math.abs(mean),
    better: settings.better ?? "higher",
    usual: settings.usual,
  };
}

/**
 * Trays in row order.
 * @throws RangeError if a number is not finite or a pool is not a whole number of trays
 */
export function inRowOrder(trays: ReadonlyArray<ComparedTray>): ComparedTray[] {
  let sorted = true;
  let before = Number.NEGATIVE_INFINITY;
  for (const tray of trays) {
    requireTray(tray);
    if (tray.row < before) sorted = false;
    before = tray.row;
  }
  return sorted ? [...trays] : [...trays].sort((a, b) => a.row - b.row);
}

const infinite = (value: unknown): boolean => typeof value === "number" && !Number.isFinite(value);

function requireTray({ row, level, value, day, pooled }: ComparedTray): void {
  const isLost = value === "lost";
  if (!Number.isFinite(row) || infinite(level) || infinite(day) || !(isLost || Number.isFinite(value))) {
    const received = [row, level, value, day].find(infinite);
    throw new RangeError(`decideComparison: row ${row} holds a number that is not finite; received ${received}`);
  }
  if (pooled !== undefined && !(Number.isInteger(pooled) && pooled >= 1)) {
    throw new RangeError(`decideComparison: pooled must be a whole number of 1 or more; row ${row} has ${pooled}`);
  }
}
