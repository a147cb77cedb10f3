/** What a grower of one language writes: columns, outcomes, remarks and labels. From memory of trade use. */
export interface SheetLanguage {
  tray: string[];
  batch: string[];
  dose: string[];
  inoculated: string[];
  harvested: string[];
  fresh: string[];
  dry: string[];
  outcome: string[];
  note: string[];
  strain: string[];
  good: string[];
  contaminated: string[];
  /** remarks that tell a loss */
  lossNotes: string[];
  /** remarks that tell none */
  goodNotes: string[];
  sum: string[];
  mean: string[];
  commaDecimals: boolean;
}

const listed = (text: string): string[] => text.split("|");

const language = (
  columns: string,
  outcomes: string,
  notes: string,
  labels: string,
  commaDecimals: boolean,
): SheetLanguage => {
  const [tray, batch, dose, inoculated, harvested, fresh, dry, outcome, note, strain] = columns.split(";").map(listed);
  const [good, contaminated] = outcomes.split(";").map(listed);
  const [lossNotes, goodNotes] = notes.split(";").map(listed);
  const [sum, mean] = labels.split(";").map(listed);
  const named = { tray, batch, dose, inoculated, harvested, fresh, dry, outcome, note, strain } as Record<
    "tray" | "batch" | "dose" | "inoculated" | "harvested" | "fresh" | "dry" | "outcome" | "note" | "strain",
    string[]
  >;
  return {
    ...named,
    ...{ good: good!, contaminated: contaminated!, lossNotes: lossNotes!, goodNotes: goodNotes! },
    ...{ sum: sum!, mean: mean!, commaDecimals },
  };
};

/** Growers of the eight languages. */
export const sheetLanguages: Readonly<Record<string, SheetLanguage>> = {
  en: language(
    "Tray|Tray no|tray_id;Batch|Cook;Inoculum|LC|Dose;Inoculated|Inoc date;Harvested|Harvest date|Picked;Fresh|Fresh weight|Wet weight;Dry|Dry weight;Outcome|Result;Notes|Comments;Strain",
    "good|ok|healthy;contaminated|contam|mold",
    "contam - tossed|green mold, binned|trich;dense|no sign of mold|slow start",
    "Total|Sum|Subtotal;Average|Mean|Avg/tray",
    false,
  ),
  de: language(
    "Schale|Schale Nr;Charge|Ansatz;Impfmenge|Inokulum;Beimpft am|Impfdatum;Geerntet|Erntedatum;Frischgewicht|Frisch;Trockengewicht|Trocken;Ergebnis|Zustand;Bemerkung|Notiz;Stamm",
    "gut|in Ordnung|gesund;kontaminiert|Schimmel|verschimmelt",
    "kontaminiert, entsorgt|grüner Schimmel;schön dicht|kein Schimmel|nicht kontaminiert",
    "Summe|Gesamt|Zwischensumme;Durchschnitt|Mittelwert",
    true,
  ),
  fr: language(
    "Barquette|Bac;Lot|Fournée;Volume d'inoculum|Inoculum;Inoculé le|Date d'inoculation;Récolté le|Date de récolte;Poids frais|Frais;Poids sec|Sec;Résultat|État;Remarque|Commentaire;Souche",
    "bon|sain;contaminé|moisi",
    "contaminé, jeté|moisissure verte;bien dense|sans moisissure|pas contaminé",
    "Total|Somme|Sous-total;Moyenne",
    true,
  ),
  es: language(
    "Bandeja|Bolsa;Lote|Tanda;Inóculo|Dosis;Inoculado|Fecha de inoculación;Cosechado|Fecha de cosecha;Peso fresco|Fresco;Peso seco|Seco;Resultado|Estado;Observaciones|Nota;Cepa",
    "bueno|bien|sano;contaminado|moho",
    "contaminado, desechado|moho verde;muy denso|sin moho|no contaminado",
    "Total|Suma|Subtotal;Promedio|Media",
    true,
  ),
  it: language(
    "Vaschetta|Vassoio;Lotto|Cottura;Inoculo|Dose;Inoculato il|Data inoculo;Raccolto il|Data raccolta;Peso fresco|Fresco;Peso secco|Secco;Esito|Risultato;Note|Osservazioni;Ceppo",
    "buono|sano;contaminato|muffa",
    "contaminato, buttato|muffa verde;molto denso|senza muffa|non contaminato",
    "Totale|Somma|Subtotale;Media",
    true,
  ),
  nl: language(
    "Bak|Baknummer;Partij|Charge;Entvolume|Dosis;Geënt op|Entdatum;Geoogst|Oogstdatum;Versgewicht|Vers gewicht;Drooggewicht|Droog gewicht;Resultaat|Uitkomst;Opmerking|Notitie;Stam",
    "goed|gezond;besmet|schimmel",
    "besmet, weggegooid|groene schimmel;mooi dicht|geen schimmel|niet besmet",
    "Totaal|Som|Subtotaal;Gemiddelde",
    true,
  ),
  pl: language(
    "Tacka|Worek;Partia|Seria;Inokulum|Dawka;Data szczepienia|Data inokulacji;Zebrano|Data zbioru;Świeża masa|Masa świeża;Sucha masa|Masa sucha;Wynik|Stan;Uwagi|Notatka;Szczep",
    "dobry|zdrowy;skażony|pleśń",
    "skażony, wyrzucony|zielona pleśń;gęsty|bez pleśni|nie skażony",
    "Suma|Razem;Średnia",
    true,
  ),
  pt: language(
    "Bandeja|Saco;Lote|Batelada;Inóculo|Dose;Inoculado em|Data de inoculação;Colhido em|Data da colheita;Peso fresco|Massa fresca;Peso seco|Massa seca;Resultado|Situação;Observações|Nota;Linhagem|Cepa",
    "bom|sadio;contaminado|mofo",
    "contaminado, descartado|mofo verde;bem denso|sem mofo|não contaminado",
    "Total|Soma|Subtotal;Média",
    true,
  ),
};
