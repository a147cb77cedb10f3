import { type productColumns as allColumns, productColumns } from "../../records/product.ts";
import { withMoneyWords } from "../../records/words/languages.ts";
import { type SideColumn, sideColumns } from "../side-sheets/match-side-columns.ts";
import type { RowCells } from "../side-sheets/row-cells.ts";

export type ProductColumn = (typeof allColumns)[number];
/** One row of a product sheet. */
export type ProductRow = RowCells<ProductColumn>;

const names: Readonly<Record<ProductColumn, string>> = {
  product:
    "name|item|what|what i sell|what we sell|products|line|product line|article|product name|title|description|sku",
  form: "type|kind|state|product form|fresh or dried|dried or fresh|fresh dried|fresh or dry|dry or fresh|fresh dry",
  channel: "where|sold at|sold on|shop|market|outlet|sales channel|platform|customer",
  grams:
    "g|kg|oz|lb|lbs|pack|pack size|package|weight|net weight|net wt|size|content|contents|grams per unit|weight per unit|pack weight|net",
  made_of: "made from|consists of|parts|bundle of|ingredients|what is in it|contains",
  grade: "quality|class|sorting|grade of mushrooms",
  grade_share_pct: "grade share|share of grade|share of weight|grade pct|share of harvest",
  processing_loss_pct: "processing loss|loss|waste|trim loss|milling loss|loss pct|processing waste",
  packaging_cost: "packaging|package cost|pack cost|packing cost|packing|bag and label",
  minutes:
    "time|work|minutes of work|packing time|minutes per unit|work minutes|labour minutes|labor minutes|min|mins|min per pack|minutes per pack|min per unit|minutes to pack",
  shipping_cost:
    "shipping|post|postage|postage cost|post cost|carriage|delivery cost|shipping paid|postage paid|postage i pay|postage we pay|i pay postage|freight",
  shipping_charged:
    "shipping price|postage charged|delivery charged|shipping income|shipping paid by buyer|buyer pays shipping|buyer pays postage|buyer pays|postage paid by buyer|customer pays postage|customer pays shipping|shipping paid by customer|postage paid by customer",
  fee_pct:
    "cut|their cut|fee|fees|commission|channel fee|marketplace fee|percentage fee|fee percent|fee rate|selling fee|shop takes|shop keeps|shop s cut|shop cut",
  fee_fixed: "fixed fee|fee per order|fee per sale|transaction fee|flat fee|payment fee|listing fee",
  fee_base: "fee on|fee charged on|base of fee|fee is on|fee basis",
  tax_pct: "tax|vat|sales tax|gst|vat rate|tax rate|mwst|vat pct",
  tax_included: "tax incl|incl tax|vat included|price includes tax|tax inclusive|includes tax|includes vat|gross price",
  target_margin_pct:
    "target margin|margin|wanted margin|margin wanted|margin i want|desired margin|margin target|goal margin",
  current_price:
    "price|price each|unit price|price per unit|price per pack|pack price|selling price|sale price|retail price|retail|price now|new price|list price|price charged|asking price|rrp|sell price|our price|my price|shop price|customer pays|sell at|sells at|sell for|sells for|sold for|we charge",
  expected_units_month:
    "expected units|units per month|units a month|monthly units|sales per month|expected sales|units month|forecast|sell per month|sell a month|sold per month|sold a month|sells per month|i sell per month|units per week|sales per week|sold per week|sell per week|sold a week",
  max_units_month:
    "max units|maximum units|demand limit|most units|max per month|limit|units at most|max sales|max per week|most per week",
  sell_through_pct: "sell through|sold share|share sold|sellthrough|sell through rate",
  price_endings: "endings|price ending|rounding|ends in|price ends",
  minimum_quantity: "min quantity|minimum order|moq|minimum qty|min qty|quantity step|from quantity",
  quantity_discount_pct: "quantity discount|discount|bulk discount|volume discount|discount pct|wholesale discount",
  note: "notes|comment|comments|remark|remarks",
};

/** Columns of products.csv that hold money. */
export const productMoneyColumns: ReadonlyArray<ProductColumn> = [
  "packaging_cost",
  "shipping_cost",
  "shipping_charged",
  "fee_fixed",
  "current_price",
];

/** The columns of products.csv with the other names people give them. */
export const productSheetColumns: ReadonlyArray<SideColumn<ProductColumn>> = sideColumns(
  productColumns,
  withMoneyWords("products", names),
);
