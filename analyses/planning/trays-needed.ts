import { furtherCooks, type PowerInput } from "./trial-power.ts";

/** Chance of showing what is there that a trial is planned for. */
export const wantedChance = 0.8;

/** What is planned on top of what is there; `moreCooks` is what the questions below vary. */
export interface MoreTraysInput extends Omit<PowerInput, "moreCooks"> {
  wanted: number;
}

/** How many cooks and trays would show a difference. */
export interface MoreNeeded {
  moreCooks: number;
  moreTraysPerDose: number;
}

export function moreNeeded(difference: number, input: MoreTraysInput): MoreNeeded | undefined {
  const moreCooks = furtherCooks(difference, input.wanted, input);
  return moreCooks === undefined ? undefined : { moreCooks, moreTraysPerDose: moreCooks * input.traysPerDose };
}
