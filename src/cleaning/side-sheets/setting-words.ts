import type { Settings } from "../../records/setting.ts";
import { type WordList, wordChoice } from "./word-choice.ts";

/** Other names people give a setting. */
export const settingNames: Readonly<Partial<Record<keyof Settings, string>>> = {
  bookTitle: "title|name|farm|farm name|book name|report title|book",
  currency: "money|currency code|coin|money in|währung|devise|monnaie|moneda|valuta|waluta|moeda",
  currencyDecimals: "decimals|money decimals|cents digits|decimal places",
  displayUnits: "units|unit system|report units|measurement system|show units",
  locale: "language|number format|region|language tag",
  decimalMark: "decimal|decimal separator|decimal sign|decimal point or comma|decimal point|decimal comma",
  dateOrder: "date format|dates|order of dates|day month order|date style",
  serialDates: "serial date|serials|date system|epoch|excel dates|spreadsheet dates|serial date system",
  firstYear: "year|dates year|start year|starting year",
  temperatureUnit: "temperature|temperatures|temp unit|temperature in|temp|temps",
  massUnit: "weight unit|weights|weights in|mass|weight|unit of weight",
  volumeUnit: "volume|volumes|volumes in|liquid unit|unit of volume",
  syringeMillilitres: "syringe|syringe size|syringe volume|ml per syringe|ml in a syringe",
  cupMillilitres: "cup|cup size|ml per cup|ml in a cup",
  layout: "lay out|trays as|tray layout|direction|orientation",
  tables: "number of tables|tables in a sheet",
  sectionTitles: "titles|sections|section|section title|headings",
  fillDown: "fill|fill cells|fill blanks|blank cells|fill down blanks",
  joinedCells: "merged cells|joined columns|merges",
  summaryRows: "totals|total rows|summaries|summary|sums|totals rows",
  sheetRole: "role|sheet is|kind of sheet|sheet kind|sheet type",
  percentStyle: "percentages|percent|percents|percentage style|bare percentages",
  grainMoisture: "moisture of grain|grain water|air dry grain moisture|grain moisture content",
  supplementMoisture: "moisture of supplement|supplement water",
  driedMoisture: "moisture after drying|dry moisture|final moisture|dried product moisture|moisture of dried product",
  normalLossRate: "loss rate|normal loss|usual loss|contamination rate|usual contamination|expected loss",
  normalLossBase: "loss base|base of loss|loss rate base|loss is a share of",
  jointCostBy: "joint cost|share cost by|grades share cost by|by product cost|cost of grades",
  recoveredPerLostTray: "recovered|recovery|salvage per lost tray|value of a lost tray|recovered value",
  ownerLabourRate:
    "owner labor rate|hourly rate|wage|my wage|owner rate|labour rate|labor rate|own hourly rate|my hourly rate|owner wage|stundenlohn|stundensatz|taux horaire|salaire horaire|tarifa por hora|precio por hora|paga oraria|tariffa oraria|uurloon|uurtarief|stawka godzinowa|valor por hora",
  jarMillilitres: "jar|jar size|jar volume|ml per jar|ml in a jar|usable ml per jar",
  shelfPlaces: "places|shelf space|shelf capacity|tray places|capacity|places on shelves|shelves hold",
  traysPerLoad:
    "load size|trays per run|trays in a load|trays per cooker load|trays per steriliser run|trays per sterilizer run",
  labourHoursPerMonth:
    "labor hours per month|hours per month|work hours|monthly hours|hours a month|labour hours|labor hours",
  dryingCostPerKgFresh: "drying cost|cost of drying|drying cost per kg|drying",
  intervalLevel: "confidence level|confidence|interval|level of intervals|ci level|coverage",
  significanceLevel: "alpha|significance|test level|p limit|level of tests",
  nearOptimalShare: "near optimal|near best|near optimum|close enough|tolerance of the best",
  worthwhileShare: "worthwhile difference|worth finding|difference worth finding|smallest gain|smallest difference",
  seed: "random seed|seed number",
  reportDate: "date|date of report|printed date|report dated",
  dryingRatioLow: "lowest drying ratio|min drying ratio|drying ratio from|drying ratio min",
  dryingRatioHigh: "highest drying ratio|max drying ratio|drying ratio to|drying ratio max",
  colonisationDaysLow: "colonization days low|min colonisation days|min colonization days|fewest days to colonise",
  colonisationDaysHigh: "colonization days high|max colonisation days|max colonization days|most days to colonise",
  harvestDaysLow: "min harvest days|fewest days to harvest|minimum days to harvest",
  harvestDaysHigh: "max harvest days|most days to harvest|maximum days to harvest",
  fruitingLowCelsius: "fruiting low|lowest fruiting temperature|min fruiting temperature|fruiting min",
  fruitingHighCelsius: "fruiting high|highest fruiting temperature|max fruiting temperature|fruiting max",
  outlierZ: "outlier|outlier limit|robust z|z limit|outlier z score",
};

