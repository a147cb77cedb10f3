import type { Vocabulary } from "./vocabulary.ts";

/** What growers write in German. Trade words from memory and from use; month names from Unicode CLDR 48. */
export const german: Vocabulary = {
  language: "de",
  fields: {
    tray_id:
      "Schale|Schale Nr|Schalennummer|Beutel|Beutel Nr|?Block|Substratblock|?Glas|Glas Nr|?Kiste|?Nummer|?Nr|Schalen Nr|Schalen-ID|Tray|Beutelnummer|?Schalen",
    batch: "Charge|Ansatz|Los|Mischung|Partie|Kochung",
    load: "Sterilisationslauf|Autoklavengang|?Topf|Topfladung|Kesselladung|Dampfdrucktopf|Sterilisation",
    load_position: "Lage|Platz|Ebene|Etage|oben mitte unten|Position im Topf",
    jar: "Flüssigkultur|FK|LC|Kulturglas|Impfspritze|Spritze|Brutcharge|Körnerbrut|Getreidebrut|Flüssigmyzel|Mutterkultur",
    culture_generation: "Generation|Gen|Passage|Überimpfung|Umsetzung|Transfer|G",
    culture_age_days: "Kulturalter|Alter der Kultur|Alter FK|Brutalter|Alter Tage",
    strain: "Stamm|Sorte|Art|Pilzart|Isolat|Klon|Pilz",
    shelf: "Regal|Regalboden|?Fach|?Ebene|Stellplatz",
    chamber: "Raum|Kammer|Zelt|Fruchtungsraum|Fruchtungskammer|Gewächszelt|Kulturraum",
    operator: "wer|?von|Bearbeiter|Kürzel|beimpft von|Person",
    container: "Behälter|Gefäß|Beuteltyp|Beutelgröße|Schalentyp|Eimer",
    substrate_wet_g: "Substratgewicht|Substrat nass|Füllgewicht|Blockgewicht|Substrat feucht|Einwaage nass",
    grain_dry_g:
      "Getreide trocken|Korn|Reis|Reis trocken|Roggen|Hirse|Sorghum|Trockensubstrat|Substrat trocken|Einwaage trocken",
    supplement: "Zuschlag|Zusatz|Zuschlagstoff|Additiv|Kleie|Weizenkleie|Sojaschalen|Gips|Rezept|Rezeptur",
    supplement_grade: "Güte|Qualität|Marke|?Sorte|Lieferant Zuschlag",
    supplement_g: "Zuschlag g|Kleie g|Zusatzmenge|Zusatz %|Zuschlagmenge",
    inoculum_ml:
      "Impfmenge|Flüssigkultur|FK|Flüssigmyzel|FK ml|LC ml|Inokulum|Dosis|ml pro Beutel|Spritzen|?ml|Impfvolumen|Menge FK|Impfstoff|Impfstoffmenge|ml FK|Dosis ml",
    spawn_g: "Brut|Körnerbrut|Getreidebrut|Brutmenge|Brutgewicht|?Dosis",
    spawn_pct: "Beimpfungsrate|Impfrate|Brut %|Brutanteil|Brutrate|?Dosis|?Brut|?Körnerbrut|?Brutmenge",
    added_liquid_ml: "Wasserzugabe|Wasser ml|Zusatzwasser|zugegebenes Wasser|Ausgleichswasser|Nährlösung ml",
    incubation_c: "Inkubationstemperatur|Durchwachstemperatur|Bruttemperatur|Temp. Inkubation|Durchwachsphase °C",
    fruiting_c: "Fruchtungstemperatur|Temp. Fruchtung|Raumtemperatur|Ertragsphase °C",
    light_hours: "Lichtstunden|Licht h|Beleuchtung|Belichtung",
    inoculated_on:
      "beimpft|beimpft am|Impfdatum|angeimpft|geimpft|angesetzt am|gespickt|Startdatum|Beimpfung|Impfung|Beimpfungsdatum|?Start|?Beginn|angesetzt",
    colonised_on: "durchwachsen|durchwachsen am|voll besiedelt|durchgewachsen|Besiedelung fertig|Datum durchwachsen",
    days_to_colonise: "Tage bis durchwachsen|Durchwachszeit|Besiedelungsdauer|Inkubationsdauer|Inkubationszeit",
    fruiting_on: "in Fruchtung|Fruchtung ab|geöffnet|aufgeschnitten|Fruchtungsbeginn|umgestellt am|eingeleitet|Pins",
    harvested_on: "geerntet|Erntedatum|Ernte am|gepflückt|Ernte|Datum Ernte|Ernte Datum",
    days_to_harvest: "Tage bis Ernte|Kulturdauer|Erntetag|Zyklusdauer",
    dried_on: "getrocknet am|Trocknung|aus dem Dörrer|Trocknungsdatum|Datum getrocknet",
    flush: "Welle|Erntewelle|Schub|Flush|Erntegang",
    outcome:
      "Ergebnis|Resultat|Status|Zustand|?Ausgang|Konti|Kontamination|Befund|kontaminiert|Verlust|Verluste|Schimmel|Probleme",
    fresh_g:
      "Frischgewicht|frisch|Erntegewicht|Ertrag|Erntemenge|Gewicht frisch|FG|Frischmasse|Nassgewicht|Frischertrag|Erntegewicht frisch|Gewicht nass|Ernte frisch|?Gewicht|?Ernte",
    dry_g:
      "Trockengewicht|trocken|TG|Gewicht trocken|getrocknet g|Trockenertrag|Trockenmasse|Gewicht getrocknet|Ernte trocken|getrocknet",
    final_moisture_pct: "Restfeuchte|Feuchte %|Wassergehalt|Endfeuchte",
    trays_in_pool:
      "Schalen zusammen|?Anzahl|?Stück|zusammen gewogen|Sammelgewicht|Anzahl Schalen|Zahl der Schalen|Schalenzahl|?Schalen",
    note: "Notiz|Bemerkung|Anmerkung|Kommentar|Notizen|Bemerkungen|Anmerkungen|Kommentare",
  },
  sameWords: {
    total: "gesamt|insgesamt|zusammen|summe",
    weight: "gewicht|gewichte|masse|gew|gewogen",
    temperature: "temperatur|temperaturen",
    number: "nummer|nrn|kennung|bezeichnung",
    fresh: "frisch|frisches|frische|frischer",
    dry: "trocken|trockenes|getrocknet|getr|getrocknete",
    wet: "nass|feucht|nasses",
    inoculated: "beimpft|beimpfung|angeimpft|geimpft",
    harvest: "ernte|geerntet|ernten",
    colonised: "durchwachsen|durchgewachsen",
    days: "tage|tagen",
    date: "datum",
    amount: "menge",
    volume: "volumen",
    note: "notiz|notizen",
    comment: "kommentar|kommentare",
    remark: "bemerkung|bemerkungen|anmerkung|anmerkungen",
    contaminated: "kontaminiert|kontamination|konti|kontis",
  },
  filling: "der die das den dem des von vom im am an zu zum zur pro je für fur bei mit ab",
  formFilling:
    "wurde wurden ist sind war wann wie viel viele welche welches welcher gibt es irgendwelche bitte netto was hat",
  outcomes: {
    good: "gut|ok|i.O.|in Ordnung|sauber|geerntet|gesund|schimmelfrei|ohne Befund|o.B.|kein Schimmel|nicht kontaminiert|keine Kontamination|alles gut|fertig|super|prima|gute",
    contaminated:
      "kontaminiert|Konti|Kontis|Schimmel|verschimmelt|schimmelig|Grünschimmel|grün|Trichoderma|bakteriell|Bakterien|befallen|befall|verpilzt|Kahmhefe|infiziert|faul|Nassfäule|kontamination|schimmelbefall|grüner schimmel|gruener schimmel|schimmelfleck|trich|verkeimt|bakterielle|grün geworden|wurde grün|alles grün|ganz grün|vergammelt|gammelig|verrottet|verfault",
    failed:
      "Ausfall|ausgefallen|fehlgeschlagen|misslungen|nicht angewachsen|nicht angegangen|kein Wachstum|keine Pins|kein Ertrag|abgestorben|vertrocknet|überhitzt|Trauermücken|Milben|nichts gewachsen|verdorben|schlecht|gescheitert|nicht gewachsen|nichts geworden|nix geworden|nix gewachsen|eingegangen|umgekippt|abgestanden",
    discarded:
      "verworfen|entsorgt|weggeworfen|weggeschmissen|kompostiert|aussortiert|kaputt|entsorgung|müll|ausgefallen|in den müll|weggetan|verloren|tonne|in die tonne|mülltonne|biomüll|komposthaufen|auf den kompost|auf dem kompost",
    growing:
      "wächst|wächst noch|am Wachsen|in Inkubation|durchwächst|fruchtet|pinnt|noch nicht|läuft|wächst weiter|inkubiert|steht noch|unterwegs|noch am wachsen|noch nicht reif",
    drying:
      "trocknet|trocknet noch|am trocknen|im dörrer|im dörrautomat|noch nicht trocken|wird getrocknet|noch nicht gewogen|muss noch gewogen werden|wird noch gewogen",
    pending: "ausstehend|steht aus|offen|kommt noch|folgt",
    spent: "abgetragen|ausgemustert|erschöpft|abgeerntet",
  },
  picked: "geerntet|gepflückt|verkauft|verschenkt|gegessen",
  unsure:
    "grün|faul|rot|weg|tot|kaputt|müll|schlecht|verloren|bakterien|milben|trauermücken|verdorben|überhitzt|vertrocknet",
  negations: {
    before: "kein|keine|keinen|keiner|keinerlei|nicht|ohne|nie|niemals|frei von|weder|noch kein",
    after: "frei|negativ|nein",
  },
  scopeEnds: "aber|sondern|nur|jedoch|doch|dann|danach|weil|trotzdem|allerdings|noch",
  doubt:
    "nachbar|nachbarin|nebenan|daneben|am deckel|nur deckel|vielleicht|evtl|eventuell|vermutlich|wohl|möglich|verdacht|wahrscheinlich|nachbarschale|nachbarbeutel|deckel|getauscht|ersetzt|prüfen|kontrollieren|beobachten|falls|wenn",
  yes: "j|ja|jawohl|wahr",
  no: "nein|falsch|keine|keiner",
  missing: {
    "not applicable": "entfällt|trifft nicht zu|nicht zutreffend|k.a.|k. a.|ka",
    unknown: "unbekannt|keine angabe|weiß nicht|fehlt|keine ahnung|keine daten|leer",
    "not weighed": "nicht gewogen|vergessen|nicht gemessen|nicht notiert|ungewogen",
  },
  numbers: "null,nichts|eins,ein,eine|zwei|drei|vier|fünf|sechs|sieben|acht|neun|zehn|elf|zwölf",
  months:
    "januar,jan,jänner,jän|februar,feb,feber|märz,mär,mrz|april,apr|mai|juni,jun|juli,jul|august,aug|september,sep,sept|oktober,okt|november,nov|dezember,dez",
  weekdays: "montag,mo|dienstag,di|mittwoch,mi|donnerstag,do|freitag,fr|samstag,sa,sonnabend|sonntag,so",
  summaries: {
    sum: "summe|summen|gesamt|gesamtsumme|zwischensumme|insgesamt|total|ges",
    mean: "durchschnitt|mittelwert|mittel|schnitt|ø|durchschn|im schnitt|durchschnittlich",
    median: "median|zentralwert",
    count: "anzahl|stückzahl|zahl",
    spread:
      "standardabweichung|stdabw|std abw|standardabw|stabw|streuung|varianz|spannweite|minimum|maximum|kleinster|größter",
  },
  flushes: "welle|erntewelle|schub|erntegang|pflücke|ernte",
  ordinals: "1.,erste,erster|2.,zweite,zweiter|3.,dritte,dritter|4.,vierte,vierter|5.,fünfte,fünfter",
  each: "je|pro schale|pro beutel|jeweils|je schale|je beutel|/schale|/beutel",
  joins: "und|plus",
  ranges: "bis",
  tare: "tuch|beutel|schale|schüssel|teller|behälter|kiste|glas|deckel|korb|pfanne|handtuch|verpackung|tara|küchenpapier",
  withWords: "mit|inkl|inkl.|inklusive|einschl|brutto|samt|in",
  tray: "schale|beutel|block|glas|kiste",
  seen: "sichtbar|gefunden|gesehen|vorhanden|zu sehen|festgestellt|bisher|da|erkennbar",
  ors: "oder|noch",
};
