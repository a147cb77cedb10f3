import { hasEnded, isLost, type Tray } from "./tray.ts";

/** The cook of a tray, or the day that stands for it. */
export const cookOf = ({ batch, inoculatedOn }: Tray): string | undefined => batch ?? inoculatedOn;

/**
 * Whether a tray stands in a cook of which at least as many trays still grow as have ended. Trays are lost for weeks before
 * the first of their cook is picked, so that such a cook has little but its losses to show: it would look like a bad one. A
 * tray without cook and day of inoculation is in none.
 */
function inGrowingCook(trays: ReadonlyArray<Tray>): (tray: Tray) => boolean {
  const lead = new Map<string, number>();
  for (const tray of trays) {
    const cook = cookOf(tray);
    if (cook === undefined || tray.outcome === "asked") continue;
    lead.set(cook, (lead.get(cook) ?? 0) + (hasEnded(tray) ? tray.traysInPool : -tray.traysInPool));
  }
  return (tray) => (lead.get(cookOf(tray) ?? "") ?? 1) <= 0;
}

/**
 * Lost trays of cooks that for the most part still grow: no share lost can be told from them yet.
 * @example lostAhead([{ ...tray, batch: "C1", outcome: "failed" }, { ...tray, batch: "C1", outcome: "growing" }]).size // 1
 */
export function lostAhead(trays: ReadonlyArray<Tray>): ReadonlySet<Tray> {
  const isAhead = inGrowingCook(trays);
  return new Set(trays.filter((tray) => isLost(tray) && isAhead(tray)));
}

/** Trays whose end is known, of cooks that have ended for the most part: what a share lost is told from. */
export function countedEnds(trays: ReadonlyArray<Tray>): Tray[] {
  const isAhead = inGrowingCook(trays);
  return trays.filter((tray) => hasEnded(tray) && !isAhead(tray));
}
