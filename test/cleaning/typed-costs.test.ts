import { expect, test } from "vitest";
import { bookOf } from "./book-of.ts";

// What a careful person reads from a row of costs: what one use costs, and per what. Common practice, no source.

const harvest = "Tray,LC ml,Fresh g\n1,4,210\n2,8,240\n";

/** The first line's cost of one use and its base, or what is said of it. */
async function firstLine(costs: string): Promise<string> {
  const { costLines = [], unread = [] } = await bookOf({ "harvests/one.csv": harvest, "costs.csv": costs });
  const [line] = costLines;
  if (line === undefined) return unread.length > 0 ? "left out" : "nothing";
  const { packPrice, packSize, amount, per } = line;
  return `${Number(((packPrice * amount) / packSize).toFixed(4))} ${per}${unread.length > 0 ? ", in doubt" : ""}`;
}

test.each([
  // a sheet with "per tray" over its amounts: a line without one is not used up with a tray
  ["Posten;Preis;Menge;je Schale\nMiete;150 €/Monat;;\n", "150 month"],
  ["Artículo;Precio;Paquete;Por bandeja\nAlquiler;150 €/mes;;\n", "150 month"],
  ["Item,Price,Pack,Per tray\nRent,150 per month,,\n", "150 month"],
  ["Item,Price,Pack,Per tray\nGas,1.2 per load,,\n", "1.2 load"],
  ["Item,Price,Pack,Per tray\nThermometer,20,1,\n", "left out"],
  ["Item,Price,Pack,Per tray\nGrain,20,25 kg,400 g\n", "0.32 tray"],
  // times other than a month
  ["Item,Cost,Per\nInsurance,120,year\n", "10 month"],
  ["Item,Cost,Per\nRent,300,quarter\n", "100 month"],
  ["Item,€ per month\nRent,80\n", "80 month"],
  ["Item,€/tray\nBag,0.24\n", "0.24 tray"],
  // amounts or money: asked
  ["Item,Per month\nRent,80\n", "left out"],
  ["Item,Cost,Per\nWater,7,week\n", "30.4167 month"],
  ["Item,Cost,How often\nFilter,45,every 2 years\n", "1.875 month"],
  ["Posten;Preis;Pro\nVersicherung;120;Jahr\n", "10 month"],
  ["Item,Cost\nRent,720 yearly\n", "60 month"],
  ["Item,Price,Life\nCooker,300,5 years\n", "5 month"],
  ["Item,Price,Life years\nShelf,120,10\n", "1 month"],
  ["Item,Cost,Per\nShelf light,0.05,shelf day\n", "0.05 shelf day"],
  // for nothing
  ["Item,Price,Pack,Per tray\nCoffee grounds,free,,500 g\n", "0 tray"],
  ["Posten;Preis;Packung;je Schale\nKaffeesatz;kostenlos;;500 g\n", "0 tray"],
  ["Item,Price,Pack,Per tray\nFree-range straw,,,500 g\n", "left out"],
  // hundredths
  ["Item,Price (ct),Pack,Per tray\nLabel,5,1,1\n", "0.05 tray"],
  ["Item,Price,Pack,Per tray\nBag,50p,1,1\n", "0.5 tray"],
  ["Item,Price (ct),Pack,Per tray\nBag,€0.50,1,1\n", "0.5 tray"],
  ["Item,Price (€),Pack,Per tray\nBag,50,100,1\n", "0.5 tray"],
  // so many for a price, or a price for so many
  ["Item,Price,Used,Per\nBags,3 for 10.00,1,tray\n", "3.3333 tray"],
  ["Item,Price,Used,Per\nBags,3 for €10,1,tray\n", "3.3333 tray"],
  ["Item,Price,Used,Per\nBags,10.00 for 3,1,tray\n", "3.3333 tray"],
  ["Item,Price,Used,Per\nBags,46 for 100,1,tray\n", "0.46 tray"],
  ["Item,Price,Used,Per\nBags,3 for 10,1,tray\n", "left out"],
  ["Item,Price,Pack,Used,Per\nBags,3 for 10.00,100,1,tray\n", "left out"],
  // a bare quantity beside what is used is the pack
  ["Item,Price,Quantity,Quantity used,Per\nRye,31.00,25 kg,400 g,tray\n", "0.496 tray"],
  ["Item,Price,Qty (kg),Amount used (g),Per\nRye,31.00,25,400,tray\n", "0.496 tray"],
  ["Artikel;Preis;Menge;Verbrauch;pro\nReis;31,00;25 kg;400 g;Tray\n", "0.496 tray"],
  ["Item,Price,Quantity,Used,Per\nBags,46,100,1,tray\n", "0.46 tray"],
  ["Item,Price,Used,Usage,Per\nBags,46,100,1,tray\n", "left out"],
  ["Item,Unit cost,Unit,Units per tray\nRye,0.80,kg,0.4\n", "0.32 tray"],
  ["Item,Unit cost,Unit,Units per tray\nRent,40,month,\n", "40 month"],
  ["Expense,How much paid,What for\n25 kg rye,21.50,400 g a tray\n", "0.344 tray"],
  ["Expense,How much paid,What for\nElectric,22,a month\n", "22 month"],
  ["Expense,How much paid,What for\nbags x50,28,1 a tray\n", "0.56 tray"],
  ["Expense,How much paid,What for\nLC 100ml,9,dose\n", "0.09 inoculum mL"],
  // "for" over packs, beside amounts that say what they go to
  ["What,Price,For,Use\nRye,21.00,25 kg,350 g per tray\n", "0.294 tray"],
  ["What,Price,For,Use\nBags,32,50,1 per tray\n", "0.64 tray"],
  ["What,Price,For,Use\nGas,18,11 kg,0.9 kg per load\n", "1.4727 load"],
  ["What,Price,For,Use\nCulture,6,500 ml,\n", "0.012 inoculum mL"],
  ["What,Price,For,Use\nRent,25,month,\n", "25 month"],
  ["What,Price,For,Use\nGas,18,11 kg,\n", "left out"],
  ["What,Price,For,Use\nGloves,18,2 loads,1 per tray\n", "left out"],
  // a note that is the amount, as a whole
  ['Item,Cost,Notes\n"Oats, 50 lb bag",22.50,use 12 oz per tray\n', "0.3375 tray"],
  ["Item,Cost,Notes\nFilter bags (100),38.00,1 per tray\n", "0.38 tray"],
  ["Item,Cost,Notes\nLabour,15/h,20 min per tray.\n", "5 tray"],
  ["Item,Cost,Notes\nCulture syringe 10cc,12.00,\n", "1.2 inoculum mL"],
  ["Item,Cost,Notes\nFilter bags (100),38.00,1 per tray or two\n", "left out"],
  ["Item,Cost,Notes\nRent,60 per month,50 per month\n", "60 month"],
  ["Item,Cost,Notes\nGrain,0.30,per tray\n", "0.3 tray"],
  ["Item,Cost,Notes\nRent,60,each month\n", "60 month"],
  // a price column that says its base and its currency
  ["Item,Cost per tray (€)\nBags,0.46\n", "0.46 tray"],
  ["Item,Cost,Frequency\nDomain,12,yearly\n", "1 month"],
  // hours and minutes, and an amount's unit that stands behind it
  ["Item,Kind,Price,Amount,Per\nFilling,labour,15/h,1 h 30 min,cook\n", "22.5 cook"],
  ["Item,Kind,Price,Amount,Per\nFilling,labour,15/h,0:45,cook\n", "11.25 cook"],
  ["Item,Kind,Price,Amount,Unit,Per\nPicking,labour,12,5,min,good tray\n", "1 good tray"],
  // parts of one
  ["Item,Price,Pack,Used,Per\nTape,2.50,1 roll,1/20 roll,tray\n", "0.125 tray"],
  // the hours of a day or of a month
  ["Item,Kind,Price,Watts,Hours,Per\nFridge,energy,0.30,80,24,month\n", "left out"],
  ["Item,Kind,Price,Watts,Hours,Per\nFridge,energy,0.30,100,730,month\n", "21.9 month"],
  // what came back is no cost, whatever its sign
  ["Item,Cost,Per\nRefund bags,6.00,tray\n", "left out"],
  ["Item,Cost,Per\nBags,(6.00),tray\n", "left out"],
  ["Item,Cost,Per\nGas bottle deposit,30,cook\n", "left out"],
  ["Item,Cost,Per\nGas bottle (deposit 30),62,cook\n", "62 cook"],
  // what holds a pack, and how many for a price in the header
  ["Item,Price,Pack,Used,Per\nHulls,11.50,10 kg bag,20 g,tray\n", "0.023 tray"],
  ["Item,Price,Pack,Used,Per\nJars,18,box of 12,1,jar\n", "1.5 jar"],
  ["Item,Price per 100,Used,Per\nLabels,3,1,tray\n", "0.03 tray"],
  // hours or minutes
  ["Item,Kind,Price,Amount,Per\nPacking,labour,12/h,30,cook\n", "left out"],
  ["Item,Kind,Price,Amount,Per\nPicking,labour,12/h,2,good tray\n", "left out"],
  ["Item,Kind,Price,Amount,Per\nFilling,labour,12/h,1.5,cook\n", "18 cook"],
  // an old price left in, or beside the one that holds
  ["Item,Cost,Per\nBags,0.46,tray\nBags (old price),0.40,tray\n", "0.46 tray, in doubt"],
  ["Item,Price,Old price,Pack,Used,Per\nRice,31,28,25 kg,400 g,tray\n", "0.496 tray, in doubt"],
  // a time before the price, prices without tax, titles between the lines
  ["Item,Monthly cost\nRent,60\n", "60 month"],
  ["Item,Yearly cost (€)\nInsurance,120\n", "10 month"],
  ["Item,Cost,Per\nTape,0.10 net,tray\n", "left out"],
  ["Posten;Preis;Pro\nBand;0,10 netto;Tray\n", "left out"],
  ["Item,Cost,Per\nMaterials,,\nRice,0.50,tray\n", "0.5 tray"],
  ["Item,Cost,Per\nEnergy:,,\nGas,2.40,load\n", "2.4 load"],
  ["Item,Cost,Per\nElectricity,,\nRice,0.50,tray\n", "0.5 tray, in doubt"],
  // sums of the lines above
  ["Item,Cost,Per\nSubtotal materials,0.95,tray\n", "nothing"],
  // a price for so many, or so long, of what lasts
  ["Item,Cost,Per\nSyringe,15,30 trays\n", "0.5 tray"],
  ["Item,Cost,Per\nGasket,12,50 loads\n", "0.24 load"],
  ["Item,Price,Lasts\nBags,32,100 trays\n", "0.32 tray"],
  ["Item,Price,Lasts\nFan,30,lasts 3 yrs\n", "0.8333 month"],
  ["Item,Price,Lasts\nShelf,120,10\n", "left out"],
  ["Item,Kind,Price,Life years,Per\nFridge,equipment,240,10,month\n", "240 month"],
  ["Item,Cost,Per\nTesting,80,twice a year\n", "13.3333 month"],
  ["Item,Cost\nRent,£60 pcm\n", "60 month"],
  ["Item,Cost\nHeating,£15 p/w\n", "65.1786 month"],
  ["Posten;Preis\nMiete;60 monatlich\n", "60 month"],
  ["Item,Cost,Per\nBags,0.30,tray / bag\n", "0.3 tray"],
  ["Item,Cost,Per\nGas,2.40,tray / cook\n", "left out"],
  // what holds a pack, in its price; gas and water by the cubic metre
  ["Item,Price,Used,Per\nBags,32 per box of 100,1,tray\n", "0.32 tray"],
  ["Item,Price,Used,Per\nRye,18.50 a sack (25kg),400 g,tray\n", "0.296 tray"],
  ["Item,Price,Used,Per\nGas,1.20 per m3,0.8 m3,cook\n", "0.96 cook"],
  ["Item,Price,Used,Per\nSpawn,£12 each,1,cook\n", "12 cook"],
  // work by the minute or the hour
  ["Task,Hours,Rate,Per\nFilling,1.5,12,load\n", "18 load"],
  ["Task,Hours,Cost,Per\nFilling,1.5,12,load\n", "left out"],
  ["Arbeit;Stunden;Stundenlohn;je\nFüllen;1,5;12;Ladung\n", "18 load"],
  ["Item,Kind,Price,Hours,Per\nFan,energy,0.3,12,shelf day\n", "left out"],
  ["Task,Minutes,Rate,Per\nFilling,45,12/h,cook\n", "9 cook"],
  ["Task,Min,Hourly rate,Per\nPicking,5,12,good tray\n", "1 good tray"],
  ["Item,Kind,Price,Amount,Per\nFilling,my time,12/h,45 min,cook\n", "9 cook"],
  ["Item,Time,Rate\nFilling,90 min per cook,12/h\n", "18 cook"],
  // a title says what lines are for, of the sheet or of some of them, or the item's own name
  ["Cost per tray,\nGrain,0.60\nBag,0.32\n", "0.6 tray"],
  ["Costs per tray (EUR),\n,\nGrain,0.60\nBag,0.32\nTotal,0.92\n", "0.6 tray"],
  ["Item,Cost\nPer month,\nRent,60\nPer tray,\nGrain,0.60\n", "60 month"],
  ["Item,Cost\nGas per cook,2.40\n", "2.4 cook"],
  ["Item,Cost\nBag (each tray),0.32\n", "0.32 tray"],
  ["Item,Cost per tray,Cost per month\nGrain,0.60,\nRent,,60\n", "0.6 tray"],
  ["Item,Cost per tray,Cost per month\nGrain,0.60,18\nRent,,60\n", "left out"],
  ["Item,Cost,For how many trays\nGrain,18,30\n", "0.6 tray"],
  ["Item,Cost,Months\nRent,600,12\n", "50 month"],
  ["Item,Cost,Per\nGas,2.40,load of 6\n", "2.4 load"],
  // how much for how much, and a unit price of what is counted
  ["What,How much,Bought for,Used per tray\nRye,25 kg,18.50,400 g\n", "0.296 tray"],
  ["Posten;Menge;Mengeneinheit;Preis;Verbrauch je Tray\nRoggen;25;kg;18,50;400 g\n", "0.296 tray"],
  ["Article;Prix;Quantité;Unité;Utilisé par barquette\nSeigle;18,50;25;kg;400 g\n", "0.296 tray"],
  ["Item,Price,Per,Used per tray\nRye,0.74,kg,400 g\n", "0.296 tray"],
  ["Item,Unit price,Qty,Total,Per\nRye,0.74,0.4,0.296,tray\n", "0.296 tray"],
  ["Item,Qty per tray,Unit,Price per unit\nRye,0.4,kg,0.74\n", "0.296 tray"],
  ["Ingredient,g per tray,Price per kg\nRye,400,0.74\n", "0.296 tray"],
  ["Item,Price,Per tray\nBags (100),46,1\n", "0.46 tray"],
  ["Item,Price,Per tray\nRye 25kg,18.50,400 g\n", "0.296 tray"],
  ["Item,Price,Per tray\nJars 500 ml,18,1\n", "left out"],
  ["Item,Cost,Per\nBags,2 x 0.32,tray\n", "0.64 tray"],
  ["Item,Cost,Per\nElectricity,60 kWh x 0.30,month\n", "18 month"],
  ["Wat;Kosten;Per\nRogge;0,30;bak\n", "0.3 tray"],
  ["Kosten pro Schale;\nRoggen;0,30\nBeutel;0,46\n", "0.3 tray"],
  ["Nazwa;Cena;Ilość w opakowaniu;Zużycie na tackę\nRyż;18,50;25 kg;400 g\n", "0.296 tray"],
  ["Fecha;Concepto;Importe;Por\n2026-02-01;Centeno;0,30;bandeja\n", "0.3 tray"],
  ["Item,Price (€/kg),Used (g/tray)\nRye,0.74,400\n", "0.296 tray"],
  ["Item,Price per pack,Items per pack,Used per tray\nBags,46,100,1\n", "0.46 tray"],
  ["Item,Price per bag,kg per bag,Per tray\nRye,18.50,25,400 g\n", "0.296 tray"],
  ["Item,Spend,Per\nRye,0.60,tray\n", "0.6 tray"],
  ["What,Amount (€),Per\nRye,0.60,tray\n", "0.6 tray"],
  ["What,Amount,Per\nRye,0.60,tray\n", "left out"],
  // a unit behind the name of a column
  ["Item,Price,Lasts (months)\nFan,30,24\n", "1.25 month"],
  ["Item,Price,Lifetime in months\nFan,30,24\n", "1.25 month"],
  ["Item,Price (kg),Per tray\nRye,0.74,400 g\n", "0.296 tray"],
  ["Item,Price (year)\nInsurance,120\n", "10 month"],
  ["Item,Cost (6 trays)\nGrain,3.60\n", "0.6 tray"],
  ["Item,Price (2026),Per\nGrain,0.60,tray\n", "0.6 tray"],
  ["Item,Kind,Price,Watts,Run time (min),Per\nCooker,energy,0.30,2000,150,load\n", "1.5 load"],
  // a bill for each month
  ["Item,Jan,Feb,Mar,Total\nElectric,25,22.50,30,77.50\n", "25.8333 month"],
  ["Posten;Januar;Februar;März\nMiete;60,00;60,00;60,00\n", "60 month"],
  ["Item,Jan,Feb,Mar\nInsurance,120,,\nRent,60,60,60\n", "60 month, in doubt"],
  ["Item,Price,Per,Mar,May\nGrain,0.60,tray,,\n", "0.6 tray"],
  // a day of one tray's place, or of all
  ["Item,Cost,Per\nShelf,0.05,day\n", "left out"],
  ["Item,Cost,Per\nShelf,0.05,shelf day\n", "0.05 shelf day"],
  ["Item,Cost,Per\nWater,1,day\n", "30.4167 month"],
  // a title of costs over costs is none that is not counted
  ["My mushroom costs 2026,,,\nItem,Price,Pack,Per tray\nRye,18.50,25 kg,400 g\n", "0.296 tray"],
  // several of what lines are for, in a name, a title or under "yields"
  ["Costs for 12 trays,\nRye,7.20\nBags,5.52\n", "0.6 tray"],
  ["Ingredient,Amount for 6 trays,Price per kg\nRye,2.4 kg,0.74\n", "0.296 tray"],
  ["Item,Cost\nGas (per load of 6),2.40\n", "2.4 load"],
  ["Item,Cost\nRent (monthly),60\n", "60 month"],
  ["Item,Cost,Yields\nBags,46,100 trays\n", "0.46 tray"],
  ["Item,Cost,Yields\nBags,46,100\n", "left out"],
  ["Item,kWh per month,Tariff\nFridge,20,0.30\n", "6 month"],
  // what was paid, beside the parts of it
  ["Item,Net,VAT,Gross,Pack,Per tray\nBags,40.00,8.00,48.00,100,1\n", "0.48 tray"],
  ["Item,Net,VAT,Price,Pack,Per tray\nBags,40.00,8.00,48.00,100,1\n", "0.48 tray, in doubt"],
  // a count with three decimals
  ["Item,Price,Pack,Used,Per\nBags,92.00,1.000,1,tray\n", "left out"],
  ["Item,Price,Pack,Used,Per\nBags,92.00,1000,1,tray\n", "0.092 tray"],
  // a unit of a header that cannot be the line's
  ["Item,Price,Pack kg,Used g,Per\nBags,46,100,1,tray\n", "left out"],
  ["Item,Price,Pack kg,Used g,Per\nBags,46,100 pcs,1 pc,tray\n", "0.46 tray"],
  ["Item,Price,Pack kg,Used g,Per\nRye,18.50,25,0.4,tray\n", "left out"],
  ["Item,Unit price,Unit,Used per tray\nRye,0.74,kg,400\n", "left out"],
  // what was added up, and what a remark changes
  ["Item,Price,Pack,Per tray\nBags,£32 + £6.99 p&p,100,1\n", "0.3899 tray"],
  ["Item,Price,Pack,Per tray\nBags,32 + p&p,100,1\n", "left out"],
  ["Item,Price,Pack,Per tray\nBags,32 (for 2),100,1\n", "left out"],
  ["Item,Price,Pack,Per tray\nBags,32 (+ delivery 6.99),100,1\n", "left out"],
  ["Item,Price,Pack,Per tray\nBags,32 (shared with Ann),100,1\n", "left out"],
  ["Item,Price,Pack,Per tray\nBags,32 (was 40),100,1\n", "0.32 tray"],
  ["Item,Price,Pack,Per tray\nBags,32 (ex. VAT),100,1\n", "left out"],
  ["Item,Price inc VAT,Pack,Per tray\nBags,32,100,1\n", "0.32 tray"],
  ["Item,Price ex VAT,Pack,Per tray\nBags,32,100,1\n", "left out"],
  ["Item,Cost,Per,Note\nRent,120,month,half for the garden\n", "120 month, in doubt"],
  ["Posten;Preis;Pro;Notiz\nMiete;120;Monat;zur Hälfte für den Garten\n", "120 month, in doubt"],
  ["Item,Cost,Per,Note\nBags,0.32,tray,plus delivery\n", "0.32 tray, in doubt"],
  ["Item,Cost,Per,Note\nBags,0.32,tray,free delivery\n", "0.32 tray"],
  ["Item,Cost,Per,Note\nBags,0.32,tray,half a box left over\n", "0.32 tray"],
  ["Item,Cost,Per,Note\nGrain,0.30,tray,price went up to 0.36 in Feb\n", "0.3 tray, in doubt"],
  ["Item,Cost,Per,Share\nRent,120,month,50 %\n", "120 month, in doubt"],
  // a unit or a currency behind the name of a column
  ["Item,Price EUR,Pack kg,Used g,Per\nRye,18.50,25,400,tray\n", "0.296 tray"],
  ["Item,Pack price,Pack (kg),Per tray (g)\nRye,18.50,25,400\n", "0.296 tray"],
  ["Item,Pack price,Pack (kg),Used (g/tray )\nRye,18.50,25,400\n", "0.296 tray"],
  ["Item,Pack price,Pack size (kg/sack),Per tray (g)\nRye,18.50,25,400\n", "0.296 tray"],
  ["Item,Pack price,Size (kg per bag),Used (g/tray)\nRye,18.50,25,400\n", "0.296 tray"],
  // a third decimal of 0, in a sheet whose other prices have a point before their decimals
  ["Item,Cost,Per\nFridge,1.240,month\nIncubator,12.50,month\n", "12.5 month, in doubt"],
  ["Item,Cost,Per\nLabel,0.120,tray\n", "0.12 tray"],
  // two months of one bill
  ["Item,Cost,Per\nRent Jan,60,month\nRent Feb 2026,60,month\n", "60 month, in doubt"],
  // a quantity under a name of the grower's own, and what a pack holds beside it
  ["Item,Price,Pieces per box,Used per tray\nBags,46,100,1\n", "0.46 tray"],
  ["Item,Cost per box,Pieces per box,Used per tray\nBags,46,100,1\n", "0.46 tray"],
  ["Item,Cost per 25kg bag,g per tray\nRye,18.50,380\n", "0.2812 tray"],
  ["What,Price,How much I use\nRye,74p a kilo,400 g per tray\n", "0.296 tray"],
  ["What,Price,How much I use\nBag,42p each,one per tray\n", "0.42 tray"],
  ["Job,How long,Per,€/h\nPicking,10 min,tray,15\n", "2.5 tray"],
  ["Wat;Prijs;Verpakking;Gebruik per bak\nRogge;18,50;25 kg;400 g\n", "0.296 tray"],
  ["Voce;Prezzo;Confezione;Uso per vassoio\nSegale;18,50 €;25 kg;400 g\n", "0.296 tray"],
  ["Item,Price,Used per tray,Trays per load\nRye 25 kg,18.50,400 g,6\n", "0.296 tray, in doubt"],
  // things under a name of the grower's own, and money under a name that is none of money
  ["Equipment,Price,Life\nTent,180,4 years\n", "3.75 month"],
  ["Date,Shop,Bought,Price,How many,Use per tray\n2026-01-03,Mill,Rye,18.50,25 kg,400 g\n", "0.296 tray"],
  ["Stuff,Cost,Per\nGrain,0.30,tray\n", "0.3 tray"],
  ["Ordered,Stuff,Cost,Per\nyes,Grain,0.30,tray\n", "0.3 tray"],
  ["Paid by,Stuff,Cost,Per\nme,Grain,0.30,tray\n", "left out"],
  ["Month,Cost per month\nJanuary,60\nFebruary,62\n", "left out"],
  ["Cost item,How much\nRye,€0.30 a tray\n", "0.3 tray"],
  ["Item,€ a month\nRent,60\n", "60 month"],
  ["Cost,Per tray\nGrain,0.30\n", "0.3 tray"],
  ["Expenses,Per tray,Per month\nGrain,0.30,\nRent,,60\n", "0.3 tray"],
  ["Cost,Per tray\nGrain,400 g\nBag,1\n", "left out"],
  ["Item,Cost per batch of 6 trays\nGrain,2.40\n", "2.4 cook"],
  // what bringing it cost
  ["Item,Price,Delivery,Pack,Used,Per\nBags,42.00,6.99,100,1,tray\n", "0.4899 tray"],
  ["Item,Paid,P&P (£),Pack,Used,Per\nBags,£42.00,£6.99,100,1,tray\n", "0.4899 tray"],
  ["Item,Price,Postage,Pack,Used,Per\nBags,42.00,ask,100,1,tray\n", "0.42 tray, in doubt"],
  ["Item,Unit price,Delivery,Unit,Used per tray\nRye,0.74,4.00,kg,400 g\n", "0.296 tray, in doubt"],
  // the share of a price that is the grower's
  ["Item,Cost,Per,My share\nRent,320,month,15%\n", "48 month"],
  [
    "item,kind,pack_price,pack_size,amount,per,life_years,uses_per_year,salvage,own_share_pct\nCooker,reusable,300,1,1,load,5,50,60,50%\n",
    "150 load",
  ],
  ["Posten;Preis;Packung;je Schale\nStrom;28 € im Monat;;\n", "28 month"],
  ["Voce;Costo\nLuce;22 € mensili\n", "22 month"],
  // a column of prices that the sheet works out itself, and two units, each behind what it is of
  ["Item,Pack,Pack price,Price per kg,Used per tray\nRye,25 kg,18.50,0.74,400 g\n", "0.296 tray"],
  ["Item,Pack,Pack price,Used per tray,Cost per tray\nRye,25 kg,18.50,400 g,0.30\nTotal,,,,0.30\n", "0.296 tray"],
  ["Item,Pack,Pack price,Used per tray,Cost per tray\nRye,25 kg,18.50,400 g,0.50\n", "0.296 tray, in doubt"],
  [
    "Item,Pack,Pack price,Used per tray,Cost per tray\nRye,25 kg,18.50,400 g,0.30\nGas,,,,0.42\n",
    "0.296 tray, in doubt",
  ],
  ["Item,Price,Pack,Unit,Use,Unit,Per\nRye,18.50,25,kg,400,g,tray\n", "0.296 tray"],
  ["Item,Price per kg,g/tray\nRye,0.74,400\n", "0.296 tray"],
  ["Item,Price,Pack,Used per tray\nRye,37,2 bags of 25 kg,400 g\n", "0.296 tray"],
  // energy by its kWh, by minutes, and by the hours of a day
  ["Item,kWh,Price per kWh,Per\nAutoclave,12,0.30,load\n", "3.6 load"],
  ["Device,kWh/month,Price per kWh\nFridge,20,0.30\n", "6 month"],
  ["Device,kW,Minutes,€/kWh,Per\nCooker,2,150,0.30,load\n", "1.5 load"],
  ["Device,W,Hours per day,Price/kWh\nLight,40,12,0.30\n", "4.38 month"],
  ["Device,W,Hours,Price/kWh,Per\nLight,40,12 h a day,0.30,shelf day\n", "0.144 shelf day"],
  ["Task,Hours per day,Rate,Per\nMisting,0.5,12,month\n", "182.5 month"],
  ["Task,Hours per day,Rate,Per\nFilling,2,12,cook\n", "left out"],
  ["Device,W,Hours,Price/kWh,Per\nLight,40,12 h a day,0.30,load\n", "left out"],
  ["Item,Cost,Per,Used for mushrooms\nRent,60,month,yes\n", "60 month"],
  ["Item,Cost,Per,Used for mushrooms\nRent,60,month,partly\n", "left out"],
  ["Item,Cost,Per\nDepreciation tent,3.75,month\n", "3.75 month"],
  ["Item,Cost,Per\nGas,2.40,1 load (6 trays)\n", "2.4 load"],
  ["Item,Bill,Months,My share\nElectric,186,3,40%\n", "24.8 month"],

  ["Item,Cost,Per\nEquipment,7.50,tray\n", "left out"],
  // tax
  ["Article;Prix;Conditionnement;Par barquette\nSacs;50 € TTC;100;1\n", "0.5 tray"],
  ["Article;Prix;Conditionnement;Par barquette\nSacs;50 € HT;100;1\n", "left out"],
])("%j: %s", async (costs, read) => expect(await firstLine(costs)).toBe(read));

