const bySign: Readonly<Record<string, ReadonlyArray<string>>> = {
  "€": ["EUR"],
  "£": ["GBP"],
  "¥": ["JPY", "CNY"],
  "₹": ["INR"],
  "₽": ["RUB"],
  "₺": ["TRY"],
  "₩": ["KRW"],
  zł: ["PLN"],
  zl: ["PLN"],
  kč: ["CZK"],
  kc: ["CZK"],
  ft: ["HUF"],
  R$: ["BRL"],
  kr: ["SEK", "NOK", "DKK", "ISK"],
  $: ["USD", "CAD", "AUD", "NZD", "SGD", "HKD", "MXN"],
  US$: ["USD"],
  C$: ["CAD"],
  A$: ["AUD"],
  NZ$: ["NZD"],
};
const words: Readonly<Record<string, string>> = {
  euro: "EUR",
  euros: "EUR",
  dollar: "USD",
  dollars: "USD",
  pound: "GBP",
  pounds: "GBP",
  francs: "CHF",
  sfr: "CHF",
  franken: "CHF",
  lei: "RON",
  leu: "RON",
  zloty: "PLN",
  złoty: "PLN",
  złotych: "PLN",
  zlotych: "PLN",
  reais: "BRL",
  koruna: "CZK",
  korun: "CZK",
  kronor: "SEK",
  forint: "HUF",
  yen: "JPY",
};
const codes: ReadonlySet<string> = new Set(Intl.supportedValuesOf("currency"));
const mark = /(US\$|NZ\$|[CAR]\$|[€£¥₹₽₺₩$]|(?<!\p{L})(?:z[łl]|kr|k[čc]|ft)(?!\p{L})\.?|[A-Za-zł]{3,8})/iu;

/** Whether a text is a currency's ISO 4217 code. */
export const isCurrencyCode = (text: string): boolean => codes.has(text);

/** A money cell without its currency, and the currencies the mark can mean; none when the cell has no mark. */
export interface CurrencyMark {
  amount: string;
  /** as typed; "" when there is none */
  mark: string;
  currencies: ReadonlyArray<string>;
}

function currenciesOf(text: string): ReadonlyArray<string> {
  const sign = bySign[text.toUpperCase()] ?? bySign[text.toLowerCase().replace(".", "")];
  if (sign !== undefined) return sign;
  const code = text.toUpperCase();
  if (codes.has(code)) return [code];
  const word = words[text.toLowerCase()];
  return word === undefined ? [] : [word];
}

/** An amount without the dash that stands for no cents: "22,-", "129:-". */
const wholeAmount = (text: string): string => text.trim().replace(/(?<=\d)\s*[,.:]\s*[-–—]+\.?$/u, "");

/**
 * Sets the currency of a money cell apart from its number: "€12,90", "$1,200.50", "12.90 EUR", "-4 kr".
 * @example currencyMark("12.90 EUR") // { amount: "12.90", mark: "EUR", currencies: ["EUR"] }
 */
export function currencyMark(cell: string): CurrencyMark {
  const found = mark.exec(cell)?.[1] ?? "";
  const currencies = currenciesOf(found);
  if (currencies.length === 0) return { amount: wholeAmount(cell), mark: "", currencies };
  const amount = cell
    .replace(found, " ")
    .replace(/\s+/g, " ")
    .replace(/^([+-]) /, "$1");
  return { amount: wholeAmount(amount), mark: found, currencies };
}