/** Other words people answer a choice with, by setting and answer. */
const answers: Readonly<Partial<Record<keyof Settings, WordList<string>>>> = {
  displayUnits: { metric: "si|g|grams|kg|european", us: "imperial|us customary|american|oz|lb|pounds|usa" },
  decimalMark: { point: "dot|period|full stop|decimal point", comma: "decimal comma|komma" },
  dateOrder: {
    "day first": "dmy|d m y|dd mm yyyy|dd mm yy|day month year|european|uk|day",
    "month first": "mdy|m d y|mm dd yyyy|mm dd yy|month day year|us|american|usa|month",
    "year first": "ymd|y m d|yyyy mm dd|year month day|iso|iso 8601|year",
  },
  serialDates: { "1900": "1900 system|windows", "1904": "1904 system|mac|macintosh" },
  temperatureUnit: { C: "°c|celsius|deg c|centigrade|degrees c", F: "°f|fahrenheit|deg f|degrees f" },
  massUnit: { g: "gram|grams|gr", kg: "kilogram|kilograms|kilo|kilos", oz: "ounce|ounces", lb: "lbs|pound|pounds" },
  volumeUnit: {
    mL: "millilitre|milliliter|millilitres|milliliters|cc",
    L: "litre|liter|litres|liters",
    "fl oz": "fluid ounce|fluid ounces|floz",
    tsp: "teaspoon|teaspoons",
    tbsp: "tablespoon|tablespoons",
    cup: "cups",
  },
  layout: {
    rows: "row|tray per row|one row a tray",
    columns: "column|tray per column",
    long: "tall|tidy",
    cells: "cell|tray per cell|wide",
  },
  tables: { several: "many|more|split", one: "1|single" },
  sectionTitles: { use: "yes|read", ignore: "no|skip|unread" },
  fillDown: { yes: "y|true|fill|same", no: "n|false|blank|leave blank" },
  joinedCells: { use: "yes|join|merge", ignore: "no|apart|split" },
  summaryRows: { "leave out": "drop|skip|ignore|remove|yes", keep: "read|trays|no" },
  sheetRole: {
    harvest: "harvests|trays|harvest sheet",
    costs: "cost|cost sheet",
    products: "product|price list",
    "temperature log": "temperature|log|temperatures",
    ignore: "skip|none|unread|nothing|leave out",
  },
  percentStyle: {
    percent: "percentage|percentages|pct|12 9",
    fraction: "share|shares|fractions|share of one|0 129|decimal",
  },
  jointCostBy: { weight: "grams|by weight|physical", value: "by value|sales value|price|net realisable value" },
  normalLossBase: {
    starts: "start|started|trays started|started trays|all trays|of starts",
    good: "good trays|good ones|harvested|of good",
  },
};

/** The look-up of a choice setting's answers. */
export const answersOf = (property: keyof Settings, choices: ReadonlyArray<string>) =>
  wordChoice<string>(answers[property] ?? Object.fromEntries(choices.map((choice) => [choice, ""])));
