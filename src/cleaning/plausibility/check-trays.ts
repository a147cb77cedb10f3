import type { Settings } from "../../records/setting.ts";
import type { Tray } from "../../records/tray.ts";
import { addFlag } from "../trays/add-flag.ts";
import { logAtCell, type TrayLog } from "../trays/tray-log.ts";
import { bookMeasures } from "./book-measures.ts";
import { plausibilityRules } from "./index.ts";

/** Flags what is impossible or unusual about whole trays; writes the log, changes no number. */
export function checkTrays(trays: ReadonlyArray<Tray>, settings: Settings, log: TrayLog): void {
  const book = bookMeasures(trays, settings);
  for (const tray of trays) {
    for (const { code, check, impossible } of plausibilityRules) {
      for (const { field, raw, reason, expected, action, setting } of check(tray, book)) {
        logAtCell(log, tray, field, {
          rule: code,
          severity: impossible ? "error" : "warning",
          raw,
          result: raw,
          reason,
          expected,
          action,
          ...(setting === undefined ? {} : { setting }),
        });
        addFlag(tray, code);
      }
    }
  }
}
