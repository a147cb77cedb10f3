import type { Sentence, Trial } from "../../src/analysis.ts";
import { doseFactor } from "../../src/design/factor.ts";
import { isLost, type Tray } from "../../src/records/tray.ts";
import { permuteSlope } from "../../src/statistics/resampling/permute-slope.ts";
import { slopeByMoments } from "../../src/statistics/resampling/slope-moments.ts";
import type { LotsInOrder } from "../comparison/cooks-in-order.ts";
import { inSentence } from "../comparison/level-text.ts";
import type { TrayResponse } from "../comparison/tray-response.ts";
import { cannotTellWords, capOf } from "../treatment/cannot-tell-words.ts";
import { type ComparedOn, decideTreatment, thingsOf } from "../treatment/treatment-decision.ts";
import { type OddsOfLoss, oddsOfLoss } from "./odds-of-loss.ts";

/** Of a good tray only that it ended well counts. */
const goodTray: TrayResponse = {
  label: "good tray",
  unit: "trays",
  of: ({ outcome }) => (outcome === "good" ? 1 : undefined),
};
const endedWell: ComparedOn = { response: goodTray, better: "higher", withLost: true };

/**
 * Odds of loss over dose, where the layout lets dose be judged. Cooks are those of the question about yield, and the test
 * is the one that lowers the word about good trays.
 */
export function lossOverDose(trial: Trial, units: ReadonlyArray<Tray>): { trend?: OddsOfLoss; caveats: Sentence[] } {
  const thing = thingsOf(trial).find(({ factor }) => factor.key === doseFactor.key);
  const of = thing === undefined ? undefined : decideTreatment(trial, thing, endedWell);
  if (of === undefined) return { caveats: [] };
  const { decision, gathered } = of;
  if (capOf(decision) !== undefined && decision.verdict === "cannot-tell" && decision.losses === undefined) {
    const { reason } = cannotTellWords(inSentence(doseFactor.label), decision);
    return { caveats: [[`Whether losses rise with dose cannot be said: ${reason}.`]] };
  }
  const { losses } = decision;
  if (losses?.z === undefined) return { caveats: [] };
  const named = new Set(units);
  const rows = gathered.trays.filter(({ row }) => named.has(gathered.byRow[row]!));
  const cookOf = ({ cook, day }: (typeof rows)[number]) => cook ?? String(day ?? "");
  const trend = oddsOfLoss({
    lost: rows.map(({ value }) => value === "lost"),
    amount: rows.map(({ level }) => Number(level)),
    ...(decision.cooks > 1 ? { clusters: rows.map(cookOf) } : {}),
    test: { name: "Mantel's test within cooks, less sure where they disagree", p: () => losses.p },
    level: trial.settings.intervalLevel,
  });
  if (trend.kind === "none")
    return { caveats: [[`Whether losses change with dose could not be worked out: ${trend.reason}.`]] };
  return {
    trend,
    caveats: [
      ...(trend.clusters > 0 || decision.cooks < 2
        ? []
        : [
            [
              "There are too few cooks for errors by cook, so the interval of the odds over dose takes trays one by one.",
            ],
          ]),
      ...(trend.separated
        ? [["Dose tells lost from kept trays almost wholly, so the odds over dose are held back from infinity."]]
        : []),
    ],
  };
}

/** With more cooks the slope's permutations are normal for all purposes, and their moments give p without dealing. */
const mostDealt = 300;

/**
 * p that the share lost neither rises nor falls over the cooks, each cook counted as one; undefined for fewer than five.
 * @param order of trays that have ended
 */
export function lossOverTime(
  { lots, lotName, dated }: LotsInOrder,
  seed: number,
): { name: string; p: number } | undefined {
  const response = lots
    .map(({ trays }) => trays.filter(({ traysInPool }) => traysInPool === 1))
    .filter((trays) => trays.length > 0)
    .map((trays) => trays.filter(isLost).length / trays.length);
  const amount = response.map((_, order) => order);
  if (!dated || response.length < 5) return undefined;
  const { p, observed } =
    response.length > mostDealt
      ? slopeByMoments(response, amount)
      : permuteSlope({ response, amount }, { seed, draws: 3999, exactUpTo: 50_000 });
  return { name: `${observed > 0 ? "rise" : "fall"} from ${lotName} to ${lotName}`, p };
}