test.each([
  ["VAT 19%", "9.50", true],
  ["Rabatt", "10%", true],
  ["Gross", "59.50", true],
  ["Postage", "0", false],
  ["Discount", "", false],
  // how many of them
  ["Count", "2", true],
  ["Start", "12040", true],
  ["Colour", "blue", false],
  ["Invoice no", "9", false],
  ["#", "1", false],
])("a column %s with %j that is not read puts prices in doubt: %s", async (header, cell, isInDoubt) => {
  const costs = `Item,Price,Pack,Per tray,${header}\nBags,50.00,100,1,${cell}\n`;
  expect(await firstLine(costs)).toBe(isInDoubt ? "0.5 tray, in doubt" : "0.5 tray");
});

test.each([
  ["40 times", "", "", { uses: 40 }],
  ["30 uses", "", "", { uses: 30 }],
  ["", "5 years", "60", { lifeYears: 5, usesPerYear: 60 }],
  ["", "18 months", "60 times", { lifeYears: 1.5, usesPerYear: 60 }],
  ["", "500 loads", "", { uses: 500 }],
])("a thing that lasts %s %s %s", async (uses, life, often, expected) => {
  const costs = `Item,Kind,Price,Uses,Life,Uses a year,Per\nTray,reusable,7.50,${uses},${life},${often},tray\n`;
  const { costLines } = await bookOf({ "harvests/one.csv": harvest, "costs.csv": costs });
  expect(costLines).toMatchObject([{ packPrice: 7.5, amount: 1, ...expected }]);
});

