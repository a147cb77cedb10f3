import { selectedQuantiles } from "../../statistics/descriptive/selected-quantiles.ts";
import type { Band } from "./dose-facts.ts";

/** Mean and 95 % of the draws of one grid place; `room` holds as many numbers as there are draws. */
export function bandOf(values: Float64Array, at: number, room: Float64Array): Band {
  const from = at * room.length;
  let sum = 0;
  for (let i = 0; i < room.length; i++) {
    room[i] = values[from + i]!;
    sum += room[i]!;
  }
  const [low, high] = selectedQuantiles(room, [0.025, 0.975]);
  return { mean: sum / room.length, low: low!, high: high! };
}
