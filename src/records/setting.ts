/** The book's settings, each with a default, so that an empty settings.csv is a valid one. */
export interface Settings {
  bookTitle: string;
  /** ISO 4217 code */
  currency: string;
  /** decimals of the currency's minor unit */
  currencyDecimals: number;
  /** units people read in the report */
  displayUnits: "metric" | "us";
  /** BCP 47 tag for number formats */
  locale: string;
  /** "" lets the sheet decide */
  decimalMark: "" | "point" | "comma";
  /** "" lets the sheet decide */
  dateOrder: "" | "day first" | "month first" | "year first";
  /** which day a spreadsheet's serial 0 means; "" lets the sheet decide */
  serialDates: "" | "1900" | "1904";
  /** the year of the first date that a sheet's column types without one; 0 when not stated */
  firstYear: number;
  /** unit of temperatures typed without one; "" lets the column decide */
  temperatureUnit: "" | "C" | "F";
  /** unit of weights typed without one; "" lets the column decide */
  massUnit: "" | "g" | "kg" | "oz" | "lb";
  /** unit of volumes typed without one; "" lets the column decide */
  volumeUnit: "" | "mL" | "L" | "fl oz" | "tsp" | "tbsp" | "cup";
  /** how trays lie in a sheet; "" lets the sheet decide */
  layout: "" | "rows" | "columns" | "long" | "cells";
  /** whether a sheet may hold several tables; "" lets the sheet decide */
  tables: "" | "several" | "one";
  /** whether titles over rows tell something of them */
  sectionTitles: "" | "use" | "ignore";
  /** whether a blank cell below a filled one means the same; "" lets the sheet decide */
  fillDown: "" | "yes" | "no";
  /** what becomes of rows that sum up others */
  summaryRows: "" | "leave out" | "keep";
  /** whether merged cells count for all their rows, and columns that hold one quantity are joined */
  joinedCells: "" | "use" | "ignore";
  /** what a sheet is for; "" lets its name and header decide */
  sheetRole: "" | "harvest" | "costs" | "products" | "temperature log" | "ignore";
  /** mL in one syringe, where cells say "1 syringe"; 0 when not stated */
  syringeMillilitres: number;
  /** mL in one cup: US 236.5882365, metric 250, labelling 240 */
  cupMillilitres: number;
  /** what a percentage without a % sign means: 12.9 or 0.129; "" flags values that could be either */
  percentStyle: "" | "percent" | "fraction";
  /** moisture of air-dry grain, wet basis, 0 to 1 */
  grainMoisture: number;
  /** moisture of air-dry supplement, wet basis, 0 to 1 */
  supplementMoisture: number;
  /** moisture of the dried product where the sheet has none, wet basis, 0 to 1 */
  driedMoisture: number;
  /** usual share of trays lost, 0 to 1; absent: the book's own loss is taken as normal */
  normalLossRate?: number;
  normalLossBase: "starts" | "good";
  /** how products of different grades share the cost of the mushrooms: every gram alike, or by what a grade brings */
  jointCostBy: "weight" | "value";
  /** money recovered from one lost tray */
  recoveredPerLostTray: number;
  /** money per hour of the owner's own time where a labour line has no price */
  ownerLabourRate: number;
  /** usable mL in one jar of liquid culture */
  jarMillilitres: number;
  shelfPlaces: number;
  traysPerLoad: number;
  labourHoursPerMonth: number;
  /** money to dry one kg of fresh mushrooms; costs.csv lines with stage drying win */
  dryingCostPerKgFresh: number;
  intervalLevel: number;
  significanceLevel: number;
  /** column the book is about, where several things varied; "" lets the layout decide */
  varied: string;
  /** the level that others are compared with; "" takes the one most used */
  usualDose: string;
  /** whether chance decided which tray, or cook, got which level; "" where it is not said */
  dosesDrawnByLot: "" | "yes" | "no";
  /** cooks the trial was planned to have; 0 where there is no plan */
  plannedCooks: number;
  /** smallest step of a dose that can be measured, in the dose's own unit; 0 leaves it to the doses tried */
  doseStep: number;
  /** doses whose profit is within this share of the best count as equally good */
  nearOptimalShare: number;
  /** a difference in yield worth finding, as a share of a tray's yield */
  worthwhileShare: number;
  seed: number;
  /** date stated in the report, ISO 8601; "" prints none, so that the same book gives the same bytes */
  reportDate: string;
  /** trade ranges for soft flags */
  dryingRatioLow: number;
  dryingRatioHigh: number;
  colonisationDaysLow: number;
  colonisationDaysHigh: number;
  harvestDaysLow: number;
  harvestDaysHigh: number;
  fruitingLowCelsius: number;
  fruitingHighCelsius: number;
  /** robust z score beyond which a weight is pointed out among trays of its own dose */
  outlierZ: number;
}

/** One row of the settings reference. */
export interface SettingDefinition {
  /** the key in settings.csv */
  key: string;
  property: keyof Settings;
  kind: "text" | "choice" | "number" | "percent" | "money" | "date";
  choices?: ReadonlyArray<string>;
  /** the unit the value is typed in; percentages are typed as %, and stored 0 to 1 */
  unit: string;
  meaning: string;
  /** typed form of the default; "" when there is none */
  default: string;
  least?: number;
  most?: number;
}
