import { expect, test } from "vitest";
import { refusalOf } from "../../../src/cleaning/refuse-sheet.ts";
import { namesTrays, roleByHeader, roleByName } from "../../../src/cleaning/sort-sources.ts";
import type { RawTable } from "../../../src/records/sheet.ts";

const table = (header: string): RawTable => ({ header: header.split(",") }) as RawTable;

// words for costs and products in eight languages: from memory; the rest is this program's own naming
test.each<[path: string, role: string | undefined]>([
  ["settings.csv", "settings"],
  ["setting.csv", "settings"],
  ["trays.settings.csv", "settings"],
  ["mysettings.csv", undefined],
  ["settings-old.csv", undefined],
  ["a/b/Settings.XLSX", "settings"],
  ...[
    "cost",
    "costs",
    "Kosten",
    "coût",
    "coûts",
    "cout",
    "coste",
    "costes",
    "costo",
    "costos",
    "costi",
    "koszty",
    "custos",
  ].map((name): [string, string] => [`${name}.csv`, "costs"]),
  ["running costs.csv", undefined],
  ["costs2.csv", undefined],
  ...[
    "product",
    "products",
    "Produkte",
    "produit",
    "produits",
    "productos",
    "prodotti",
    "producten",
    "produkty",
    "produtos",
  ].map((name): [string, string] => [`${name}.csv`, "products"]),
  ["columns.csv", "columns"],
  ["column.csv", "columns"],
  ["trays.columns.csv", "columns"],
  ["cells.csv", "cells"],
  ["cell.csv", "cells"],
  ["trays.cells.csv", "cells"],
  ["my cells2.csv", undefined],
  ["temperature.csv", "temperature log"],
  ["tent_temps.csv", "temperature log"],
  ["tent temp 2.csv", "temperature log"],
  ["thermo-1.csv", "temperature log"],
  ["Logger.csv", "temperature log"],
  ["sensor.csv", "temperature log"],
  ["climate.csv", "temperature log"],
  ["attempts.csv", undefined],
  ["harvest/settings.csv", "harvest"],
  ["Harvests/tent temp.csv", "harvest"],
  ["my harvests/costs.csv", "costs"],
  ["harvests/2026/costs.csv", "costs"],
  ["harvests.csv", undefined],
])("%s is for %s", (path, role) => {
  expect(roleByName({ path })).toBe(role);
});

test.each([
  ["key,value", "settings"],
  [" Key , VALUE ", "settings"],
  ["key,other", undefined],
  ["item,pack_price", "costs"],
  ["item,per", "costs"],
  ["item,other", undefined],
  ["product,form", "products"],
  ["product,channel", "products"],
  ["product,other", undefined],
  ["header,field", "columns"],
  ["row,column,value", "cells"],
  // money by what a list of it has, three columns or more
  ["Item,Price,Pack size", "costs"],
  ["Item,Price", undefined],
  ["Product,Price,Form", "products"],
  ["Tray,Fresh g,Item,Price,Pack size", "harvest"],
  ["Dose ml,Item,Price,Pack size", "costs"],
  // a log of temperatures
  ["time,temperature", "temperature log"],
  ["Date,Temp °C", "temperature log"],
  ["logged at,°F", "temperature log"],
  ["When,C", "temperature log"],
  ["a,b,c,d,time,temp", "temperature log"],
  ["a,b,c,d,e,time,temp", undefined],
  ["No,Date,Temp", "temperature log"],
  ["Tray,Date,Temp", "harvest"],
  ["Fresh g,Date,Temp", "harvest"],
  ["Dry g,Date,Temp", "harvest"],
  ["time,depth", undefined],
  // trays
  ["Tray,x,y,z", "harvest"],
  ["Dry weight,x,y,z", "harvest"],
  ["LC mL,x,y,z", "harvest"],
  ["Spawn (g),x,y,z", "harvest"],
  ["Spawn (%),x,y,z", "harvest"],
  ["Strain,Shelf,x,y", "harvest"],
  ["Strain,x,y,z", undefined],
  ["Strain,x,y", "harvest"],
  ["first name,phone", undefined],
  ["Weight,Price paid,To whom,When", undefined],
])("a sheet of %s is for %s", (header, role) => {
  expect(roleByHeader(table(header))).toBe(role);
});

test.each([
  ["Tray,x", true],
  ["Fresh wt,x", true],
  ["Dry wt,x", true],
  ["LC mL,x", true],
  ["Weight,x", false],
  ["Strain,Note", false],
  ["", false],
])("%s names trays, weights or doses beyond doubt: %s", (header, names) => {
  expect(namesTrays(header.split(","))).toBe(names);
});

const log = "file,row,column,tray,raw,result,rule,severity";
test.each<[header: string, isHarvest: boolean, hasTrays: boolean, says: string | undefined]>([
  [log, true, true, "note: it is a log"],
  [log.toUpperCase(), false, false, "note: it is a log"],
  ["file,row,column,raw,result,rule", true, true, undefined],
  ["product,channel,full cost,price to ask", true, true, "note: it is a price list"],
  ["product,channel,full cost", false, false, undefined],
  // tables of means
  ["Dose,Mean fresh g", false, false, "warning: it is a table of means"],
  ["Dose,Mean fresh g,Mean dry g,x", false, false, "warning: it is a table of means"],
  ["Dose,Mean fresh g,n,x", false, false, "warning: it is a table of means"],
  ["Dose,Mean fresh g,SD,x", false, false, "warning: it is a table of means"],
  ["Dose,Median fresh g,x", false, false, "warning: it is a table of means"],
  ["Dose,Mean fresh g,x,y", false, false, undefined],
  ["Dose,n,x", false, false, undefined],
  ["Dose,Mean fresh g", false, true, undefined],
  // statements of an account, in eight languages from memory
  ["Date,Description,Amount", false, false, "note: it looks like a statement"],
  ["Transaction date,Payee,Balance", false, false, "note: it looks like a statement"],
  ["Posted,Memo,Money out", false, false, undefined],
  ["Posted date,Memo,Money out", false, false, "note: it looks like a statement"],
  ["Buchungstag,Empfänger,Betrag", false, false, "note: it looks like a statement"],
  ["Date opération,Libellé,Montant", false, false, "note: it looks like a statement"],
  ["Fecha,Concepto,Importe", false, false, "note: it looks like a statement"],
  ["Data operacji,Tytuł,Kwota", false, false, "note: it looks like a statement"],
  ["Data mov.,Descrição,Valor", false, false, "note: it looks like a statement"],
  ["Data contabile,Causale,Importo", false, false, "note: it looks like a statement"],
  ["Boekdatum,Omschrijving,Bedrag", false, false, "note: it looks like a statement"],
  ["Description,Amount", false, false, undefined],
  ["Date,Amount", false, false, undefined],
  ["Date,Description", false, false, undefined],
  ["Update,Description,Amount", false, false, undefined],
  ["Date,Description,Amount", true, false, undefined],
  ["Tray,Fresh g", true, true, undefined],
])("%s (harvest: %s, trays: %s) belongs to no book: %s", (header, isHarvest, hasTrays, says) => {
  const found = refusalOf(table(header), isHarvest, hasTrays);
  const said = found === undefined ? undefined : `${found.severity}: ${found.reason}`;
  if (says === undefined) expect(said).toBeUndefined();
  else expect(said).toContain(says);
});
