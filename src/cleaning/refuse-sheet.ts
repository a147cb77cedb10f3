import type { RawTable } from "../records/sheet.ts";
import { summaryKind } from "../records/words/summary-label.ts";

/** Why a table is no sheet of a book, and what its owner can do. */
export interface Refusal {
  reason: string;
  action: string;
  severity: "note" | "warning";
}

/** Whether a header names means, counts or spreads rather than what was weighed. */
function headsMeans(header: ReadonlyArray<string>): boolean {
  const kinds = header.map((name) => summaryKind(name));
  const means = kinds.filter((kind) => kind === "mean" || kind === "median").length;
  return means > 0 && (means >= 2 || kinds.includes("count") || kinds.includes("spread") || header.length <= 3);
}

const folded = (text: string): string =>
  text
    .normalize("NFKD")
    .replace(/\p{M}/gu, "")
    .toLowerCase()
    .replaceAll("ł", "l")
    .replace(/[^a-z0-9]+/g, " ")
    .trim();

const logColumns = ["file", "row", "column", "raw", "result", "rule", "severity"];
const priceListColumns = ["product", "channel", "full cost", "price to ask"];

// Words of bank statements in English, German, French, Spanish, Italian, Dutch, Polish and Portuguese, from memory.
const bankDate =
  /^(?:(?:transaction|posting|posted|booking|value|completed|started) ?)?date|^buchungs(?:tag|datum)|^valuta|^wertstellung|^datum$|^date (?:operation|comptable|valeur)|^fecha|^data(?: (?:operacji|ksiegowania|mov|valor|contabile|valuta))?$|^boekdatum|^rentedatum/;
const bankParty =
  /payee|counterpart|merchant|beneficiary|description|details|memo|reference|narrative|transaction type|auftraggeber|empfanger|begunstigter|verwendungszweck|buchungstext|beneficiaire|libelle|motif|beneficiario|concepto|descripcion|descrizione|causale|controparte|naam tegenpartij|omschrijving|mededelingen|tegenrekening|nadawca|odbiorca|opis|tytul|descricao|historico|favorecido/;
const bankAmount =
  /^amount|^debit|^credit|^balance|money (?:in|out)|paid (?:in|out)|withdrawal|deposit|^betrag|^saldo|^soll|^haben|umsatz|^montant|^solde|^importe|^cargo|^abono|^importo|^dare|^avere|^bedrag|^kwota|^valor|iban|account/;

function isBankStatement(names: ReadonlyArray<string>): boolean {
  const dated = names.some((name) => bankDate.test(name));
  const party = names.some((name) => bankParty.test(name));
  const amounts = names.filter((name) => bankAmount.test(name)).length;
  return dated && party && amounts > 0;
}

/**
 * Why a table belongs to no book: a statement of an account, or one of the lists this program writes.
 * @param hasTrays whether a column names trays
 * @param isOther whether its header names a tray or a weight, or its name says costs, as that of a statement never does
 */
export function refusalOf({ header }: RawTable, isOther: boolean, hasTrays: boolean): Refusal | undefined {
  const names = header.map(folded);
  const has = (wanted: ReadonlyArray<string>): boolean => wanted.every((name) => names.includes(name));
  if (has(logColumns)) {
    return {
      severity: "note",
      reason: "it is a log that this program wrote, by its columns, and no harvest sheet",
      action: "Nothing: it may stay where it is",
    };
  }
  if (has(priceListColumns)) {
    return {
      severity: "note",
      reason: "it is a price list that this program wrote, by its columns, and no sheet of products",
      action: "Nothing: it may stay where it is",
    };
  }
  if (!hasTrays && headsMeans(header)) {
    return {
      severity: "warning",
      reason: "it is a table of means, by its columns, and names no trays: not read",
      action: "Name the trays in a column if each row is one; otherwise nothing is to be done",
    };
  }
  if (!isOther && isBankStatement(names)) {
    return {
      severity: "note",
      reason: "it looks like a statement of an account (date, payee, amount), and no harvest sheet",
      action: "Put what was bought into costs.csv, and keep the statement elsewhere",
    };
  }
  return undefined;
}
