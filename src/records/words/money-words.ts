import { fold } from "./fold.ts";

// Words for prices and costs in the eight languages, from memory; with the signs and codes of currencies.
const money =
  /(?:^| )(?:prices?|costs?|unit price|preis\w*|stuckpreis|kosten|betrag|prix|couts?|montant|precios?|costes?|importe|prezz[oi]|cost[oi]|prijs|prijzen|bedrag|cen[ay]|koszty?|kwota|precos?|custos?|sold for|revenue|income|profit|eur|euros?|usd|gbp|chf|pln)(?: |$)|[€$£]/;

const pay =
  /(?:^| )(?:rent|wages?|salary|pay|hourly rate|electricity|water|insurance|miete|\w*lohn|stundensatz|strom|loyer|salaire|alquiler|salario|affitto|stipendio|huur|loon|czynsz|placa|aluguel|renda)(?: |$)/;

/** Whether a name speaks of money that is paid: a price, a cost, rent, a wage. */
export const speaksOfPay = (name: string): boolean => speaksOfMoney(name) || pay.test(fold(name));

/** Whether a name speaks of a price or a cost: a list of those is no list of trays. */
export const speaksOfMoney = (name: string): boolean => money.test(fold(name)) || /[€$£]/.test(name);

// Titles of lists in the eight languages, from memory.
const titles = {
  costs:
    /^(?:(?:my|our|the|other|running|total|monthly|yearly|fixed|variable|fixe|laufende) )?(?:costs?|expenses?|expenditure|spend(?:ing)?|outgoings|purchases|shopping|bought|paid|bills|receipts?|prices?|kosten|ausgaben|einkauf|preise|couts|depenses|achats|prix|costes|gastos|compras|precios|costi|spese|acquisti|prezzi|uitgaven|prijzen|koszty|wydatki|zakupy|ceny|custos|despesas|precos)(?: (?:list|so far|fix|fixed|variable|monthly|fixes|fijos|fissi|stale|fixos|(?:(?:for|of|in) )?(?:this|the|my|each|every|per|a) \p{L}+|(?:for |in )?\d{2,4}))?$/u,
  products:
    /^(?:(?:my|our|the) )?(?:sales|sold|income|revenue|takings|selling prices?|sale prices?|price ?list|verkaufe?|verkauft|einnahmen|ventes|recettes|ventas|ingresos|vendite|ricavi|verkoop|inkomsten|sprzedaz|przychody|vendas|receitas)(?: \d{2,4})?$/,
} as const;

/** What a title says a list of things and their prices is for: "Costs", "Kosten:", "Price list"; undefined for any other. */
export function listTitled(title: string): "costs" | "products" | undefined {
  const name = fold(title);
  return titles.costs.test(name) ? "costs" : titles.products.test(name) ? "products" : undefined;
}

// In the eight languages, from memory.
const taxes = "vat|taxe?s?|mwst|ust|tva|iva|btw|podatku|mehrwertsteuer|umsatzsteuer";
const carriage =
  "delivery|postage|p p|shipping|carriage|freight|porto|versand|versandkosten|lieferung|livraison|port|envio|portes|spedizione|verzending|verzendkosten|wysylk[ai]|frete";
const aside =
  "excl\\w*|exkl\\w*|without|w o|before|ex|plus|zzgl|zuzuglich|ohne|nett?o|net|hors|sin|senza|escl\\w*|zonder|bez|sem|mas|piu";
const withoutTax = new RegExp(
  `\\b(?:${aside})(?: \\w+)? (?:${taxes})\\b|\\b(?:prices?|preise?|prix|precios?|prezzi|prijzen|ceny|precos?)\\b.* (?:nett?[oi]?|ht)\\b|^(?:nett?o|prix ht|ht)$`,
);
const withoutCarriage = new RegExp(
  `\\b(?:${aside})(?: \\w+)? (?:${carriage})\\b|\\b(?:${carriage}) (?:(?:is|are|was|comes) )?(?:extra|not incl\\w*|on top|separate\\w*)\\b`,
);
const shared =
  /\b(?:half|halves|third of|(?:a|one|1) third|two thirds|quarter of|(?:a|one|1) quarter(?! of a year)|shared?|sharing|split (?:with|between|by|in)|partly|partially|also (?:used )?(?:for|my|the|our|by)|halb\w*|halfte|geteilt|mitbenutz\w*|anteilig|teilweise|drittel|moitie|tiers|partage\w*|mitad|tercio|compartid\w*|meta|condivis\w*|helft|gedeeld|polow[aey]|wspoln\w*|metade|partilhad\w*|dividid\w*)\b/;
const ofTheRest = /\b(?:left|remain\w*|over|spare|price|full|an hour|a year|a day|inch)\b/;
const guessed =
  /\b(?:(?:went|gone|going|goes) (?:up|down)|(?:rose|risen|raised|dropped|fell) (?:to|from)|gestiegen|teurer geworden|guess\w*|estimat\w*|roughly|not sure|unsure|no idea|check (?:this|it|price|again)|to check|geschatzt|geraten|estime|estimad[oa]|stimat[oa]|geschat|szacunk\w*)\b/;

/** Whether a column is called by what bringing a thing cost: "Delivery", "Postage paid". */
export const namesCarriage = (name: string): boolean =>
  new RegExp(`^(?:${carriage})(?: (?:costs?|paid))?$`).test(fold(name.replace(/[([].*$/, "").replaceAll("&", " ")));

/** "4.50 delivery", "4.50 p&p": an amount that is what bringing it cost. */
const ofCarriage = new RegExp(` (?:for )?(?:${carriage}|post)$`);

/** The amounts of a sum of prices, what bringing it cost among them: "18.50 + 4.50 post"; none where it is no such sum. */
export function summedPrices(text: string): string[] {
  const parts = text
    .replace(/^=/, "")
    .split("+")
    .map((part) => part.replace(/\p{Sc}/u, "").trim());
  const amounts = parts.map((part) =>
    part.replace(/(?<=\d)\s*\p{L}.*$/u, (words) => (ofCarriage.test(fold(`x ${words}`)) ? "" : words)),
  );
  return amounts.length > 1 && amounts.every((amount) => /^\d[\d.,]*$/.test(amount)) ? amounts : [];
}

/** Whether a text says that prices are without the tax that is paid on them. */
export const saysWithoutTax = (text: string): boolean => withoutTax.test(fold(text.replaceAll("+", " plus ")));

// In the eight languages, from memory.
const takenOff =
  /\b(?:takes?|keeps?|commission|fees?|discount|half price|\d+ off|off for|provision|gebuhr|rabatt|remise|frais|comision|descuento|commissione|sconto|provvigione|korting|commissie|prowizja|rabat|comissao|desconto)\b/;

/** Whether a remark beside what is sold says that not all of its price comes in: "shop takes 30%", "half price for friends". */
export const takesFromPrice = (remark: string): boolean => takenOff.test(fold(remark)) || mayChangePrice(remark);

/** Whether a remark beside a price says that less, or more, of it counts: "half for the garden", "plus delivery", "a guess". */
export function mayChangePrice(remark: string): boolean {
  const said = fold(remark.replaceAll("+", " plus "));
  return (
    withoutTax.test(said) ||
    withoutCarriage.test(said) ||
    guessed.test(said) ||
    (shared.test(said) && !ofTheRest.test(said))
  );
}
