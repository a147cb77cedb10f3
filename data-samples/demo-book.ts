import { costColumns } from "../src/records/cost-line.ts";
import { productColumns } from "../src/records/product.ts";
import { seededRandom } from "../src/statistics/random/seeded-random.ts";
import { type DemoTray, simulateDemoTrial } from "./demo-trial.ts";
import { sheetAsTyped } from "./sheet-as-typed.ts";

const harvestHeader =
  "tray_id,batch,load,load_position,jar,strain,shelf,container,substrate_wet_g,grain_dry_g,supplement,supplement_grade," +
  "supplement_g,inoculum_ml,added_liquid_ml,incubation_c,fruiting_c,inoculated_on,colonised_on,fruiting_on,harvested_on," +
  "dried_on,outcome,fresh_g,dry_g,note";

/** What every tray of the demo has in common; the wet weight is exactly 2 lb. */
export const demoFilling = {
  strain: "lion's mane",
  container: "filter-bag tray",
  substrateWetGrams: 907.18474,
  grainGrams: 380,
  supplement: "soy hulls",
  supplementGrams: 40,
  largestDoseMillilitres: 12,
  incubationCelsius: 22,
  fruitingCelsius: 18,
} as const;

/** One trial as a tidy harvest sheet. */
function tidySheet(trays: ReadonlyArray<DemoTray>): string {
  const rows = trays.map((tray) =>
    [
      tray.trayId,
      tray.batch,
      tray.load,
      tray.loadPosition,
      tray.jar,
      demoFilling.strain,
      tray.shelf,
      demoFilling.container,
      demoFilling.substrateWetGrams,
      demoFilling.grainGrams,
      demoFilling.supplement,
      tray.supplementGrade,
      demoFilling.supplementGrams,
      tray.doseMillilitres,
      demoFilling.largestDoseMillilitres - tray.doseMillilitres,
      demoFilling.incubationCelsius,
      demoFilling.fruitingCelsius,
      tray.inoculatedOn,
      tray.colonisedOn,
      tray.fruitingOn,
      tray.harvestedOn,
      tray.driedOn,
      tray.outcome,
      tray.freshGrams,
      tray.dryGrams,
      "",
    ]
      .map((cell) => cell ?? "")
      .join(","),
  );
  return `${[harvestHeader, ...rows].join("\n")}\n`;
}

