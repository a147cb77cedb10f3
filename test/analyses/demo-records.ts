import { demoFilling } from "../../data-samples/demo-book.ts";
import type { DemoTray } from "../../data-samples/demo-trial.ts";
import type { Trial } from "../../src/analysis.ts";
import { Memo } from "../../src/records/memo.ts";
import type { Settings } from "../../src/records/setting.ts";
import { defaultSettings } from "../../src/records/setting-definitions.ts";
import type { Tray } from "../../src/records/tray.ts";

/** A tray's record with nothing known but what is given. */
export function trayRecord(given: Partial<Tray> & { trayId: string }): Tray {
  return {
    outcome: "good",
    traysInPool: 1,
    flushes: [],
    factors: {},
    bounds: {},
    sources: [{ file: "test.csv", row: 2 }],
    flags: [],
    ...given,
  };
}

/** A simulated demo tray as the record that cleaning its row gives. */
export function recordOfDemoTray(tray: DemoTray): Tray {
  const { doseMillilitres, loadPosition, ...rest } = tray;
  return trayRecord({
    ...rest,
    loadPosition: String(loadPosition),
    inoculumMillilitres: doseMillilitres,
    addedLiquidMillilitres: demoFilling.largestDoseMillilitres - doseMillilitres,
    strain: demoFilling.strain,
    substrateWetGrams: demoFilling.substrateWetGrams,
    grainDryGrams: demoFilling.grainGrams,
    supplement: demoFilling.supplement,
    supplementGrams: demoFilling.supplementGrams,
    incubationCelsius: demoFilling.incubationCelsius,
    fruitingCelsius: demoFilling.fruitingCelsius,
  });
}

/** What an analysis sees of a set of trays and nothing else. */
export function trialOfTrays(trays: ReadonlyArray<Tray>, settings: Partial<Settings> = {}): Trial {
  return { trays, settings: { ...defaultSettings, ...settings }, temperatureLog: [], issues: [], memo: new Memo() };
}