test("kilowatts, loads under a life and things that last of another kind are read as what they are", async () => {
  const costs =
    "Item,Kind,Price,kW,Hours,Life,Per\nSteriliser,energy,0.30/kWh,2.0,2.5,,load\nCooker,equipment,300,,,500 loads,load\nRack,overhead,120,,,10,month\n";
  const { costLines } = await bookOf({ "harvests/one.csv": harvest, "costs.csv": costs });
  expect(costLines).toMatchObject([{ amount: 5 }, { uses: 500 }, { kind: "reusable", lifeYears: 10 }]);
});

test.each([
  "price USD",
  "cost USD",
  "$ per month",
  "cost per month ($)",
  "cost per month (USD)",
  "cost ($)",
  "monthly cost ($)",
])("a column of prices called %j is in dollars", async (name) => {
  const costs = `item;${name};per\nrent;80;month\n`;
  const { settings, costLines } = await bookOf({ "harvests/one.csv": harvest, "costs.csv": costs });
  expect([settings.currency, costLines?.length]).toEqual(["USD", 1]);
});

test.each([
  ["LC ml", "8", "inoculum_ml", "8"],
  ["LC ml", "8 ml", "inoculum_ml", "8"],
  ["dose", "8 ml", "inoculum_ml", "8"],
  ["inoculum_ml", "8", "inoculum_ml", "8"],
  ["Lamp", "red", "Lamp", "red"],
])("a line for trays whose %s is %s", async (column, value, onlyWhereColumn, onlyWhereValue) => {
  const costs = `Item,Cost,Per,If column,If value\nBran,0.10,tray,${column},${value}\n`;
  const { costLines } = await bookOf({ "harvests/one.csv": harvest, "costs.csv": costs });
  expect(costLines).toMatchObject([{ onlyWhereColumn, onlyWhereValue }]);
});