/** Rows of a sheet given as objects, under the sheet's full header. */
function sheetOf(header: ReadonlyArray<string>, rows: ReadonlyArray<Record<string, string | number>>): string {
  for (const row of rows) {
    const stranger = Object.keys(row).find((key) => !header.includes(key));
    if (stranger !== undefined) throw new RangeError(`sheetOf: there is no column ${stranger}`);
  }
  const line = (cells: ReadonlyArray<string | number>) =>
    cells.map((cell) => (/[",\n]/.test(String(cell)) ? `"${String(cell).replaceAll('"', '""')}"` : cell)).join(",");
  return `${[line(header), ...rows.map((row) => line(header.map((key) => row[key] ?? "")))].join("\n")}\n`;
}

const costs = sheetOf(costColumns, [
  {
    item: "cracked sorghum",
    kind: "ingredient",
    pack_price: 31,
    pack_size: 25,
    pack_unit: "kg",
    amount: 380,
    amount_unit: "g",
    per: "tray",
  },
  {
    item: "soy hulls, coarse",
    kind: "ingredient",
    pack_price: 11.5,
    pack_size: 10,
    pack_unit: "kg",
    amount: 1,
    amount_unit: "g",
    per: "supplement g",
    only_where_column: "supplement_grade",
    only_where_value: "coarse",
  },
  {
    item: "soy hulls, fine",
    kind: "ingredient",
    pack_price: 19.8,
    pack_size: 10,
    pack_unit: "kg",
    amount: 1,
    amount_unit: "g",
    per: "supplement g",
    only_where_column: "supplement_grade",
    only_where_value: "fine",
  },
  {
    item: "filter bag",
    kind: "consumable",
    pack_price: 46,
    pack_size: 100,
    pack_unit: "each",
    amount: 1,
    amount_unit: "each",
    per: "tray",
  },
  {
    item: "syringe and needle",
    kind: "consumable",
    pack_price: 0.35,
    pack_size: 1,
    pack_unit: "each",
    amount: 1,
    amount_unit: "each",
    per: "jar",
  },
  {
    item: "culture syringe",
    kind: "culture",
    pack_price: 18,
    pack_size: 1,
    pack_unit: "each",
    amount: 1,
    amount_unit: "each",
    per: "jar",
    expands_to_jars: 6,
    note: "one bought syringe makes six jars",
  },
  {
    item: "malt broth",
    kind: "culture",
    pack_price: 9.6,
    pack_size: 500,
    pack_unit: "g",
    amount: 14,
    amount_unit: "g",
    per: "jar",
  },
  {
    item: "jar-making time",
    kind: "labour",
    pack_price: 16,
    pack_size: 1,
    pack_unit: "hour",
    amount: 0.75,
    amount_unit: "hour",
    per: "jar",
    owner_labour: "yes",
  },
  {
    item: "tray frame",
    kind: "reusable",
    pack_price: 7.5,
    pack_size: 1,
    pack_unit: "each",
    amount: 1,
    amount_unit: "each",
    per: "tray",
    uses: 40,
    salvage: 0,
    breakage_pct: "1 %",
  },
  {
    item: "cooker",
    kind: "reusable",
    pack_price: 620,
    pack_size: 1,
    pack_unit: "each",
    amount: 1,
    amount_unit: "each",
    per: "load",
    life_years: 6,
    uses_per_year: 90,
    salvage: 80,
  },
  {
    item: "cooker electricity",
    kind: "energy",
    pack_price: 0.29,
    pack_size: 1,
    pack_unit: "kWh",
    watts: 1800,
    hours: 3.5,
    duty_pct: "65 %",
    per: "load",
  },
  {
    item: "shelf light and fans",
    kind: "energy",
    pack_price: 0.29,
    pack_size: 1,
    pack_unit: "kWh",
    watts: 9,
    hours: 12,
    duty_pct: "100 %",
    per: "shelf day",
    stage: "fruiting",
  },
  {
    item: "dehydrator electricity",
    kind: "energy",
    pack_price: 0.29,
    pack_size: 1,
    pack_unit: "kWh",
    amount: 1.9,
    amount_unit: "kWh",
    per: "kg fresh",
    stage: "drying",
  },
  {
    item: "filling and cooking",
    kind: "labour",
    pack_price: 16,
    pack_size: 1,
    pack_unit: "hour",
    amount: 1.5,
    amount_unit: "hour",
    per: "load",
    owner_labour: "yes",
  },
  {
    item: "inoculating",
    kind: "labour",
    pack_price: 16,
    pack_size: 1,
    pack_unit: "hour",
    amount: "2",
    amount_unit: "min",
    per: "tray",
    owner_labour: "yes",
    stage: "inoculation",
  },
  {
    item: "picking and weighing",
    kind: "labour",
    pack_price: 16,
    pack_size: 1,
    pack_unit: "hour",
    amount: "5",
    amount_unit: "min",
    per: "good tray",
    owner_labour: "yes",
    stage: "harvest",
  },
  {
    item: "shed rent",
    kind: "space",
    pack_price: 60,
    pack_size: 1200,
    pack_unit: "day",
    amount: 1,
    amount_unit: "day",
    per: "shelf day",
    note: "forty places for thirty days",
  },
  {
    item: "insurance and phone",
    kind: "overhead",
    pack_price: 22,
    pack_size: 1,
    pack_unit: "month",
    amount: 1,
    amount_unit: "month",
    per: "month",
    normal_trays_per_month: 24,
  },
]);

const products = sheetOf(productColumns, [
  {
    product: "dried slices 50 g",
    form: "dried",
    channel: "web shop",
    grams: 50,
    packaging_cost: 0.55,
    minutes: 4,
    shipping_cost: 3.9,
    shipping_charged: 3.9,
    fee_pct: "6.5 %",
    fee_fixed: 0.3,
    fee_base: "price and shipping",
    tax_pct: "7 %",
    tax_included: "yes",
    target_margin_pct: "35 %",
    current_price: 24.9,
    expected_units_month: 9,
    max_units_month: 16,
    sell_through_pct: "97 %",
    price_endings: "0.50; 0.90",
  },
  {
    product: "dried slices 250 g",
    form: "dried",
    channel: "wholesale",
    grams: 250,
    packaging_cost: 0.9,
    minutes: 5,
    shipping_cost: 5.2,
    shipping_charged: 0,
    fee_pct: "0 %",
    fee_fixed: 0,
    fee_base: "price",
    tax_pct: "7 %",
    tax_included: "no",
    target_margin_pct: "20 %",
    current_price: 94,
    expected_units_month: 1,
    max_units_month: 3,
    sell_through_pct: "100 %",
    price_endings: "0.00",
  },
  {
    product: "powder 30 g",
    form: "powder",
    channel: "market place",
    grams: 30,
    processing_loss_pct: "4 %",
    packaging_cost: 0.8,
    minutes: 5,
    shipping_cost: 3.9,
    shipping_charged: 2.5,
    fee_pct: "12.9 %",
    fee_fixed: 0.3,
    fee_base: "price and shipping",
    tax_pct: "7 %",
    tax_included: "yes",
    target_margin_pct: "40 %",
    current_price: 19.9,
    expected_units_month: 5,
    max_units_month: 12,
    sell_through_pct: "98 %",
    price_endings: "0.90",
  },
  {
    product: "fresh punnet 200 g",
    form: "fresh",
    channel: "farm gate",
    grams: 200,
    packaging_cost: 0.25,
    minutes: 2,
    shipping_cost: 0,
    shipping_charged: 0,
    fee_pct: "0 %",
    fee_fixed: 0,
    fee_base: "price",
    tax_pct: "7 %",
    tax_included: "yes",
    target_margin_pct: "30 %",
    current_price: 6.5,
    expected_units_month: 12,
    max_units_month: 25,
    sell_through_pct: "80 %",
    price_endings: "0.00; 0.50",
  },
]);

const settings = `key,value,unit,note
book_title,Lantern Shed lion's mane,,an invented farm
currency,EUR,,
grain_moisture,12,%,air-dry sorghum
supplement_moisture,9,%,soy hulls
normal_loss_rate,6,%,of starts
normal_loss_base,starts,,
shelf_places,40,trays,
trays_per_load,12,trays,
jar_ml,250,mL,usable culture in one jar
owner_labour_rate,16,per hour,packing too
labour_hours_per_month,30,hours,
seed,20261,,
`;

/** The spring trial: five cooks, all done. */
export function springTrays(): DemoTray[] {
  return simulateDemoTrial({
    seed: 417,
    cooks: [
      { name: "C1", inoculatedOn: "2026-02-16" },
      { name: "C2", inoculatedOn: "2026-02-25" },
      { name: "C3", inoculatedOn: "2026-03-04" },
      { name: "C4", inoculatedOn: "2026-03-17" },
      { name: "C5", inoculatedOn: "2026-04-02" },
    ],
    traysPerDose: 3,
    lookedAtOn: "2026-08-31",
    firstTray: 1,
    firstJar: 1,
  });
}

/** The summer trial: three more cooks, the last one still on the shelf. */
export function summerTrays(): DemoTray[] {
  return simulateDemoTrial({
    seed: 822,
    cooks: [
      { name: "C6", inoculatedOn: "2026-06-09" },
      { name: "C7", inoculatedOn: "2026-06-23" },
      { name: "C8", inoculatedOn: "2026-08-11" },
    ],
    traysPerDose: 3,
    lookedAtOn: "2026-08-31",
    firstTray: 61,
    firstJar: 11,
  });
}

/** Every file of the sample books, by path below data-samples. */
export function demoFiles(): Record<string, string> {
  const spring = springTrays();
  return {
    "demo-book/harvests/2026-spring.csv": tidySheet(spring),
    "demo-book/harvests/2026-summer.csv": tidySheet(summerTrays()),
    "demo-book/costs.csv": costs,
    "demo-book/products.csv": products,
    "demo-book/settings.csv": settings,
    "as-typed-book/harvests/2026-spring.csv": sheetAsTyped(spring, seededRandom(93)),
    "as-typed-book/harvests/2026-summer.csv": tidySheet(summerTrays()),
    "as-typed-book/costs.csv": costs,
    "as-typed-book/products.csv": products,
    "as-typed-book/settings.csv": settings,
  };
}
