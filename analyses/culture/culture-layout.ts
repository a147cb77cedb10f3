import type { Sentence } from "../../src/analysis.ts";
import {
  containerFactor,
  doseFactor,
  type Factor,
  gradeFactor,
  strainFactor,
  supplementFactor,
} from "../../src/design/factor.ts";
import { tiedTo } from "../../src/design/layout.ts";
import { counted } from "../../src/records/counted.ts";
import type { Tray } from "../../src/records/tray.ts";
import { cooksInOrder } from "../comparison/cooks-in-order.ts";
import { inSentence } from "../comparison/level-text.ts";

/** A tray whose culture's age or generation is known, and what it shares with others. */
export interface CultureTray {
  tray: Tray;
  amount: number;
  /** cook, or inoculation day */
  cook: string;
  /** culture jar; trays of one cook and amount where jars are not recorded */
  jar: string;
}

/** Whether the culture's age or generation can be separated from the rest, and by which trays. */
export type CultureLayout =
  | {
      kind: "judged";
      trays: CultureTray[];
      withinCooks: boolean;
      jarsRecorded: boolean;
      jars: number;
      cooks: number;
      cookName: string;
    }
  | { kind: "not-judged"; reason: Sentence };

const fewestJars = 4;
/** With a rank correlation beyond this between amount and time, the two cannot be separated between cooks. */
const strongestTimeTie = 0.6;

/** Spearman's rank correlation, ties at their middle rank; 0 where either does not vary. */
function rankCorrelation(a: ReadonlyArray<number>, b: ReadonlyArray<number>): number {
  const ranksOf = (values: ReadonlyArray<number>) => {
    const order = values.map((_, index) => index).sort((i, j) => values[i]! - values[j]!);
    const ranks = new Array<number>(values.length);
    for (let start = 0; start < order.length; ) {
      let end = start;
      while (end + 1 < order.length && values[order[end + 1]!] === values[order[start]!]) end++;
      for (let at = start; at <= end; at++) ranks[order[at]!] = (start + end) / 2;
      start = end + 1;
    }
    return ranks.map((rank) => rank - (values.length - 1) / 2);
  };
  const [x, y] = [ranksOf(a), ranksOf(b)];
  const product = (p: number[], q: number[]) => p.reduce((sum, value, index) => sum + value * q[index]!, 0);
  const size = Math.sqrt(product(x, x) * product(y, y));
  return size === 0 ? 0 : product(x, y) / size;
}

/**
 * Decides whether a culture's age or generation can be judged: inside cooks that hold several of them, or else between cooks
 * if it does not simply go up with time.
 */
export function cultureLayout(trays: ReadonlyArray<Tray>, factor: Factor): CultureLayout {
  const what = inSentence(factor.label);
  const no = (reason: string): CultureLayout => ({ kind: "not-judged", reason: [reason] });
  const known = trays.filter((tray) => factor.value?.(tray) !== undefined);
  if (known.length === 0) return no(`${what} is not recorded`);
  const levels = new Set(known.map((tray) => factor.value!(tray)!));
  if (levels.size < 2) return no(`every tray had the same ${what}`);
  const { lots, lotName } = cooksInOrder(known);
  const jarsRecorded = known.every(({ jar }) => jar !== undefined);
  const cultureTrays = lots.flatMap(({ name, trays: own }) =>
    own.map((tray): CultureTray => {
      const amount = factor.value!(tray)!;
      return { tray, amount, cook: name, jar: jarsRecorded ? tray.jar! : JSON.stringify([name, amount]) };
    }),
  );
  if (cultureTrays.length === 0)
    return no(`neither cook nor date is recorded, so ${what} cannot be separated from time`);
  const jars = new Set(cultureTrays.map(({ jar }) => jar)).size;
  if (jars < fewestJars) {
    return no(
      `only ${counted(jars, "culture jar was", "culture jars were")} used, and a jar counts as one however many trays it filled: ${fewestJars} are needed`,
    );
  }
  const companions = [gradeFactor, supplementFactor, strainFactor, containerFactor, doseFactor];
  const stuck = tiedTo(known, factor, companions);
  if (stuck !== undefined) return no(`${what} always changed together with ${inSentence(stuck.label)}`);
  const base = {
    kind: "judged" as const,
    trays: cultureTrays,
    jarsRecorded,
    jars,
    cooks: lots.length,
    cookName: lotName,
  };
  const inside = lots.filter(({ trays: own }) => new Set(own.map((tray) => factor.value!(tray))).size > 1).length;
  if (inside >= 2) return { ...base, withinCooks: true };
  const means = lots.map(({ trays: own }) => own.reduce((sum, tray) => sum + factor.value!(tray)!, 0) / own.length);
  const tie = rankCorrelation(
    means,
    means.map((_, index) => index),
  );
  if (lots.length < 6 || Math.abs(tie) > strongestTimeTie) {
    return no(
      `no two cooks hold several levels of ${what} side by side, and it ${Math.abs(tie) > strongestTimeTie ? `${tie > 0 ? "went up" : "went down"} with time` : "changed with the cook"}, so it cannot be separated from everything else that changed from ${lotName} to ${lotName}`,
    );
  }
  return { ...base, withinCooks: false };
}
