import { requireCount, requireFinite, requirePositive } from "../../statistics/require-numbers.ts";
import type { DoseQuestion } from "./dose-tray.ts";

/** Fails unless every number of a question is finite and inside its range; the message names it. */
export function checkQuestion({ trays, prices, work, settings = {} }: DoseQuestion): void {
  const name = "doseDecision";
  for (const [of, numbers] of [
    ["prices", prices],
    ["work", work],
  ] as const) {
    for (const [key, value] of Object.entries(numbers ?? {}))
      if (value !== undefined) requireFinite(name, `${of}.${key}`, [value]);
  }
  if (work !== undefined && !(work.hoursPerStartedTray > 0 && work.hoursPerGoodTray >= 0 && work.hoursPerGram >= 0)) {
    throw new RangeError(`${name}: hours must be 0 or more and those of a started tray above 0`);
  }
  for (const tray of trays) {
    requireFinite(name, "dose, grams, days", [tray.dose, tray.grams ?? 0, tray.days ?? 0]);
    requireCount(name, "trays of a record", tray.trays ?? 1, 1);
  }
  if (settings.step !== undefined) requirePositive(name, "step", settings.step);
  if (settings.tolerance !== undefined && !(settings.tolerance >= 0)) {
    throw new RangeError(`${name}: tolerance must be 0 or more; received ${settings.tolerance}`);
  }
  requireCount(name, "draws", settings.draws ?? 4000, 100);
}
