import type { Sentence } from "../../src/analysis.ts";
import { type ComparedTray, changedTray, type Decision, type Level } from "../../src/decisions/verdict/index.ts";
import { type Factor, grainFactor, substrateFactor } from "../../src/design/factor.ts";
import type { VariedThing } from "../../src/design/varied-things.ts";
import type { Tray } from "../../src/records/tray.ts";
import { inSentence } from "../comparison/level-text.ts";

/** Trays of one side of a difference held more substrate than those of the other, and may have given more for that alone. */
export interface SubstrateBeside {
  /** which weight of it is written down */
  factor: Factor;
  /** how much more the trays of the higher level, or of the best name, held: a share of the mean tray's */
  more: number;
  /** the same comparison of what trays gave for as much substrate as the mean tray held */
  again: Decision;
}

/** What is substrate itself, stands in it, or sets how much there is. */
const setsSubstrate = /^(?:substrate|grain|supplement|spawn|container)/;
/** Trays that differ by less than this share were filled alike. Common practice, no source. */
const filledAlike = 0.03;
/** From this share of trays on a weight counts as written down. */
const enough = 0.8;

/**
 * Whether the levels of a difference held unlike amounts of substrate. A yield goes by its substrate: the trade compares
 * mushrooms for dry substrate, the biological efficiency (Chang and Miles 2004, Mushrooms, 2nd ed.; from memory).
 * @param takenOut what the comparison has taken out already
 * @param decide the comparison of the same trays with other values
 */
export function substrateBeside(
  { factor: { key } }: VariedThing,
  { difference }: Decision,
  compared: ReadonlyArray<ComparedTray>,
  byRow: ReadonlyArray<Tray>,
  takenOut: ReadonlyArray<VariedThing>,
  decide: (trays: ReadonlyArray<ComparedTray>) => Decision,
): SubstrateBeside | undefined {
  if (difference === undefined || setsSubstrate.test(key)) return undefined;
  const good = compared.filter(({ value }) => value !== "lost");
  for (const factor of [substrateFactor, grainFactor]) {
    if (takenOut.some((thing) => thing.factor === factor)) return undefined;
    const heldBy = ({ row }: ComparedTray): number => factor.value!(byRow[row]!) ?? 0;
    const known = good.filter((tray) => heldBy(tray) > 0);
    if (known.length < enough * good.length) continue;
    const meanOf = (is: (level: Level) => boolean): number => {
      const own = known.filter(({ level }) => is(level));
      return own.reduce((sum, tray) => sum + heldBy(tray), 0) / own.length;
    };
    const { to, from } = difference;
    const mean = meanOf(() => true);
    const more =
      (meanOf((level) => level === to) - meanOf((level) => level === from || (from === undefined && level !== to))) /
      mean;
    if (!(Math.abs(more) >= filledAlike)) return undefined;
    const again = compared.flatMap((tray) => {
      if (tray.value === "lost") return [tray];
      const held = heldBy(tray);
      return held > 0 ? [changedTray(tray, { value: (tray.value * mean) / held })] : [];
    });
    return { factor, more, again: decide(again) };
  }
  return undefined;
}

/** Whether what levels held of substrate is why an answer goes no further. */
export const isForSubstrate = ({ caps }: Decision): boolean =>
  caps.some(({ reason }) => reason === "substrate-follows-level");

/** "held 33% more wet substrate: for as much of it +2 g (−3 to +7 g)"; of the side of a difference that `sign` turns to. */
export function substrateWords({ factor, more, again }: SubstrateBeside, unit: string, sign: number): Sentence {
  const share = sign * more;
  const { estimate, interval } = again.difference ?? {};
  return [
    " held ",
    { value: Math.abs(share), unit: "share", digits: 2 },
    ` ${share > 0 ? "more" : "less"} ${inSentence(factor.label)}`,
    ...(estimate === undefined
      ? []
      : ([": for as much of it ", { value: sign * estimate, unit, signed: true, digits: 2 }] as const)),
    ...(interval === undefined
      ? []
      : ([
          " (",
          {
            from: sign < 0 ? -interval.upper : interval.lower,
            to: sign < 0 ? -interval.lower : interval.upper,
            unit,
            signed: true,
          },
          ")",
        ] as const)),
  ];
}
