import type { Estimate, Table, Trial } from "../../src/analysis.ts";
import type { Factor } from "../../src/design/factor.ts";
import type { TreatmentComparison } from "../comparison/compare-treatment.ts";
import { inSentence } from "../comparison/level-text.ts";
import type { AdjustedDifference } from "./adjusted-difference.ts";
import type { DearerPays, SupplementCost } from "./supplement-money.ts";

/** One dearer level against the cheapest. */
export interface Dearer {
  cost: SupplementCost;
  gain: AdjustedDifference;
  pays: DearerPays;
}

/** What the question is answered from. */
export interface SupplementFacts {
  treatment: Factor;
  compared: TreatmentComparison;
  cheapest: SupplementCost;
  dearer: Dearer[];
  netPerGram: number;
  products: string[];
}

/** Every dearer level: what it costs, gains, leaves, and where it stops paying. */
export function moneyTable({ treatment, cheapest, dearer }: SupplementFacts): Table {
  return {
    caption: `What a dearer ${inSentence(treatment.label)} brings against ${cheapest.level}, per started tray`,
    columns: [
      { label: treatment.label },
      { label: "supplement costs", unit: "money/tray" },
      { label: "more than the cheapest", unit: "money/tray" },
      { label: "yield gained", unit: "g" },
      { label: "from", unit: "g" },
      { label: "to", unit: "g" },
      { label: "left more", unit: "money/tray" },
      { label: "from", unit: "money/tray" },
      { label: "to", unit: "money/tray" },
      { label: "stops paying below a net price of", unit: "money/g" },
      { label: "from", unit: "money/g" },
      { label: "to", unit: "money/g" },
      { label: "supplement costs now", unit: "money/kg" },
      { label: "stops paying above", unit: "money/kg" },
      { label: "from", unit: "money/kg" },
      { label: "to", unit: "money/kg" },
    ],
    rows: dearer.map(({ cost, gain, pays }) => {
      const { stopsBelow, mostPerKg, extra } = pays;
      const stops =
        stopsBelow.kind === "cannot-tell"
          ? [null, null, null]
          : [stopsBelow.value, stopsBelow.low, Number.isFinite(stopsBelow.high) ? stopsBelow.high : null];
      return [
        cost.level,
        cost.perTray,
        cost.perTray - cheapest.perTray,
        gain.difference,
        gain.low,
        gain.high,
        extra.value,
        extra.low,
        extra.high,
        ...stops,
        cost.grams === undefined || cost.grams === 0 ? null : (cost.perTray / cost.grams) * 1000,
        ...(mostPerKg === undefined ? [null, null, null] : [mostPerKg.value, mostPerKg.low, mostPerKg.high]),
      ];
    }),
    note: "Net price: what a gram leaves after fees, packing, sending and drying. An empty “to” of the net price: the gain may be nothing, so no price is high enough for sure.",
  };
}

/** What each dearer level leaves and gains, the main one first. */
export function estimatesOf(
  trial: Trial,
  { cheapest, compared, dearer }: SupplementFacts,
  goodGain: AdjustedDifference | undefined,
  main: Dearer,
): Estimate[] {
  const shared = { level: trial.settings.intervalLevel, nUnit: "trays" };
  const against = ({ cost }: Dearer) => `${cost.level} against ${cheapest.level}`;
  return [
    ...[main, ...dearer.filter((one) => one !== main)].flatMap((one) => [
      {
        ...shared,
        label: `left more per started tray, ${against(one)}`,
        value: one.pays.extra.value,
        low: one.pays.extra.low,
        high: one.pays.extra.high,
        unit: "money/tray",
        n: one.gain.n,
        method: "gain in yield times the net price, less the dearer supplement",
      },
      {
        ...shared,
        label: `${compared.response.label}, ${against(one)}`,
        value: one.gain.difference,
        low: one.gain.low,
        high: one.gain.high,
        unit: "g",
        n: one.gain.n,
        p: one.gain.p,
        method: "difference of means with other treatments held fixed",
      },
    ]),
    ...(goodGain === undefined
      ? []
      : [
          {
            ...shared,
            label: `yield per good tray, ${against(main)}`,
            value: goodGain.difference,
            low: goodGain.low,
            high: goodGain.high,
            unit: "g",
            n: goodGain.n,
            p: goodGain.p,
            method: "difference of means with other treatments held fixed",
          },
        ]),
  ];
}
