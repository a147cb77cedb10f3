import { expect, test } from "vitest";
import { roleByHeader } from "../../src/cleaning/sort-sources.ts";
import type { RawTable } from "../../src/records/sheet.ts";
import { bookOf } from "./book-of.ts";

const harvest = "Tray,LC ml,Dry g,Outcome\nT1,5,21,good\nT2,10,24,good\n";
const csv = (...rows: string[]): string => `${rows.join("\n")}\n`;

const english = {
  costs: csv(
    "item;kind;price;pack;unit;quantity;per",
    "X;ingredient;12.50;25;kg;300 g;tray",
    "X;energy;0.30;1;kWh;2;load",
    "X;space;60;1;month;1;month",
    "X;culture;18;500;mL;100;batch",
  ),
  products: csv(
    "product;form;weight;price;packaging;minutes",
    "X;fresh;200 g;6.50;0.25;3",
    "Y;dried;30 g;9.90;0.35;5",
    "Z;powder;50 g;14;0.50;6",
  ),
};

// the same sheets as growers of each language type them; trade words from memory and from use
const typed: Record<string, { costs: [string, ...string[]]; products: [string, ...string[]] }> = {
  de: {
    costs: [
      "Posten;Art;Preis;Packungsgröße;Einheit;Menge;pro",
      "Zutat",
      "Strom",
      "Miete",
      "Flüssigkultur",
      "Schale",
      "Topfladung",
      "Monat",
      "Charge",
    ],
    products: ["Produkt;Form;Gewicht;Preis;Verpackung;Minuten", "frisch", "getrocknet", "Pulver"],
  },
  fr: {
    costs: [
      "Article;Catégorie;Prix;Contenance;Unité;Quantité;par",
      "ingrédient",
      "électricité",
      "loyer",
      "culture liquide",
      "barquette",
      "cycle",
      "mois",
      "fournée",
    ],
    products: ["Produit;État;Poids;Prix de vente;Emballage;Minutes", "frais", "séché", "poudre"],
  },
  es: {
    costs: [
      "Artículo;Tipo;Precio;Contenido;Unidad;Cantidad;por",
      "ingrediente",
      "luz",
      "alquiler",
      "cultivo líquido",
      "bandeja",
      "carga",
      "mes",
      "tanda",
    ],
    products: ["Producto;Estado;Peso;Precio;Embalaje;Minutos", "fresco", "deshidratado", "polvo"],
  },
  it: {
    costs: [
      "Articolo;Categoria;Prezzo;Contenuto;Unità;Quantità;per",
      "ingrediente",
      "corrente",
      "affitto",
      "coltura liquida",
      "vassoio",
      "carico",
      "mese",
      "lotto",
    ],
    products: ["Prodotto;Stato;Peso;Prezzo;Imballaggio;Minuti", "fresco", "essiccato", "polvere"],
  },
  nl: {
    costs: [
      "Artikel;Soort;Prijs;Inhoud;Eenheid;Hoeveelheid;per",
      "grondstof",
      "stroom",
      "huur",
      "vloeibare cultuur",
      "bak",
      "lading",
      "maand",
      "kooksel",
    ],
    products: ["Product;Vorm;Gewicht;Prijs;Verpakking;Minuten", "vers", "gedroogd", "poeder"],
  },
  pl: {
    costs: [
      "Pozycja;Rodzaj;Cena;Opakowanie;Jednostka;Ilość;na",
      "składnik",
      "prąd",
      "czynsz",
      "kultura płynna",
      "tacę",
      "załadunek",
      "miesiąc",
      "partię",
    ],
    products: ["Produkt;Postać;Waga;Cena;Opakowanie;Minuty", "świeże", "suszone", "proszek"],
  },
  pt: {
    costs: [
      "Artigo;Categoria;Preço;Conteúdo;Unidade;Quantidade;por",
      "ingrediente",
      "luz",
      "aluguel",
      "cultura líquida",
      "bandeja",
      "carga",
      "mês",
      "fornada",
    ],
    products: ["Produto;Estado;Peso;Preço;Embalagem;Minutos", "fresco", "desidratado", "pó"],
  },
};

