import type { ColumnPlan } from "../columns/column-plan.ts";

/**
 * What one tray's weights and volumes can be at all, in g and mL: wide enough for a jar and for a big block. Used only
 * to rule out units of bare numbers, never to judge a value. Common practice, no source.
 */
const likely: Partial<Record<ColumnPlan["field"], readonly [low: number, high: number]>> = {
  substrate_wet_g: [50, 15_000],
  grain_dry_g: [10, 6_000],
  supplement_g: [0.2, 800],
  fresh_g: [4, 3_000],
  dry_g: [0.4, 300],
  inoculum_ml: [0.05, 300],
  spawn_g: [1, 6_000],
  added_liquid_ml: [0.05, 3_000],
};

/** Whether an amount in g or mL is possible for one tray. */
export function isLikely(field: ColumnPlan["field"], amount: number): boolean {
  const range = likely[field];
  return range === undefined || (amount >= range[0] && amount <= range[1]);
}

/** Bare temperatures that can only be °C, only °F, either, or neither, where mushrooms grow (0 to 40 °C, 36 to 104 °F). */
export function temperatureScale(bare: number): "C" | "F" | "either" | "neither" {
  const celsius = bare >= 0 && bare <= 40;
  const fahrenheit = bare >= 36 && bare <= 104;
  return celsius ? (fahrenheit ? "either" : "C") : fahrenheit ? "F" : "neither";
}