test("a sheet that speaks of costs and is not known as one is missing from the money", async () => {
  const costs = "Item,Cost,Per\nGrain,0.60,tray\n";
  const book = await bookOf({
    "harvests/one.csv": harvest,
    "costs.csv": costs,
    "electricity.csv": "Month,kWh,Cost\nJan,80,24\n",
  });
  expect(book.unread).toMatchObject([{ name: "electricity.csv", inUse: false }]);
});

test("what a sheet has no column for is asked for by the column's name, once", async () => {
  const { issues } = await bookOf({ "harvests/one.csv": harvest, "costs.csv": "Item,Cost\nGrain,0.60\n" });
  const errors = issues.filter(({ file, severity }) => file === "costs.csv" && severity === "error");
  expect(errors.map(({ action }) => action)).toEqual([
    expect.stringMatching(/^Use one of: tray, .*, in a column per$/),
  ]);
});

test("a column that columns.csv leaves unread puts nothing in doubt", async () => {
  const costs = "Item,Price,Pack,Per tray,Count\nBags,50.00,100,1,2\n";
  const columns = "file,header,field\ncosts.csv,Count,unread\n";
  const book = await bookOf({ "harvests/one.csv": harvest, "costs.csv": costs, "columns.csv": columns });
  expect([book.unread, book.issues.filter(({ file }) => file === "columns.csv")]).toEqual([undefined, []]);
});