const inWords = (sheet: string, header: string, from: string[], to: string[]): string => {
  const lines = sheet.split("\n");
  const rows = lines.slice(1).map((line) =>
    line
      .split(";")
      .map((cell) => (from.includes(cell) ? to[from.indexOf(cell)]! : cell))
      .join(";"),
  );
  return [header, ...rows].join("\n");
};

const costsAndProducts = async (costs: string, products: string) => {
  const book = await bookOf({ "trays.csv": harvest, "ausgaben 2026.csv": costs, "shop.csv": products });
  return {
    trays: book.trays.length,
    costs: book.costLines?.map(({ source: _, ...line }) => line),
    products: book.products?.map(({ source: _, ...product }) => product),
  };
};

test.each(Object.keys(typed))("costs and products typed in %s give what the English sheets give", async (language) => {
  const { costs, products } = typed[language]!;
  const kinds = ["ingredient", "energy", "space", "culture"];
  const bases = ["tray", "load", "month", "batch"];
  // a word may be a kind in one column and a base in another
  const [head, ...words] = costs;
  const lines = english.costs.split("\n").map((line, at) => {
    const cells = line.split(";");
    if (at === 0 || cells.length < 7) return at === 0 ? head : line;
    if (cells[4] === "month") cells[4] = words[6]!;
    cells[1] = words[kinds.indexOf(cells[1]!)]!;
    cells[6] = words[4 + bases.indexOf(cells[6]!)]!;
    return cells.join(";");
  });
  const wanted = await costsAndProducts(english.costs, english.products);
  expect([wanted.trays, wanted.costs?.length, wanted.products?.length]).toEqual([2, 4, 3]);
  const [productHead, ...forms] = products;
  expect(
    await costsAndProducts(
      lines.join("\n"),
      inWords(english.products, productHead, ["fresh", "dried", "powder"], forms),
    ),
  ).toEqual(wanted);
});

const roleOf = (...header: string[]) => roleByHeader({ header } as unknown as RawTable);

test("a list with a price is none of trays unless two of its columns are of trays", () => {
  expect(roleOf("Posten", "Preis", "Menge", "Einheit", "pro Tray")).toBe("costs");
  expect(roleOf("Produkt", "Gewicht", "Preis", "Verpackung")).toBe("products");
  expect(roleOf("Tray", "Fresh g", "Price", "Notes")).toBe("harvest");
  expect(roleOf("Schale", "Trockengewicht", "Preis", "Artikel", "Menge")).toBe("harvest");
});

test.each([
  ["Posten;Preis;Menge;Einheit;pro Tray", "Hafer"],
  ["Item;Price;Quantity;Unit;Per tray", "Oats"],
  ["Artículo;Precio;Cantidad;Unidad;por bandeja", "Avena"],
])("a column headed with what an amount goes to: %s", async (header, item) => {
  const costs = csv(header, `${item};24.90;25;kg;300 g`, `${item} 2;38;100;each;1`);
  const book = await bookOf({ "trays.csv": harvest, "einkauf.csv": costs });
  expect(book.costLines).toMatchObject([
    { item, packPrice: 24.9, packSize: 25_000, packUnit: "g", amount: 300, per: "tray" },
    { item: `${item} 2`, packPrice: 38, packSize: 100, packUnit: "each", amount: 1, per: "tray" },
  ]);
});

test("no line of a cost sheet becomes a tray, whatever its shape and name", async () => {
  const costs = csv(
    "Posten;Preis;Menge;Einheit;pro Tray",
    "Hafer;24,90;25;kg;300 g",
    "Flüssigkultur;18;100;ml;",
    "Miete Monat;60;;;",
  );
  const book = await bookOf({ "trays.csv": harvest, "einkauf.csv": costs });
  expect(book.trays).toHaveLength(2);
  expect(
    book.costLines?.length || book.unread?.length || book.issues.some(({ severity }) => severity === "error"),
  ).toBeTruthy();
});
