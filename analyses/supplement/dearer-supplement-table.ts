import type { Table } from "../../src/analysis.ts";
import type { Decision, Gain, JudgedGain } from "../../src/decisions/verdict/index.ts";
import type { YieldWeight } from "../../src/records/yield-weight.ts";
import { inSentence } from "../comparison/level-text.ts";
import type { SupplementCost } from "../costs/supplement-costs.ts";
import type { TreatmentDecision } from "../treatment/treatment-decision.ts";
import type { DearerPays } from "./supplement-money.ts";

/** One dearer level against the cheapest. */
export interface Dearer {
  cost: SupplementCost;
  /** grams of a started tray more than the cheapest, limits for all dearer levels together */
  gain: Gain;
  pays: DearerPays;
  /** whether the gain is more than the supplement costs */
  judged: JudgedGain;
}

/** What the question is answered from. */
export interface SupplementFacts {
  of: TreatmentDecision;
  /** the decision the gains come from: of started trays, or of good ones where none was lost */
  basis: Decision;
  weight: YieldWeight;
  cheapest: SupplementCost;
  dearer: Dearer[];
  netPerGram: number;
  products: string[];
}

/** Every dearer level: what it costs, gains, leaves, and where it stops paying. */
export function moneyTable({ of, cheapest, dearer }: SupplementFacts): Table {
  const { label } = of.thing.factor;
  return {
    caption: `What a dearer ${inSentence(label)} brings against ${cheapest.level}, per started tray`,
    columns: [
      { label },
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
        gain.estimate,
        gain.lower,
        gain.upper,
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
