import type { Tray } from "../../records/tray.ts";
import { finishTray } from "./finish-tray.ts";
import { mergeDrafts } from "./merge-drafts.ts";
import type { TrayDraft } from "./tray-draft.ts";
import type { TrayLog } from "./tray-log.ts";

/**
 * Puts rows together to trays: one record for each tray name, in the order first met.
 * @param drafts one for each row of every sheet; they are used up
 */
export function assembleTrays(drafts: ReadonlyArray<TrayDraft>, log: TrayLog): Tray[] {
  const places = new Map<string, number>();
  const firsts: TrayDraft[] = [];
  const more = new Map<number, TrayDraft[]>();
  for (const draft of drafts) {
    const place = places.get(draft.trayId);
    if (place === undefined) {
      places.set(draft.trayId, firsts.length);
      firsts.push(draft);
      continue;
    }
    const others = more.get(place);
    if (others === undefined) more.set(place, [draft]);
    else others.push(draft);
  }
  for (const [place, others] of more) firsts[place] = mergeDrafts([firsts[place]!, ...others], log);
  for (const draft of firsts) finishTray(draft, log);
  return firsts as Tray[];
}
