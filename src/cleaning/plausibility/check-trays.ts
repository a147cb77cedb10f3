import type { Settings } from "../../records/setting.ts";
import type { Tray } from "../../records/tray.ts";
import { addFlag } from "../trays/add-flag.ts";
import { logAtCell, type TrayLog } from "../trays/tray-log.ts";
import { bookMeasures } from "./book-measures.ts";
import { plausibilityRules } from "./index.ts";
import type { Finding, PlausibilityRule } from "./plausibility-rule.ts";
import type { WeighedTrays } from "./weighed-trays.ts";

function report(tray: Tray, { code, impossible }: PlausibilityRule, found: ReadonlyArray<Finding>, log: TrayLog): void {
  for (const { field, raw, reason, expected, action, setting } of found) {
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

/** Flags what is impossible or unusual about whole trays; writes the log, changes no number. */
export function checkTrays(trays: ReadonlyArray<Tray>, weighed: WeighedTrays, settings: Settings, log: TrayLog): void {
  const book = bookMeasures(trays, weighed, settings);
  for (let at = 0; at < trays.length; at++) {
    const tray = trays[at]!;
    for (const rule of plausibilityRules) report(tray, rule, rule.check(tray, book, at), log);
  }
}
