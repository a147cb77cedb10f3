import type { Tray } from "../../src/records/tray.ts";

/** The trays of one cook, or of one inoculation day where cooks are not recorded. */
export interface Lot {
  name: string;
  /** earliest date of inoculation of its trays, ISO 8601 */
  startedOn: string | undefined;
  trays: Tray[];
}

/** Lots one after another. */
export interface LotsInOrder {
  lots: Lot[];
  /** what a lot is: "cook" or "inoculation day" */
  lotName: "cook" | "inoculation day";
  /** whether dates set the order; else it is the order of the sheets */
  dated: boolean;
  /** trays that belong to no lot */
  without: Tray[];
}

/**
 * Sorts trays into cooks in the order they were inoculated; by inoculation day where no cook is recorded; in the order of
 * the sheets where a cook has no date.
 */
export function cooksInOrder(trays: ReadonlyArray<Tray>): LotsInOrder {
  const byCook = trays.some(({ batch }) => batch !== undefined);
  const lots = new Map<string, Lot>();
  const without: Tray[] = [];
  for (const tray of trays) {
    const name = byCook ? tray.batch : tray.inoculatedOn;
    if (name === undefined) {
      without.push(tray);
      continue;
    }
    const lot = lots.get(name) ?? { name, startedOn: undefined, trays: [] };
    lots.set(name, lot);
    lot.trays.push(tray);
    const date = tray.inoculatedOn;
    if (date !== undefined && (lot.startedOn === undefined || date < lot.startedOn)) lot.startedOn = date;
  }
  const found = [...lots.values()];
  const dated = found.every(({ startedOn }) => startedOn !== undefined);
  return {
    // cooks of one day keep the order of the sheets
    lots: dated ? found.sort((a, b) => a.startedOn!.localeCompare(b.startedOn!, "en")) : found,
    lotName: byCook ? "cook" : "inoculation day",
    dated,
    without,
  };
}
