import { fold } from "./fold.ts";

// Words for prices and costs in the eight languages, from memory; with the signs and codes of currencies.
const money =
  /(?:^| )(?:prices?|costs?|unit price|preis\w*|stuckpreis|kosten|betrag|prix|couts?|montant|precios?|costes?|importe|prezz[oi]|cost[oi]|prijs|prijzen|bedrag|cen[ay]|koszty?|kwota|precos?|custos?|sold for|revenue|income|profit|eur|euros?|usd|gbp|chf|pln)(?: |$)|[€$£]/;

/** Whether a name speaks of a price or a cost: a list of those is no list of trays. */
export const speaksOfMoney = (name: string): boolean => money.test(fold(name)) || /[€$£]/.test(name);

// Titles of lists in the eight languages, from memory.
const titles = {
  costs:
    /^(?:(?:my|our|the|other|running|total|monthly) )?(?:costs?|expenses?|expenditure|spend(?:ing)?|outgoings|purchases|shopping|bought|paid|bills|receipts?|prices?|kosten|ausgaben|einkauf|preise|couts|depenses|achats|prix|costes|gastos|compras|precios|costi|spese|acquisti|prezzi|uitgaven|prijzen|koszty|wydatki|zakupy|ceny|custos|despesas|precos)(?: (?:list|so far|this (?:run|cook|month|year)|\d{2,4}))?$/,
  products:
    /^(?:(?:my|our|the) )?(?:sales|sold|income|revenue|takings|selling prices?|sale prices?|price ?list|verkaufe?|verkauft|einnahmen|ventes|recettes|ventas|ingresos|vendite|ricavi|verkoop|inkomsten|sprzedaz|przychody|vendas|receitas)(?: \d{2,4})?$/,
} as const;

/** What a title says a list of things and their prices is for: "Costs", "Kosten:", "Price list"; undefined for any other. */
export function listTitled(title: string): "costs" | "products" | undefined {
  const name = fold(title);
  return titles.costs.test(name) ? "costs" : titles.products.test(name) ? "products" : undefined;
}
