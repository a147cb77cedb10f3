import type { DosePrices } from "./dose-tray.ts";

/** Every price, none absent. */
export type AllPrices = Required<DosePrices>;

/** Prices with 0 for what is absent; without any, a gram is 1 and nothing costs. */
export function allPrices(prices: DosePrices | undefined): AllPrices {
  return {
    perDoseUnit: 0,
    perGoodTray: 0,
    perShelfDay: 0,
    perStartedTray: 0,
    recoveredPerLostTray: 0,
    ...(prices ?? { perGram: 1 }),
  };
}
