import { fold } from "./fold.ts";

// Words for prices and costs in the eight languages, from memory; with the signs and codes of currencies.
const money =
  /(?:^| )(?:prices?|costs?|unit price|preis\w*|stuckpreis|kosten|betrag|prix|couts?|montant|precios?|costes?|importe|prezz[oi]|cost[oi]|prijs|prijzen|bedrag|cen[ay]|koszty?|kwota|precos?|custos?|eur|euros?|usd|gbp|chf|pln)(?: |$)|[€$£]/;

/** Whether a name speaks of a price or a cost: a list of those is no list of trays. */
export const speaksOfMoney = (name: string): boolean => money.test(fold(name)) || /[€$£]/.test(name);