test("a sheet without prices is told by the names it was typed with", async () => {
  const { issues } = await bookOf({ "harvests/one.csv": harvest, "costs.csv": "item,per month\nrent,80\n" });
  expect(issues.filter(({ file }) => file === "costs.csv")).toContainEqual(
    expect.objectContaining({ raw: "item, per month", severity: "error" }),
  );
});

// common practice, no source
test.each([
  ["item,cost per tray\nmy time,2.50\n", true],
  ['item,cost per tray\n"picking, own work",0.80\n', true],
  ["Posten;Preis;Pro\nMeine Arbeit;2,50;Schale\n", true],
  ["item,cost per tray,own time\nmy time,2.50,no\n", false],
  ["item,price,amount,per\nmy hours,14 per hour,24 min,tray\n", true],
  ["item,kind,cost per tray\nfilling (me),labour,2.50\n", true],
  ["item,kind,cost per tray\nself-closing bags,consumable,2.50\n", false],
  ["item,cost per tray\ntime of a helper,2.50\n", false],
  ["item,cost per tray\nmy timer,2.50\n", false],
])("a line is the grower's own time by its name unless it says otherwise: %j", async (costs, isOwn) => {
  const { costLines = [] } = await bookOf({ "harvests/one.csv": harvest, "costs.csv": costs });
  expect(costLines.map(({ ownerLabour }) => ownerLabour)).toEqual([isOwn]);
});

