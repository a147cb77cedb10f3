import { costColumns } from "../../records/cost-line.ts";
import { withMoneyWords } from "../../records/words/languages.ts";
import { columnsByName, type SideColumn, sideColumns } from "../side-sheets/match-side-columns.ts";
import { ownTimeNames } from "./cost-words.ts";
import type { CostColumn } from "./read-measured.ts";

const names: Readonly<Record<CostColumn, string>> = {
  item: "name|what|task|job|cost|cost line|cost item|description|product|article|thing|ingredient|material|expense",
  kind: "type|category|cost kind|cost type|class|group",
  pack_price:
    "price|cost per pack|pack cost|price per pack|price paid|unit price|unit cost|cost per unit|price per unit|price per piece|price each|cost each|cost price|how much paid|price of a pack|rate|wage|tariff|spend|spent|bought for|paid for it|bill",
  own_share_pct:
    "my share|our share|own share|share for mushrooms|mushroom share|share used|share for the trays|for mushrooms|used for mushrooms|mein anteil|eigener anteil|ma part|mi parte|mia quota|mijn aandeel|mój udział|minha parte",
  pack_size:
    "size|pack|quantity per pack|qty per pack|contents|pack quantity|pack qty|units per pack|package size|how much|how many|amount bought|quantity bought|qty bought|items per pack|pieces per pack|number per pack|pcs per pack",
  pack_unit: "unit|units|size unit|unit of pack|pack size unit|uom",
  amount:
    "used|amount used|quantity|qty|usage|use|quantity used|qty used|amount per use|helping|time|duration|how long|how much i use|how much we use|how much used|i use|we use|needed",
  amount_unit: "used unit|unit used|usage unit|unit of amount|quantity unit|qty unit",
  per: "how often|frequency|per what|for|what for|base|basis|each|used per|amount per|for each|goes to",
  watts: "watt|w|kw|kilowatts|power|power w|power kw|wattage|rated power|rated watts",
  hours:
    "hours used|run time|runtime|running hours|hours on|hours per use|hours per day|hours a day|hours day|h day|std pro tag|stunden pro tag|heures par jour|horas al día|ore al giorno|uren per dag",
  duty_pct: "duty|duty cycle|share of time on|duty percent|duty cycle pct|load factor",
  uses: "number of uses|life uses|uses before replacement|reuses|times used|life in uses",
  life_years:
    "life|years|yields|makes|enough for|lifetime|lifetime years|life in years|useful life|service life|lasts|lasts for|how long it lasts",
  uses_per_year:
    "uses a year|uses year|runs per year|annual uses|yearly uses|runs a year|loads per year|loads a year|times a year",
  salvage: "salvage value|residual value|resale|resale value|recovery value|scrap value|recovered",
  breakage_pct: "breakage|broken|breakage rate|share broken|breakage percent|loss per use",
  expands_to_jars: "jars|makes jars|jars made|expands to|jars per pack|jars from it",
  owner_labour: ownTimeNames,
  only_where_column: "only where|where column|only for column|applies to column|condition column|if column",
  only_where_value: "where value|only for value|only for|applies to|condition value|equals|if value",
  stage: "phase|step|when spent|spent at",
  from_date:
    "from|date|bought on|date bought|purchase date|bought|since|valid from|price date|start date|effective from|effective",
  pack_price_low: "price low|low price|lowest price|min price|minimum price|price min",
  pack_price_high: "price high|high price|highest price|max price|maximum price|price max",
  normal_trays_per_month: "normal trays|trays per month|normal capacity|capacity|normal trays a month",
  note: "notes|comment|comments|remark|remarks|info|supplier|shop|store|seller|vendor|bought at|bought from",
};
/** The columns of costs.csv with the other names people give them. */
export const costSheetColumns: ReadonlyArray<SideColumn<CostColumn>> = sideColumns(
  costColumns,
  withMoneyWords("costs", names),
);

/** Columns of costs.csv that hold money. */
export const costMoneyColumns: ReadonlyArray<CostColumn> = [
  "pack_price",
  "salvage",
  "pack_price_low",
  "pack_price_high",
];

export const textColumns: ReadonlyArray<CostColumn> = [
  "item",
  "kind",
  "pack_unit",
  "amount_unit",
  "per",
  "owner_labour",
  "only_where_column",
  "only_where_value",
  "stage",
  "from_date",
  "note",
];

/** The columns of costs.csv by every plain name they go by. */
export const costsByName = columnsByName(costSheetColumns);
