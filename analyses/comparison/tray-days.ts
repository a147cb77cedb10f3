import { daysToColonise, daysToHarvest } from "../../src/measures/crop-days.ts";
import type { Tray } from "../../src/records/tray.ts";
import type { TrayResponse } from "./tray-response.ts";

/** Days from inoculation to the first look that showed the tray fully colonised. */
export const colonisationDays: TrayResponse = {
  label: "days to colonise",
  unit: "days",
  of: ({ inoculatedOn, colonisedOn, daysToColonise: typed }) =>
    daysToColonise({ from: inoculatedOn, to: colonisedOn, days: typed }),
};

/** Days from inoculation to harvest. */
export const harvestDays: TrayResponse = {
  label: "days to harvest",
  unit: "days",
  of: ({ inoculatedOn, harvestedOn, daysToHarvest: typed }) =>
    daysToHarvest({ from: inoculatedOn, to: harvestedOn, days: typed }),
};

/** The last date any record of the book mentions: unfinished trays were seen then at the latest. */
export function lastDateOf(trays: ReadonlyArray<Tray>): string | undefined {
  let last: string | undefined;
  for (const tray of trays) {
    const picked = (tray.flushes ?? []).map(({ harvestedOn }) => harvestedOn);
    for (const date of [
      tray.inoculatedOn,
      tray.colonisedOn,
      tray.fruitingOn,
      tray.harvestedOn,
      ...picked,
      tray.driedOn,
    ]) {
      if (date !== undefined && (last === undefined || date > last)) last = date;
    }
  }
  return last;
}
