import type { Sentence, Trial } from "../../src/analysis.ts";
import { doseFactor } from "../../src/design/factor.ts";
import { readLayout } from "../../src/design/layout.ts";
import type { Tray } from "../../src/records/tray.ts";
import { permuteSlope } from "../../src/statistics/resampling/stratified-permutation.ts";
import { confounding } from "../comparison/confounding.ts";
import type { LotsInOrder } from "../comparison/cooks-in-order.ts";
import { isFinished, isLost } from "../comparison/tray-response.ts";
import { type LossTrend, lossTrend } from "./loss-trend.ts";

/** Odds of loss over dose, where the layout lets dose be judged. */
export function lossOverDose(trial: Trial, units: ReadonlyArray<Tray>): { trend?: LossTrend; caveats: Sentence[] } {
  const dosed = units.filter(({ inoculumMillilitres }) => inoculumMillilitres !== undefined);
  const layout = readLayout(dosed, doseFactor);
  if (layout.arms.length < 2) return { caveats: [] };
  const verdict = confounding(layout);
  if (verdict.kind === "not-separable") {
    return { caveats: [["Whether losses rise with dose: ", ...verdict.reason]] };
  }
  const { block, unit } = layout;
  const allHave = (read: (tray: Tray) => string | undefined) => dosed.every((tray) => read(tray) !== undefined);
  const cluster = allHave(({ batch }) => batch)
    ? ({ batch }: Tray) => batch!
    : allHave(({ jar }) => jar)
      ? ({ jar }: Tray) => jar!
      : undefined;
  const blockOf = (tray: Tray) => block?.level(tray) ?? "";
  const whole = unit !== "tray" && allHave((tray) => unit.level(tray)) ? unit : undefined;
  const trend = lossTrend({
    lost: dosed.map(isLost),
    amount: dosed.map(({ inoculumMillilitres }) => inoculumMillilitres!),
    ...(cluster === undefined ? {} : { clusters: dosed.map(cluster) }),
    ...(block === undefined ? {} : { strata: dosed.map(blockOf) }),
    ...(whole === undefined
      ? {}
      : {
          units: dosed.map((tray) =>
            JSON.stringify([blockOf(tray), whole.level(tray), String(tray.inoculumMillilitres)]),
          ),
        }),
    level: trial.settings.intervalLevel,
    seed: trial.settings.seed,
  });
  if (trend.kind === "none")
    return { caveats: [[`Whether losses change with dose could not be worked out: ${trend.reason}.`]] };
  return {
    trend,
    caveats: [
      ...(trend.clusters > 0 || cluster === undefined
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

/** p that the share lost neither rises nor falls over the cooks, each cook counted as one; undefined for fewer than five. */
export function lossOverTime(
  { lots, lotName, dated }: LotsInOrder,
  seed: number,
): { name: string; p: number; rises: boolean } | undefined {
  const rows = lots
    .map(({ trays }) => trays.filter((tray) => isFinished(tray) && tray.traysInPool === 1))
    .filter((trays) => trays.length > 0)
    .flatMap((trays, order) => trays.map((tray) => ({ order, lost: isLost(tray) ? 1 : 0 })));
  const count = (rows.at(-1)?.order ?? 0) + 1;
  if (!dated || count < 5) return undefined;
  const { p, observed } = permuteSlope(
    {
      response: rows.map(({ lost }) => lost),
      amount: rows.map(({ order }) => order),
      clusters: rows.map(({ order }) => String(order)),
    },
    { seed, draws: Math.max(299, Math.min(3999, Math.floor(4e6 / count))), exactUpTo: 50_000 },
  );
  return { name: `${observed > 0 ? "rise" : "fall"} from ${lotName} to ${lotName}`, p, rises: observed > 0 };
}
