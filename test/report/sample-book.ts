import type { Book } from "../../src/records/book.ts";
import type { Issue } from "../../src/records/issue.ts";
import { defaultSettings } from "../../src/records/setting-definitions.ts";
import type { Tray } from "../../src/records/tray.ts";
import { wave } from "./sample-answers.ts";

/** One made-up tray. */
export function sampleTray(index: number, more: Partial<Tray> = {}): Tray {
  const dose = [4, 8, 12, 16][index % 4]!;
  const lost = index % 11 === 10;
  const dry = 9 + 1.1 * dose - 0.045 * dose ** 2 + 1.8 * wave(index);
  return {
    trayId: `T${index + 1}`,
    batch: `Cook ${"ABC"[Math.floor(index / 20) % 3]}`,
    jar: `J${1 + (index % 5)}`,
    strain: "king oyster",
    container: "1 L tray in a filter bag",
    inoculumMillilitres: dose,
    substrateWetGrams: 420 + Math.round(10 * wave(index + 7)),
    fruitingCelsius: 14.5 + (index % 3) * 0.5,
    inoculatedOn: "2025-03-04",
    colonisedOn: `2025-03-${String(14 + (index % 9)).padStart(2, "0")}`,
    outcome: lost ? "contaminated" : "good",
    ...(lost ? {} : { freshGrams: dry * 8.7, dryGrams: dry, finalMoisture: 0.1 + 0.01 * wave(index + 3) }),
    traysInPool: 1,
    flushes: [],
    factors: { rack: index % 2 === 0 ? "window" : "wall" },
    bounds: index === 5 ? { light_hours: { low: 10, high: 12 } } : {},
    sources: [{ file: "harvests/spring.csv", row: index + 2 }],
    flags: index % 17 === 6 ? ["drying-ratio"] : [],
    ...(index % 7 === 3 ? { note: "bag was wet on the outside when it came out of the cooker; wiped and kept" } : {}),
    ...more,
  };
}

/** One made-up entry of the log. */
export const sampleIssue = (more: Partial<Issue> = {}): Issue => ({
  file: "harvests/spring.csv",
  row: 12,
  column: "Dry wt (g)",
  tray: "T11",
  raw: "12,5",
  result: "12.5",
  rule: "decimal-comma",
  severity: "change",
  reason: "a comma between digits was read as the decimal mark",
  expected: "a number such as 12.5",
  action: "",
  ...more,
});

/** A made-up book that uses every part of the report. */
export function sampleBook(more: Partial<Book> = {}): Book {
  return {
    name: "spring-trial",
    settings: { ...defaultSettings, bookTitle: "Spring dose trial", reportDate: "2025-06-01", jarMillilitres: 400 },
    trays: Array.from({ length: 64 }, (_, index) => sampleTray(index)),
    costLines: [
      {
        item: "Millet grain",
        kind: "ingredient",
        packPrice: 21.5,
        packSize: 25_000,
        packUnit: "g",
        amount: 150,
        per: "tray",
        ownerLabour: false,
        source: { file: "costs.csv", row: 2 },
      },
      {
        item: "Cooker power",
        kind: "energy",
        packPrice: 0.31,
        packSize: 1,
        packUnit: "kWh",
        amount: 2.625,
        per: "load",
        watts: 1500,
        hours: 2.5,
        duty: 0.7,
        ownerLabour: false,
        source: { file: "costs.csv", row: 3 },
      },
    ],
    products: [
      {
        product: "Dried slices 50 g",
        form: "dried",
        channel: "own web shop",
        grams: 50,
        processingLoss: 0.04,
        packagingCost: 0.42,
        minutes: 6,
        shippingCost: 3.2,
        shippingCharged: 3.9,
        feeFraction: 0.029,
        feeFixed: 0.3,
        feeBase: "price and shipping",
        taxRate: 0.07,
        taxIncluded: true,
        currentPrice: 14.9,
        sellThrough: 0.9,
        priceEndings: [0.9],
        source: { file: "products.csv", row: 2 },
      },
    ],
    temperatureLog: [],
    columns: [
      { file: "harvests/spring.csv", header: "Tray", field: "tray_id", because: "synonym", unit: "" },
      { file: "harvests/spring.csv", header: "LC (cc)", field: "inoculum_ml", because: "synonym", unit: "mL" },
      { file: "harvests/spring.csv", header: "Dry wt (g)", field: "dry_g", because: "synonym and unit", unit: "g" },
      { file: "harvests/spring.csv", header: "rack", field: "factor", because: "no canonical column", unit: "" },
      { file: "harvests/spring.csv", header: "", field: "unread", because: "no header", unit: "" },
    ],
    issues: [
      ...Array.from({ length: 9 }, (_, index) => sampleIssue({ row: 4 + index, tray: `T${index + 3}` })),
      sampleIssue({
        row: 0,
        column: "Temp",
        raw: "",
        result: "",
        rule: "temperature-unit",
        severity: "error",
        reason: "numbers without a unit could be °C or °F",
        expected: "18 C or 64.4 F",
        action: "State the unit once in settings.csv.",
        setting: "temperature_unit",
      }),
      sampleIssue({
        row: 21,
        column: "Fresh",
        raw: "~120",
        result: "",
        rule: "about",
        severity: "warning",
        reason: "an estimate is not a weight",
        expected: "a weighed number",
        action: "Weigh, or leave empty.",
      }),
      sampleIssue({
        row: 30,
        raw: "contam",
        result: "contaminated",
        rule: "outcome-word",
        reason: "a word for an outcome",
      }),
    ],
    leftOut: [
      {
        file: "harvests/spring.csv",
        row: 66,
        cells: ["Total", "", "812.4"],
        rule: "totals-row",
        reason: "a row of totals",
      },
    ],
    harvestFiles: [{ file: "harvests/spring.csv", rows: 65 }],
    ...more,
  };
}
