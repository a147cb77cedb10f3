import type { CostBase, CostKind, Stage } from "../../records/cost-line.ts";
import { withMoneyWords } from "../../records/words/languages.ts";
import { plainName } from "../side-sheets/match-side-columns.ts";
import { wordChoice } from "../side-sheets/word-choice.ts";

/** Kinds of cost and the words people type for them. */
export const costKind = wordChoice(
  withMoneyWords<CostKind>("kinds", {
    ingredient: "ingredients|substrate|grain|supplement|raw material|material|materials|food|feed",
    culture: "cultures|liquid culture|lc|spawn|inoculum|syringe|genetics",
    consumable: "consumables|supplies|supply|disposable|disposables|packaging|single use",
    reusable: "reusables|equipment|tool|tools|gear|durable|durables|hardware|machine|depreciation|capital",
    energy: "electricity|electric|power|gas|fuel|utilities|utility|kwh|heat|heating|cooling|lighting",
    labour: "labor|work|time|wage|wages|labour time|staff|hours",
    space: "rent|room|floor|shelf|shelf space|premises|lease",
    overhead: "overheads|fixed|fixed cost|fixed costs|general|insurance|admin|administration|subscription",
  }),
);

/** What one use goes to, and the words people type for it. */
export const costBase = wordChoice(
  withMoneyWords<CostBase>("bases", {
    tray: "trays|started tray|tray started|bag|bags|block|blocks|box|container",
    "good tray": "good trays|harvested tray|tray harvested|successful tray|good bag|good block",
    cook: "cooks|batch|batches|cook of substrate|pot|pot of substrate|brew",
    load: "loads|cooker load|steriliser load|sterilizer load|steriliser run|sterilizer run|cooker run|autoclave run|autoclave load|pressure cooker run|pressure cooker load|pc run|pc load|run|cycle",
    jar: "jars|culture jar|jar of culture|lc jar|jar of liquid culture|liquid culture jar",
    "inoculum mL": "ml|cc|ml inoculum|ml of inoculum|ml culture|ml of culture|ml lc|ml liquid culture|inoculum",
    "supplement g": "g supplement|g of supplement|gram supplement|gram of supplement|supplement|supplement gram",
    "grain g": "g grain|g of grain|gram grain|gram of grain|grain|grain gram",
    "shelf day":
      "shelf days|tray day|tray days|day of shelf|day on shelf|day on the shelf|shelf place day|place day|day per tray|tray and day",
    "kg fresh": "fresh kg|kg of fresh|kg fresh weight|kilo fresh|kg wet|kg harvested",
    "kg dried": "dried kg|kg dry|dry kg|kg of dried|kilo dried|kg dried product",
    "unit sold":
      "units sold|unit|sale|sold unit|order|parcel|shipment|item sold|pack sold|package sold|product sold|bag sold|pouch sold|jar sold|box sold",
    month: "months|monthly|calendar month",
  }),
);

/** Stages of a tray's life and the words people type for them. */
export const costStage = wordChoice<Stage>({
  filling:
    "fill|filled|cooking|cook|sterilising|sterilizing|sterilisation|sterilization|preparation|prep|mixing|bagging",
  inoculation: "inoculating|inoculate|inoculated|injection|injecting",
  incubation: "incubating|colonisation|colonization|colonising|colonizing|spawn run|dark",
  fruiting: "fruit|pinning|growing|chamber",
  harvest: "harvesting|picking|harvested|pick|weighing",
  drying: "dry|dehydrating|dehydration|dehydrator|dried",
});

/** Names of the grower's own time, of the column and of items that are it. */
export const ownTimeNames =
  "owner labor|owner|own time|own work|own labour|own labor|own hours|own wage|owner s time|owner s labour|my time|my work|my labour|my labor|my hours|my own time|my wage|my wages|my pay";

const ownTimeItems = withMoneyWords<"owner_labour">("costs", { owner_labour: ownTimeNames })
  .owner_labour.split("|")
  .map((name) => ` ${plainName(name)} `);

/** Whether an item is by its name the grower's own time: "my time", "picking, own work". */
export const isOwnTime = (item: string): boolean => ownTimeItems.some((name) => ` ${plainName(item)} `.includes(name));

/** In the name of work, that the grower does it: "filling (me)". */
export const doneByMyself = /(?<![\p{L}-])(?:me|myself|self|ich|ik|moi|io|yo|eu)(?![\p{L}-])/iu;

/** Yes and no. */
export const yesOrNo = wordChoice<"yes" | "no">({
  yes: "y|true|1|x|ja|oui|si|owner|own|included|incl|inclusive|✓|✔|yep",
  no: "n|false|0|nein|non|none|excluded|excl|exclusive|not included|plus tax|nope|hired",
});

/** Behind a price, or the name of a column of prices: tax that is in it. */
export const taxIn =
  /\s*\(?(?:ttc|(?:incl|inkl|inc)\.?\s*(?:vat|tax|mwst|ust|tva|iva|btw)|iva incl\p{L}*|brutto)\.?\)?$/iu;

/** Names of a price of one: of a kilogram, or of a pack, where the pack holds several. In eight languages; from memory. */
export const ofOne =
  /^(?:unit (?:price|cost)|price each|(?:price|cost) per (?:unit|piece|item)|cost each|einzelpreis|stuckpreis|prix unitaire|precio unitario|prezzo unitario|stukprijs|cena jednostkowa|preco unitario)$/;