test("the owner's time needs no column of prices where the settings have its rate", async () => {
  const costs = "Item,Kind,Amount,Unit,Per,Owner\nPicking,labour,5,min,good tray,yes\nHelp,labour,30,min,cook,no\n";
  const settings = "key,value\nowner_labour_rate,12\n";
  const book = await bookOf({ "harvests/one.csv": harvest, "costs.csv": costs, "settings.csv": settings });
  expect(book.costLines).toMatchObject([
    { item: "Picking", packPrice: 12, packSize: 1, packUnit: "hour", amount: expect.closeTo(5 / 60, 10) },
  ]);
  expect(book.unread).toMatchObject([{ name: "Help" }]);
});

test.each([
  ["Refund bags", "6.00", "sure"],
  ["Gutschrift Beutel", "-6.00", "sure"],
  ["Bags", "-6.00", "perhaps"],
  ["Bags", "?", undefined],
])("which way costs move without %s at %s", async (item, price, cameBack) => {
  const costs = `Item,Cost,Per\n${item},${price},tray\nRice,0.50,tray\n`;
  const { unread } = await bookOf({ "harvests/one.csv": harvest, "costs.csv": costs });
  expect(unread?.map((one) => one.cameBack)).toEqual([cameBack]);
});

test("a mark for the row above stands for what is in it, and is in the log", async () => {
  const costs = "Item,Cost,Per\nGrain,0.30,tray\nBags,0.42,ditto\nLC,0.50,''\nRent,60,month\nWater,5,same\n";
  const { costLines = [], unread, issues } = await bookOf({ "harvests/one.csv": harvest, "costs.csv": costs });
  expect(costLines.map(({ per }) => per)).toEqual(["tray", "tray", "tray", "month", "month"]);
  expect(unread).toBeUndefined();
  expect(issues.filter(({ rule }) => rule === "as-above").map(({ raw, result }) => [raw, result])).toEqual([
    ["ditto", "tray"],
    ["''", "tray"],
    ["same", "month"],
  ]);
});
