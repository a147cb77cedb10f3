import type { SettingDefinition, Settings } from "./setting.ts";

const choice = (property: keyof Settings, key: string, choices: string[], meaning: string, byDefault = "") =>
  ({ key, property, kind: "choice", choices, unit: "", meaning, default: byDefault }) satisfies SettingDefinition;
const amount = (
  property: keyof Settings,
  key: string,
  kind: "number" | "percent" | "money",
  unit: string,
  byDefault: string,
  meaning: string,
  least = 0,
  // more than this makes no sense of anything a book states
  most = 1e9,
) => ({ key, property, kind, unit, meaning, default: byDefault, least, most }) satisfies SettingDefinition;

/** Keys of earlier versions, and why they are no longer used. A sheet may still hold them. */
export const retiredSettings: Readonly<Record<string, string>> = {
  minimum_trays_per_arm: "no longer used: every number of trays gets its means, range and chance",
};

/** Every setting a book may state, in the order a blank settings.csv shows them. */
export const settingDefinitions: ReadonlyArray<SettingDefinition> = [
  {
    key: "book_title",
    property: "bookTitle",
    kind: "text",
    unit: "",
    meaning: "name shown on the report",
    default: "",
  },
  {
    key: "currency",
    property: "currency",
    kind: "text",
    unit: "",
    meaning: "three-letter ISO 4217 code",
    default: "EUR",
  },
  amount("currencyDecimals", "currency_decimals", "number", "", "2", "decimals of the smallest coin", 0, 4),
  choice("displayUnits", "display_units", ["metric", "us"], "units in the report", "metric"),
  {
    key: "locale",
    property: "locale",
    kind: "text",
    unit: "",
    meaning: "number format, a language tag",
    default: "en-GB",
  },
  choice("decimalMark", "decimal_mark", ["point", "comma"], "when the sheet cannot tell"),
  choice("dateOrder", "date_order", ["day first", "month first", "year first"], "when the sheet cannot tell"),
  choice("serialDates", "serial_dates", ["1900", "1904"], "which system a spreadsheet's serial dates count in"),
  choice("temperatureUnit", "temperature_unit", ["C", "F"], "of temperatures typed without a unit"),
  choice("massUnit", "mass_unit", ["g", "kg", "oz", "lb"], "of weights typed without a unit"),
  choice("volumeUnit", "volume_unit", ["mL", "L", "fl oz", "tsp", "tbsp", "cup"], "of volumes typed without a unit"),
  amount("syringeMillilitres", "syringe_ml", "number", "mL", "0", "in one syringe; 0 when not stated"),
  amount("cupMillilitres", "cup_ml", "number", "mL", "236.5882365", "in one cup", 200, 300),
  choice(
    "layout",
    "layout",
    ["rows", "columns", "long", "cells"],
    "how trays lie in a sheet: one a row, one a column, one thing of one a row, one a cell",
  ),
  choice("tables", "tables", ["several", "one"], "whether a sheet holds several tables"),
  choice(
    "sectionTitles",
    "section_titles",
    ["use", "ignore"],
    "titles over rows, such as Batch A: they hold for each row",
  ),
  choice("fillDown", "fill_down", ["yes", "no"], "whether blank cells below a cook or dose mean the same one"),
  choice(
    "joinedCells",
    "joined_cells",
    ["use", "ignore"],
    "merged cells hold for all their rows; pounds beside ounces, numbers beside units as one column",
  ),
  choice("summaryRows", "summary_rows", ["leave out", "keep"], "rows that sum up others"),
  choice(
    "sheetRole",
    "sheet_role",
    ["harvest", "costs", "products", "temperature log", "ignore"],
    "what a sheet is for, when its name and header do not tell; with the sheet’s name in a column sheet",
  ),
  choice("percentStyle", "percent_style", ["percent", "fraction"], "whether a bare 0.129 means 0.129 % or 12.9 %"),
  amount("grainMoisture", "grain_moisture", "percent", "%", "12", "of air-dry grain, wet basis", 0, 60),
  amount("supplementMoisture", "supplement_moisture", "percent", "%", "8", "of air-dry supplement, wet basis", 0, 60),
  amount(
    "driedMoisture",
    "dried_moisture",
    "percent",
    "%",
    "10",
    "of dried product, wet basis, when not recorded",
    0,
    40,
  ),
  amount("normalLossRate", "normal_loss_rate", "percent", "%", "", "usual loss; empty: the book's own", 0, 90),
  choice("normalLossBase", "normal_loss_base", ["starts", "good"], "what that rate is a share of", "starts"),
  choice(
    "jointCostBy",
    "joint_cost_by",
    ["weight", "value"],
    "how grades and by-products share the cost of a gram",
    "weight",
  ),
  amount("recoveredPerLostTray", "recovered_per_lost_tray", "money", "", "0", "got back for a lost tray"),
  amount("ownerLabourRate", "owner_labour_rate", "money", "per hour", "0", "owner's own time"),
  amount("jarMillilitres", "jar_ml", "number", "mL", "500", "usable liquid culture in one jar", 1),
  amount("shelfPlaces", "shelf_places", "number", "trays", "40", "trays the shelves hold", 1),
  amount("traysPerLoad", "trays_per_load", "number", "trays", "6", "trays in one cooker load", 1),
  amount("labourHoursPerMonth", "labour_hours_per_month", "number", "hours", "40", "hours of work at hand"),
  amount(
    "dryingCostPerKgFresh",
    "drying_cost_per_kg_fresh",
    "money",
    "per kg fresh",
    "0",
    "when costs.csv has no drying line",
  ),
  amount("intervalLevel", "interval_level", "percent", "%", "95", "of every interval", 50, 99.9),
  amount("significanceLevel", "significance_level", "percent", "%", "5", "of every test", 0.1, 50),
  {
    key: "varied",
    property: "varied",
    kind: "text",
    unit: "",
    meaning: "the column the book is about, where several things varied",
    default: "",
  },
  {
    key: "usual_dose",
    property: "usualDose",
    kind: "text",
    unit: "",
    meaning: "your usual dose, strain or the like, to compare the others with; the one most used where blank",
    default: "",
  },
  choice(
    "dosesDrawnByLot",
    "doses_drawn_by_lot",
    ["yes", "no"],
    "whether chance decided which tray, or which cook, got which dose; a plan's own sheet says so by itself",
  ),
  amount(
    "plannedCooks",
    "planned_cooks",
    "number",
    "cooks",
    "0",
    "how many cooks the trial is to have; 0: no plan. A plan's own sheet says so by itself",
  ),
  amount(
    "doseStep",
    "dose_step",
    "number",
    "in the dose's unit",
    "0",
    "smallest step you can measure; 0: 0.5 for doses below 5, 1 below 50, 5 above",
  ),
  amount(
    "nearOptimalShare",
    "near_optimal_share",
    "percent",
    "%",
    "2",
    "of a started tray's income (or yield): doses this near one another count as equal",
    0.1,
    50,
  ),
  amount(
    "worthwhileShare",
    "worthwhile_gain",
    "percent",
    "%",
    "10",
    "of a tray's yield: a difference worth finding; common practice, no source",
    0.5,
    100,
  ),
  amount("seed", "seed", "number", "", "20261", "of everything random", 0, Number.MAX_SAFE_INTEGER),
  {
    key: "report_date",
    property: "reportDate",
    kind: "date",
    unit: "",
    meaning: "date printed on the report",
    default: "",
  },
  amount("dryingRatioLow", "drying_ratio_low", "number", "", "4", "fresh/dry below this is flagged", 1),
  amount("dryingRatioHigh", "drying_ratio_high", "number", "", "15", "fresh/dry above this is flagged", 1),
  amount("colonisationDaysLow", "colonisation_days_low", "number", "days", "3", "sooner is flagged"),
  amount("colonisationDaysHigh", "colonisation_days_high", "number", "days", "30", "later is flagged"),
  amount("harvestDaysLow", "harvest_days_low", "number", "days", "10", "sooner is flagged"),
  amount("harvestDaysHigh", "harvest_days_high", "number", "days", "130", "later is flagged"),
  amount("fruitingLowCelsius", "fruiting_low_c", "number", "°C", "8", "cooler is flagged", -10, 50),
  amount("fruitingHighCelsius", "fruiting_high_c", "number", "°C", "30", "warmer is flagged", -10, 50),
  amount("outlierZ", "outlier_z", "number", "", "3.5", "robust z beyond which a weight is pointed out", 1),
];

/** The settings of a book that states none. */
export const defaultSettings: Readonly<Settings> = Object.freeze(
  Object.fromEntries(
    settingDefinitions.flatMap<[string, string | number]>(({ property, kind, default: typed }) => {
      if (kind === "text" || kind === "choice" || kind === "date") return [[property, typed]];
      return typed === "" ? [] : [[property, kind === "percent" ? Number(typed) / 100 : Number(typed)]];
    }),
  ) as unknown as Settings,
);
